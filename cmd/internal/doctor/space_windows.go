package doctor

import "golang.org/x/sys/windows"

// FreeSpace returns how many bytes this user may still write in a folder.
func FreeSpace(folder string) (free uint64, err error) {
	name, err := windows.UTF16PtrFromString(folder)
	if err != nil {
		return 0, err
	}
	err = windows.GetDiskFreeSpaceEx(name, &free, nil, nil)
	return free, err
}
