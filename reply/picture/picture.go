// Package picture draws what a survey looks like: girths along the boat for the
// shop, the boat from the side for the customer, and a chat post for people who
// cannot see the chat. Every function is safe to call from several goroutines
// and gives the same bytes for the same input.
package picture

import (
	"fairtape/parse"
	"fairtape/validate"
)

// Picture is a PNG on an opaque white ground with the words that stand for it.
type Picture struct {
	PNG []byte
	Alt string // plain text, one paragraph
}

// ForShop draws the girths along the boat in two panels, with the fair curve,
// its band, and every odd point ringed and named. It shows expected values and
// must never reach a customer.
func ForShop(report validate.Report) (Picture, error) {
	return Picture{}, nil
}

// ForCustomer draws the boat from the side with numbered stations and the
// tape's path at the asked places ringed. It shows no girth, no curve and
// nothing we expect. Language is "en" or "fr"; anything else is English.
func ForCustomer(survey parse.Survey, asked []parse.Cell, language string) (Picture, error) {
	return Picture{}, nil
}
