package opener

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"unsafe"

	"golang.org/x/sys/unix"
)

// filesMost is how many descriptors a child may hold: pipes, the runtime's own
// and a few files of the compilation cache.
const filesMost = 64

// confine takes from this process what opening a file does not need. What every
// kernel can do must succeed; what only newer ones can is done where it is had.
func confine(cache string) error {
	closeInherited()
	limits := []struct {
		name     string
		resource int
		most     uint64
	}{
		{"processor time", unix.RLIMIT_CPU, cpuTime},
		{"memory", unix.RLIMIT_DATA, memoryMost + memoryMost/4}, // the watchdog comes first
		{"file size", unix.RLIMIT_FSIZE, writeMost},
		{"open files", unix.RLIMIT_NOFILE, filesMost},
		{"core dump", unix.RLIMIT_CORE, 0},
	}
	for _, l := range limits {
		if err := unix.Setrlimit(l.resource, &unix.Rlimit{Cur: l.most, Max: l.most}); err != nil {
			return fmt.Errorf("limit %s: %w", l.name, err)
		}
	}
	if err := unix.Prctl(unix.PR_SET_DUMPABLE, 0, 0, 0, 0); err != nil {
		return fmt.Errorf("forbid tracing: %w", err)
	}
	// The limit on the number of processes counts all of a user's threads and
	// would stop Go's own; the filter of calls forbids new processes instead.
	confinePaths(cache)
	return confineCalls()
}

// closeInherited closes what the parent's own parent left open, but for the
// three pipes and the files that Go's runtime keeps.
func closeInherited() {
	entries, err := os.ReadDir("/proc/self/fd")
	if err != nil {
		return
	}
	for _, e := range entries {
		fd, err := strconv.Atoi(e.Name())
		if err != nil || fd < 3 {
			continue
		}
		target, err := os.Readlink(filepath.Join("/proc/self/fd", e.Name()))
		if err != nil || strings.HasPrefix(target, "anon_inode:") || strings.HasPrefix(target, "/sys/fs/cgroup/") {
			continue
		}
		unix.Close(fd)
	}
}

// Rights on files by the version of Landlock that brought them
// (linux/landlock.h).
const (
	landlockFiles1 = unix.LANDLOCK_ACCESS_FS_MAKE_SYM<<1 - 1
	landlockFiles2 = landlockFiles1 | unix.LANDLOCK_ACCESS_FS_REFER
	landlockFiles3 = landlockFiles2 | unix.LANDLOCK_ACCESS_FS_TRUNCATE
	landlockFiles5 = landlockFiles3 | unix.LANDLOCK_ACCESS_FS_IOCTL_DEV

	landlockCache = unix.LANDLOCK_ACCESS_FS_READ_FILE | unix.LANDLOCK_ACCESS_FS_READ_DIR |
		unix.LANDLOCK_ACCESS_FS_WRITE_FILE | unix.LANDLOCK_ACCESS_FS_MAKE_REG | unix.LANDLOCK_ACCESS_FS_MAKE_DIR |
		unix.LANDLOCK_ACCESS_FS_REMOVE_FILE | unix.LANDLOCK_ACCESS_FS_TRUNCATE
)

// confinePaths leaves the cache as the only path of this process, where the
// kernel has Landlock and all threads can be reached (not in binaries with C).
func confinePaths(cache string) {
	version, _, errno := unix.Syscall(unix.SYS_LANDLOCK_CREATE_RULESET, 0, 0, unix.LANDLOCK_CREATE_RULESET_VERSION)
	if errno != 0 {
		return
	}
	var rules unix.LandlockRulesetAttr
	size := uintptr(8) // the first version knows only the rights on files
	switch {
	case version >= 5:
		rules.Handled_access_fs = landlockFiles5
	case version >= 3:
		rules.Handled_access_fs = landlockFiles3
	case version == 2:
		rules.Handled_access_fs = landlockFiles2
	default:
		rules.Handled_access_fs = landlockFiles1
	}
	if version >= 4 {
		rules.Handled_access_net = unix.LANDLOCK_ACCESS_NET_BIND_TCP | unix.LANDLOCK_ACCESS_NET_CONNECT_TCP
		size = 16
	}
	ruleset, err := landlockRuleset(&rules, size)
	if err != nil {
		return
	}
	defer unix.Close(ruleset)
	if cache != "" {
		if folder, err := unix.Open(cache, unix.O_PATH|unix.O_CLOEXEC, 0); err == nil {
			landlockAllow(ruleset, folder, landlockCache&rules.Handled_access_fs)
			unix.Close(folder)
		}
	}
	if _, _, errno := syscall.AllThreadsSyscall6(unix.SYS_PRCTL, unix.PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0, 0); errno != 0 {
		return
	}
	syscall.AllThreadsSyscall(unix.SYS_LANDLOCK_RESTRICT_SELF, uintptr(ruleset), 0, 0)
}

func landlockRuleset(rules *unix.LandlockRulesetAttr, size uintptr) (int, error) {
	fd, _, errno := unix.Syscall(unix.SYS_LANDLOCK_CREATE_RULESET, uintptr(unsafe.Pointer(rules)), size, 0)
	if errno != 0 {
		return 0, errno
	}
	return int(fd), nil
}

func landlockAllow(ruleset, folder int, rights uint64) {
	path := unix.LandlockPathBeneathAttr{Allowed_access: rights, Parent_fd: int32(folder)}
	unix.Syscall6(unix.SYS_LANDLOCK_ADD_RULE, uintptr(ruleset), unix.LANDLOCK_RULE_PATH_BENEATH, uintptr(unsafe.Pointer(&path)), 0, 0, 0)
}

// startChild starts a child with an empty network of its own where the system
// lets us, and without where not.
func startChild(command func() *exec.Cmd) (*exec.Cmd, error) {
	cmd := command()
	cmd.SysProcAttr = ownNetwork()
	err := cmd.Start()
	if err == nil || !namespacesRefused(err) {
		return cmd, err
	}
	cmd = command()
	return cmd, cmd.Start()
}

// ownNetwork is how a process starts that sees no network but an empty one.
func ownNetwork() *syscall.SysProcAttr {
	return &syscall.SysProcAttr{
		Cloneflags:  syscall.CLONE_NEWUSER | syscall.CLONE_NEWNET | syscall.CLONE_NEWIPC,
		UidMappings: []syscall.SysProcIDMap{{ContainerID: os.Getuid(), HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{ContainerID: os.Getgid(), HostID: os.Getgid(), Size: 1}},
	}
}

func namespacesRefused(err error) bool {
	return errors.Is(err, unix.EPERM) || errors.Is(err, unix.EINVAL) || errors.Is(err, unix.ENOSPC) ||
		errors.Is(err, unix.EACCES) || errors.Is(err, unix.ENOSYS)
}
