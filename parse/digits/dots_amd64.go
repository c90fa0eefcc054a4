package digits

import "golang.org/x/sys/cpu"

// dotsAVX2 is dots for the first n of each row, a multiple of eight.
//
//go:noescape
func dotsAVX2(sums *[together]float32, weights, rows *float32, n, reach int)

// dots multiplies weights with each of the rows, which lie one after the other.
func dots(sums *[together]float32, weights, rows []float32) {
	const lanes = 8
	reach := len(weights)
	n := reach / lanes * lanes
	if n == 0 || !cpu.X86.HasAVX2 || !cpu.X86.HasFMA {
		plainDots(sums, weights, rows)
		return
	}
	_ = rows[:together*reach] // what the assembly reads
	dotsAVX2(sums, &weights[0], &rows[0], n, reach)
	for i := range sums {
		for k := n; k < reach; k++ {
			sums[i] += weights[k] * rows[i*reach+k]
		}
	}
}
