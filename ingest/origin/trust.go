package origin

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/emersion/go-msgauth/authres"
	"github.com/emersion/go-msgauth/dkim"
	"golang.org/x/net/publicsuffix"

	"fairtape/ingest"
)

// Trust says whether a mail comes from whom its From field names.
type Trust string

// The three answers.
const (
	Pass    Trust = "pass"    // the domain of the From address vouches for the mail
	Fail    Trust = "fail"    // it says that the mail is not its own
	Unknown Trust = "unknown" // nobody says anything that can be believed
)

// Limits on checking signatures.
const (
	// maxVerifications keeps a mail with many signatures from costing time and
	// questions to the DNS; honest mail has one or two.
	maxVerifications = 3
	// verifyTime is how long all of them may take.
	verifyTime = 20 * time.Second
)

// Authenticator tells whether a sender's address is genuine.
type Authenticator struct {
	// AuthservID is the id of the server whose Authentication-Results are
	// believed (RFC 8601 section 5); fields with another id are a stranger's
	// words. "" believes none: then signatures are checked here.
	AuthservID string
	// LookupTXT asks the DNS for TXT records, as net.Resolver.LookupTXT does.
	LookupTXT func(ctx context.Context, name string) ([]string, error)
}

// Check returns whether m, whose bytes are raw, is from whom it says, and why,
// for a person of the shop.
func (a Authenticator) Check(ctx context.Context, m ingest.Message, raw []byte) (Trust, string) {
	domain := domainOf(m.From.Address)
	if domain == "" {
		return Unknown, "The mail names no sender."
	}
	if len(m.Header["From"]) > 1 {
		return Fail, "The mail names its sender twice, which no honest mail does."
	}
	if a.AuthservID != "" {
		return byResults(m.Header["Authentication-Results"], a.AuthservID, domain)
	}
	return a.bySignature(ctx, raw, domain)
}

// byResults judges by what the shop's own mail server found. Of several fields
// with its id the first counts for each method: servers put theirs on top.
func byResults(fields []string, id, domain string) (Trust, string) {
	var dmarc, spf, dkimResult authres.ResultValue
	for _, v := range fields {
		server, results, err := authres.Parse(v)
		// The id may be followed by a version (RFC 8601 section 2.2).
		server, _, _ = strings.Cut(strings.TrimSpace(server), " ")
		if err != nil || !strings.EqualFold(server, id) {
			continue
		}
		for _, r := range results {
			switch r := r.(type) {
			case *authres.DMARCResult:
				if dmarc == "" && (r.From == "" || sameOwner(r.From, domain)) {
					dmarc = r.Value
				}
			case *authres.DKIMResult:
				if sameOwner(signer(r), domain) && dkimResult != authres.ResultPass {
					dkimResult = r.Value
				}
			case *authres.SPFResult:
				if spf == "" && sameOwner(domainOrSelf(r.From), domain) {
					spf = r.Value
				}
			}
		}
	}
	switch {
	case dmarc == authres.ResultPass:
		return Pass, "The mail server confirmed the sender (DMARC)."
	case dmarc == authres.ResultFail:
		return Fail, "The mail server found that the sender's address is not genuine (DMARC)."
	case dkimResult == authres.ResultPass:
		return Pass, "The mail server confirmed the sender's signature (DKIM)."
	case spf == authres.ResultPass:
		return Pass, "The mail server confirmed the server it was sent from (SPF)."
	case dkimResult == authres.ResultFail:
		return Fail, "The mail server found the sender's signature broken (DKIM)."
	case spf == authres.ResultFail:
		return Fail, "The mail came from a server that may not send for that address (SPF)."
	}
	return Unknown, "The mail server says nothing about the sender."
}

func signer(r *authres.DKIMResult) string {
	if r.Domain != "" {
		return r.Domain
	}
	return domainOrSelf(strings.TrimPrefix(r.Identifier, "@"))
}

// bySignature checks the DKIM signatures of the sender's domain.
func (a Authenticator) bySignature(ctx context.Context, raw []byte, domain string) (Trust, string) {
	if a.LookupTXT == nil {
		return Unknown, "Nothing proves the sender."
	}
	ctx, cancel := context.WithTimeout(ctx, verifyTime)
	defer cancel()
	found, err := dkim.VerifyWithOptions(bytes.NewReader(raw), &dkim.VerifyOptions{
		MaxVerifications: maxVerifications,
		LookupTXT:        func(name string) ([]string, error) { return a.LookupTXT(ctx, name) },
	})
	if err != nil && !errors.Is(err, dkim.ErrTooManySignatures) {
		return Unknown, "The mail's signature could not be read."
	}
	trust, why := Unknown, "The mail carries no signature of the sender's domain."
	for _, v := range found {
		switch {
		case !sameOwner(v.Domain, domain):
		case v.Err == nil && signsFrom(v):
			return Pass, fmt.Sprintf("%s signed the mail (DKIM).", v.Domain)
		case v.Err != nil && dkim.IsTempFail(v.Err):
			trust, why = Unknown, "The sender's signature could not be checked just now."
		case v.Err != nil:
			trust, why = Fail, fmt.Sprintf("The signature of %s does not fit the mail (DKIM).", v.Domain)
		}
	}
	return trust, why
}

// signsFrom reports whether the signature covers the sender (RFC 6376 section
// 5.4 demands it).
func signsFrom(v *dkim.Verification) bool {
	for _, key := range v.HeaderKeys {
		if strings.EqualFold(key, "From") {
			return true
		}
	}
	return false
}

// sameOwner reports whether two domains belong to the same organisation, as
// relaxed alignment does (RFC 7489 section 3.1).
func sameOwner(a, b string) bool {
	a, b = strings.ToLower(strings.TrimSuffix(a, ".")), strings.ToLower(strings.TrimSuffix(b, "."))
	if a == "" || b == "" {
		return false
	}
	if a == b {
		return true
	}
	oa, errA := publicsuffix.EffectiveTLDPlusOne(a)
	ob, errB := publicsuffix.EffectiveTLDPlusOne(b)
	return errA == nil && errB == nil && oa == ob
}

func domainOf(address string) string {
	i := strings.LastIndexByte(address, '@')
	if i < 0 {
		return ""
	}
	return strings.ToLower(address[i+1:])
}

func domainOrSelf(s string) string {
	if d := domainOf(s); d != "" {
		return d
	}
	return s
}
