// Package setup makes a shop's first settings file: it guesses the mail
// servers from the address, writes a commented file, and prints what has to be
// pasted elsewhere.
package setup

import (
	"context"
	_ "embed" // for providers.toml
	"fmt"
	"net"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/pelletier/go-toml/v2"

	"fairtape/cmd/internal/settings"
)

// Server is a mail server as the settings name it.
type Server struct {
	Address string       `toml:"address"` // host:port, "" when nobody knows
	TLS     settings.TLS `toml:"tls"`
}

// Guess is what an address lets one suppose about its servers.
type Guess struct {
	IMAP, SMTP Server
	Secret     string           // what to sign in with, "" when not known
	OAuth2     *settings.OAuth2 // how to sign in by token, nil for a password
	Why        string           // "Gmail and Google Workspace", "the domain's own records"
	Sure       bool             // published somewhere; false for mere custom
}

// Resolver looks up names; *net.Resolver is one.
type Resolver interface {
	LookupSRV(ctx context.Context, service, proto, name string) (cname string, addrs []*net.SRV, err error)
	LookupMX(ctx context.Context, name string) ([]*net.MX, error)
}

//go:embed providers.toml
var providers []byte

type provider struct {
	Name    string           `toml:"name"`
	Domains []string         `toml:"domains"`
	MX      []string         `toml:"mx"`
	IMAP    Server           `toml:"imap"`
	SMTP    Server           `toml:"smtp"`
	Secret  string           `toml:"secret"`
	Source  string           `toml:"source"`
	OAuth2  *settings.OAuth2 `toml:"oauth2"`
}

func loadProviders() ([]provider, error) {
	var file struct {
		Provider []provider `toml:"provider"`
	}
	if err := toml.Unmarshal(providers, &file); err != nil {
		return nil, fmt.Errorf("read the table of providers: %w", err)
	}
	return file.Provider, nil
}

// lookupTime bounds all lookups: a person waits.
const lookupTime = 10 * time.Second

// Find guesses the servers of an address: from the table of large providers,
// from the domain's SRV records (RFC 6186 and RFC 8314), from who receives its
// mail, and last by custom. The SRV records of a domain are not signed as a
// rule, so that a person should confirm a server outside the domain.
func Find(ctx context.Context, lookup Resolver, address string) (Guess, error) {
	known, err := loadProviders()
	if err != nil {
		return Guess{}, err
	}
	domain := strings.ToLower(address[strings.LastIndex(address, "@")+1:])
	for _, p := range known {
		if slices.Contains(p.Domains, domain) {
			return p.guess(), nil
		}
	}
	ctx, cancel := context.WithTimeout(ctx, lookupTime)
	defer cancel()
	if g, ok := fromRecords(ctx, lookup, domain); ok {
		return g, nil
	}
	if mx, err := lookup.LookupMX(ctx, domain); err == nil {
		for _, p := range known {
			if p.receives(mx) {
				return p.guess(), nil
			}
		}
	}
	return Guess{
		IMAP: Server{"imap." + domain + ":993", settings.Implicit},
		SMTP: Server{"smtp." + domain + ":587", settings.StartTLS},
		Why:  "nothing but custom",
	}, nil
}

func (p provider) guess() Guess {
	return Guess{IMAP: p.IMAP, SMTP: p.SMTP, Secret: p.Secret, OAuth2: p.OAuth2, Why: p.Name, Sure: true}
}

// receives tells whether a domain's mail goes to this provider.
func (p provider) receives(mx []*net.MX) bool {
	for _, record := range mx {
		host := strings.ToLower(strings.TrimSuffix(record.Host, "."))
		for _, end := range p.MX {
			if host == end || strings.HasSuffix(host, "."+end) {
				return true
			}
		}
	}
	return false
}

// services are asked for in this order: TLS from the first byte is better (RFC
// 8314 section 3).
var (
	imapServices = []srvService{{"imaps", settings.Implicit}, {"imap", settings.StartTLS}}
	smtpServices = []srvService{{"submissions", settings.Implicit}, {"submission", settings.StartTLS}}
)

type srvService struct {
	name string
	tls  settings.TLS
}

func fromRecords(ctx context.Context, lookup Resolver, domain string) (Guess, bool) {
	imap, ok := firstRecord(ctx, lookup, domain, imapServices)
	if !ok {
		return Guess{}, false
	}
	smtp, _ := firstRecord(ctx, lookup, domain, smtpServices)
	return Guess{IMAP: imap, SMTP: smtp, Why: "the domain's own records", Sure: true}, true
}

// firstRecord returns the best server of the first service that is offered. A
// target of "." says that a service is not (RFC 2782).
func firstRecord(ctx context.Context, lookup Resolver, domain string, services []srvService) (Server, bool) {
	for _, s := range services {
		_, records, err := lookup.LookupSRV(ctx, s.name, "tcp", domain)
		if err != nil {
			continue
		}
		for _, r := range records { // sorted by priority
			if host := strings.TrimSuffix(r.Target, "."); host != "" {
				return Server{net.JoinHostPort(host, strconv.Itoa(int(r.Port))), s.tls}, true
			}
		}
	}
	return Server{}, false
}
