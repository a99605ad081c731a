//go:build unix

package owner

import (
	"errors"
	"io/fs"
	"os"
	"os/user"
	"path/filepath"
	"strconv"
	"syscall"
)

// Keep gives what is at path, and all in it, to the owner and group of the folder dir, if root does it. What is not there
// is no error; a link is not followed, and what has another name elsewhere is left alone.
func Keep(dir, path string) error {
	to, ok := of(dir)
	if os.Geteuid() != 0 || !ok || to.Uid == 0 {
		return nil
	}
	err := filepath.WalkDir(path, func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return err
		}
		if is, ok := info.Sys().(*syscall.Stat_t); ok && !d.IsDir() && is.Nlink > 1 {
			return nil
		}
		return os.Lchown(at, int(to.Uid), int(to.Gid))
	})
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// other is the name of the user whom dir belongs to, "" if it is this one or unknown.
func other(dir string) string {
	who, ok := of(dir)
	if !ok || int(who.Uid) == os.Geteuid() {
		return ""
	}
	number := strconv.FormatUint(uint64(who.Uid), 10)
	if known, err := user.LookupId(number); err == nil {
		return known.Username
	}
	return "'#" + number + "'" // as sudo takes it
}

func of(dir string) (*syscall.Stat_t, bool) {
	info, err := os.Stat(dir)
	if err != nil {
		return nil, false
	}
	who, ok := info.Sys().(*syscall.Stat_t)
	return who, ok
}
