package opener

import (
	"syscall"

	"golang.org/x/sys/unix"
)

// landlocked reports that the kernel has Landlock, and that all threads of this
// binary can be put under it.
func landlocked() bool {
	_, _, errno := unix.Syscall(unix.SYS_LANDLOCK_CREATE_RULESET, 0, 0, unix.LANDLOCK_CREATE_RULESET_VERSION)
	if errno != 0 {
		return false
	}
	_, _, errno = syscall.AllThreadsSyscall(unix.SYS_GETPID, 0, 0, 0)
	return errno == 0
}
