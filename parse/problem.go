package parse

// Problem is something in a file that could not be read, or not surely. The
// rest of the file still counts. Customers never see Message; letters have
// texts of their own, keyed by Code.
type Problem struct {
	Code    Code
	Source  Source // File always; Place and Raw where there is one
	Message string // one sentence for a person of the shop
	// Shown is what stands there, for a person to look at; nil for most.
	Shown *Crop
}

// Code names a kind of problem, "decimal-comma" say. Codes are lower case with
// hyphens, and each is declared beside the reader that finds it or here, with
// what a person is asked to do about it in templates.
type Code string

// Crop is a piece of a photographed page, straightened: Width x Height pixels
// row by row, 0 black and 255 white.
type Crop struct {
	Width  int    `json:"width"`
	Height int    `json:"height"`
	Grey   []byte `json:"grey"`
}

// Sound reports a crop with as many pixels as it says, and no more than one of
// some numbers needs.
func (c Crop) Sound() bool {
	const most = 1 << 20
	return c.Width > 0 && c.Height > 0 && c.Width <= most && c.Height <= most && c.Width*c.Height == len(c.Grey) && len(c.Grey) <= most
}
