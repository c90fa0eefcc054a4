package soak

import (
	"fmt"
	"slices"

	"fairtape/cmd/internal/rehearsal"
)

// How far the median of the last quarter of the time may lie above that of the
// second. The first is for warming up.
const (
	moreGoroutines  = 10      // those of two connections that happen to be open; a leak is one or more a mail
	moreDescriptors = 5       // the same
	moreMemory      = 8 << 20 // bytes: the collector's heap swings by this much
)

// growth says what the service holds more of at the end than before.
func growth(samples []rehearsal.Vitals) (grown []string) {
	quarter := len(samples) / 4
	if quarter == 0 {
		return []string{"the run was too short to tell whether the service grows"}
	}
	median := func(part []rehearsal.Vitals, of func(rehearsal.Vitals) int64) int64 {
		var all []int64
		for _, v := range part {
			all = append(all, of(v))
		}
		slices.Sort(all)
		return all[len(all)/2]
	}
	for _, one := range []struct {
		name string
		of   func(rehearsal.Vitals) int64
		more int64
	}{
		{"goroutines", func(v rehearsal.Vitals) int64 { return int64(v.Goroutines) }, moreGoroutines},
		{"descriptors", func(v rehearsal.Vitals) int64 { return int64(v.Descriptors) }, moreDescriptors},
		{"bytes of memory", func(v rehearsal.Vitals) int64 { return v.Memory }, moreMemory},
	} {
		before := median(samples[quarter:2*quarter], one.of)
		after := median(samples[len(samples)-quarter:], one.of)
		if after > before+one.more {
			grown = append(grown, fmt.Sprintf("%s grew from %d to %d", one.name, before, after))
		}
	}
	return grown
}
