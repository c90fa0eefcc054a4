package soak

import (
	"fmt"
	"regexp"

	"fairtape/cmd/fairtape/sample"
)

// customers is every address and Message-ID of a sample mail, but not the
// shop's.
var customers = regexp.MustCompile(`@((?:[a-z0-9-]+\.)+example)`)

const shopDomain = "pinfold.example"

// Mails are the mails of the invented week, over and over: each week comes from
// other people.
type Mails struct{ week []sample.Mail }

// NewMails returns the mails.
func NewMails() (*Mails, error) {
	week, err := sample.Mails()
	if err != nil {
		return nil, err
	}
	return &Mails{week}, nil
}

// Len is how many mails a week has.
func (m *Mails) Len() int { return len(m.week) }

// Mail returns the n-th mail, from 0.
func (m *Mails) Mail(n int) []byte {
	week := n / len(m.week)
	return customers.ReplaceAllFunc(m.week[n%len(m.week)].Raw, func(at []byte) []byte {
		domain := string(at[1:])
		if domain == shopDomain {
			return at
		}
		return fmt.Appendf(nil, "@week%d.%s", week, domain)
	})
}
