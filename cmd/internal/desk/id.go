package desk

import (
	"crypto/rand"
	"fmt"
	"strconv"
	"strings"

	"fairtape/reply"
)

// NewMailID returns a new Message-ID in the domain of an address, without
// angle brackets.
func NewMailID(from string) string {
	_, domain, ok := strings.Cut(from, "@")
	if !ok {
		domain = "localhost"
	}
	return strings.ToLower(rand.Text()) + "@" + domain
}

// ParseDraftID reads the id of a letter, "14-2".
func ParseDraftID(s string) (reply.DraftID, error) {
	job, version, ok := strings.Cut(s, "-")
	j, err1 := strconv.Atoi(job)
	v, err2 := strconv.Atoi(version)
	if !ok || err1 != nil || err2 != nil || j < 1 || v < 1 {
		return reply.DraftID{}, fmt.Errorf("%q is not the id of a letter", s)
	}
	return reply.DraftID{Job: j, Version: v}, nil
}
