//go:build unix

package corpus

import (
	"runtime"

	"golang.org/x/sys/unix"
)

// peakMemory returns the most memory, in bytes, that this process or any of its
// children that ended has held at once.
func peakMemory() int64 {
	most := int64(0)
	for _, who := range []int{unix.RUSAGE_SELF, unix.RUSAGE_CHILDREN} {
		var usage unix.Rusage
		if unix.Getrusage(who, &usage) == nil {
			most = max(most, int64(usage.Maxrss))
		}
	}
	if runtime.GOOS != "darwin" { // which counts bytes; the others kilobytes
		most <<= 10
	}
	return most
}
