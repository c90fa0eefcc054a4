package parse

// Problem is something in a file that could not be read, or not surely. The
// rest of the file still counts. Customers never see Message; letters have
// texts of their own, keyed by Code.
type Problem struct {
	Code    Code
	Source  Source // File always; Place and Raw where there is one
	Message string // one sentence for a person of the shop
}

// Code names a kind of problem, "decimal-comma" say. Codes are lower case with
// hyphens, and each is declared beside the reader that finds it or here, with
// what a person is asked to do about it in templates.
type Code string
