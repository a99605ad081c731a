package source

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// openSerial opens a serial line: eight bits, no parity, one stop bit, nothing of it interpreted (termios(3), ioctl_tty(2)).
func openSerial(device string, baud int) (*os.File, error) {
	// What does not wait is waited for by Go, and can be closed meanwhile.
	line, err := os.OpenFile(device, os.O_RDWR|unix.O_NOCTTY|unix.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	raw, err := line.SyscallConn()
	if err == nil {
		failed := raw.Control(func(fd uintptr) { err = setSerial(int(fd), baud) })
		err = errors.Join(err, failed)
	}
	if err != nil {
		return nil, errors.Join(&os.PathError{Op: "set", Path: device, Err: err}, line.Close())
	}
	return line, nil
}

func setSerial(fd, baud int) error {
	t, err := unix.IoctlGetTermios(fd, unix.TCGETS2)
	if err != nil {
		return err
	}
	t.Iflag, t.Oflag, t.Lflag = unix.IGNPAR, 0, 0
	t.Cflag = unix.CS8 | unix.CREAD | unix.CLOCAL | unix.BOTHER
	t.Ispeed, t.Ospeed = uint32(baud), uint32(baud)
	t.Cc[unix.VMIN], t.Cc[unix.VTIME] = 1, 0
	return unix.IoctlSetTermios(fd, unix.TCSETS2, t)
}
