package opener

import (
	"os"
	"runtime/metrics"
	"time"
)

// exitMemory is the status of a child that ended itself because it had grown
// too large.
const exitMemory = 9

// watchEvery is how often a child looks at its own memory: a reader fills some
// 20 MB in that time.
const watchEvery = 10 * time.Millisecond

// watchMemory ends the process when it has grown over what it may use. It
// works on every system, also where the kernel knows no such limit, and it
// ends the child in order before the kernel's does.
func watchMemory() {
	sample := []metrics.Sample{{Name: "/memory/classes/total:bytes"}, {Name: "/memory/classes/heap/released:bytes"}}
	for range time.Tick(watchEvery) {
		metrics.Read(sample)
		if sample[0].Value.Uint64()-sample[1].Value.Uint64() > memoryMost {
			os.Exit(exitMemory)
		}
	}
}
