//go:build !amd64

package digits

// dots multiplies weights with each of the rows, which lie one after the other.
func dots(sums *[together]float32, weights, rows []float32) { plainDots(sums, weights, rows) }
