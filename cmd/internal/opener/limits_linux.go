package opener

import (
	"errors"
	"os/exec"
	"runtime"
	"syscall"

	"golang.org/x/sys/unix"
)

func (o *Opener) systemLimits() []Limit {
	limits := []Limit{
		{"other programs and new connections", hasCallFilter(), "a kernel with filters of system calls (seccomp)"},
		{"files other than its cache", hasPathFilter(), "Linux 5.13 with Landlock switched on, and a binary built with CGO_ENABLED=0"},
		{"the network", o.hasOwnNetwork(), "user namespaces that need no privileges"},
	}
	for i := range limits {
		if limits[i].Here {
			limits[i].Need = ""
		}
	}
	return limits
}

// hasCallFilter asks whether this thread is filtered, which a kernel without
// filters does not understand (prctl(2), PR_GET_SECCOMP).
func hasCallFilter() bool {
	if runtime.GOARCH != "amd64" && runtime.GOARCH != "arm64" {
		return false
	}
	_, _, errno := unix.Syscall(unix.SYS_PRCTL, unix.PR_GET_SECCOMP, 0, 0)
	return errno == 0
}

// hasPathFilter asks for the version of Landlock, and whether all threads can
// be reached.
func hasPathFilter() bool {
	version, _, errno := unix.Syscall(unix.SYS_LANDLOCK_CREATE_RULESET, 0, 0, unix.LANDLOCK_CREATE_RULESET_VERSION)
	if errno != 0 || version < 1 {
		return false
	}
	_, _, errno = syscall.AllThreadsSyscall(unix.SYS_GETPID, 0, 0, 0)
	return errno != syscall.ENOTSUP
}

// hasOwnNetwork starts a child that finds no order and ends.
func (o *Opener) hasOwnNetwork() bool {
	cmd := exec.Command(o.executable)
	cmd.Args = []string{childName}
	cmd.Env = []string{}
	cmd.SysProcAttr = ownNetwork()
	err := cmd.Run()
	var ended *exec.ExitError
	return err == nil || errors.As(err, &ended)
}
