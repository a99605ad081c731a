//go:build unix

package photos

import "syscall"

// room asks the system how many bytes are left on the disk that has the folder, and how many it has in all.
func room(dir string) (left, size uint64, err error) {
	var disk syscall.Statfs_t
	if err := syscall.Statfs(dir, &disk); err != nil {
		return 0, 0, err
	}
	block := uint64(disk.Bsize)
	return disk.Bavail * block, disk.Blocks * block, nil
}
