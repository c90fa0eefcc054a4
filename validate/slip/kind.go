// Package slip knows what a slip of the tape or the pen does to a survey, and
// how likely each is.
package slip

// Kind names a slip, as the JSON does.
type Kind string

// The kinds. Where two fit one wrong number the earlier of OffByTen,
// Transposed, OffByFoot, Digit names it.
const (
	None             Kind = ""
	OffByTen         Kind = "off-by-ten"
	Transposed       Kind = "transposed"
	OffByFoot        Kind = "off-by-foot"
	Digit            Kind = "digit"
	MisreadTape      Kind = "misread-tape"
	SwappedPair      Kind = "swapped-pair"
	RowRepeated      Kind = "row-repeated"
	RowSkipped       Kind = "row-skipped"
	MetricEdge       Kind = "metric-edge"
	DecimalLost      Kind = "decimal-lost"
	FeetInchesJoined Kind = "feet-inches-joined"
	FromStern        Kind = "from-stern"
	OpeningForFull   Kind = "opening-for-full"
	HalfGirth        Kind = "half-girth"
	TapeOffset       Kind = "tape-offset"
	TapeLength       Kind = "tape-length"
	Unknown          Kind = "unknown"
)
