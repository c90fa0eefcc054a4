//go:build linux && (amd64 || arm64)

package opener

import (
	"errors"
	"fmt"
	"runtime"
	"unsafe"

	"golang.org/x/sys/unix"
)

// Offsets into the record that the kernel shows to a filter of calls
// (struct seccomp_data, linux/seccomp.h).
const (
	callNumber   = 0
	callMachine  = 4
	callArgument = 16 // lower half of the first
)

// x32Calls is set in the numbers of a second, unused table of calls on amd64.
const x32Calls = 0x40000000

// forbiddenCalls is what no reader of files needs: other programs, the
// network, other processes, other views of the system.
func forbiddenCalls() []uint32 {
	return append([]uint32{
		unix.SYS_EXECVE, unix.SYS_EXECVEAT,
		unix.SYS_SOCKET, unix.SYS_SOCKETPAIR, unix.SYS_CONNECT, unix.SYS_BIND, unix.SYS_LISTEN, unix.SYS_ACCEPT, unix.SYS_ACCEPT4,
		unix.SYS_PTRACE, unix.SYS_PROCESS_VM_READV, unix.SYS_PROCESS_VM_WRITEV, unix.SYS_PIDFD_OPEN, unix.SYS_PIDFD_GETFD,
		unix.SYS_UNSHARE, unix.SYS_SETNS, unix.SYS_MOUNT, unix.SYS_UMOUNT2, unix.SYS_PIVOT_ROOT, unix.SYS_CHROOT,
		unix.SYS_BPF, unix.SYS_PERF_EVENT_OPEN, unix.SYS_USERFAULTFD, unix.SYS_IO_URING_SETUP,
		unix.SYS_ADD_KEY, unix.SYS_REQUEST_KEY, unix.SYS_KEYCTL,
	}, forkCalls...)
}

// confineCalls forbids calls for all threads of this process, where the kernel
// can: those of forbiddenCalls, and new processes. Threads are allowed.
func confineCalls() error {
	machine := uint32(unix.AUDIT_ARCH_X86_64)
	if runtime.GOARCH == "arm64" {
		machine = unix.AUDIT_ARCH_AARCH64
	}
	refuse := func(errno unix.Errno) unix.SockFilter {
		return statement(unix.BPF_RET|unix.BPF_K, unix.SECCOMP_RET_ERRNO|uint32(errno))
	}
	allow := statement(unix.BPF_RET|unix.BPF_K, unix.SECCOMP_RET_ALLOW)
	load := func(offset uint32) unix.SockFilter {
		return statement(unix.BPF_LD|unix.BPF_W|unix.BPF_ABS, offset)
	}
	filter := []unix.SockFilter{
		load(callMachine),
		jump(unix.BPF_JEQ, machine, 1, 0),
		refuse(unix.EPERM),
		load(callNumber),
		jump(unix.BPF_JGE, x32Calls, 0, 1),
		refuse(unix.EPERM),
	}
	for _, call := range forbiddenCalls() {
		filter = append(filter, jump(unix.BPF_JEQ, call, 0, 1), refuse(unix.EPERM))
	}
	filter = append(filter,
		// The flags of clone3 lie in memory, where a filter cannot look;
		// callers fall back to clone when it is not there.
		jump(unix.BPF_JEQ, unix.SYS_CLONE3, 0, 1), refuse(unix.ENOSYS),
		jump(unix.BPF_JEQ, unix.SYS_CLONE, 1, 0), allow,
		load(callArgument),
		jump(unix.BPF_JSET, unix.CLONE_THREAD, 1, 0), refuse(unix.EPERM),
		allow,
	)
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	if err := unix.Prctl(unix.PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0); err != nil {
		return fmt.Errorf("forbid new privileges: %w", err)
	}
	program := unix.SockFprog{Len: uint16(len(filter)), Filter: &filter[0]}
	_, _, errno := unix.Syscall(unix.SYS_SECCOMP, unix.SECCOMP_SET_MODE_FILTER, unix.SECCOMP_FILTER_FLAG_TSYNC, uintptr(unsafe.Pointer(&program)))
	if errno != 0 && !errors.Is(errno, unix.ENOSYS) && !errors.Is(errno, unix.EINVAL) && !errors.Is(errno, unix.EACCES) {
		return fmt.Errorf("forbid calls: %w", errno)
	}
	return nil
}

func statement(code uint16, k uint32) unix.SockFilter {
	return unix.SockFilter{Code: code, K: k}
}

// jump compares what was loaded with k, and steps over that many statements.
func jump(test uint16, k uint32, over, otherwise uint8) unix.SockFilter {
	return unix.SockFilter{Code: unix.BPF_JMP | test | unix.BPF_K, Jt: over, Jf: otherwise, K: k}
}
