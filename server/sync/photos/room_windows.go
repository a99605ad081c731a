package photos

import "golang.org/x/sys/windows"

// room asks the system how many bytes are left on the disk that has the folder, and how many it has in all.
func room(dir string) (left, size uint64, err error) {
	path, err := windows.UTF16PtrFromString(dir)
	if err != nil {
		return 0, 0, err
	}
	err = windows.GetDiskFreeSpaceEx(path, &left, &size, nil)
	return left, size, err
}
