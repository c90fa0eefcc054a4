package soak

import (
	"strings"
	"testing"

	"fairtape/cmd/internal/rehearsal"
	"fairtape/ingest/eml"
)

// Each mail of each week is one of its own: the service must not take it for
// another that came before.
func TestMailsDiffer(t *testing.T) {
	mails, err := NewMails()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]int{}
	for n := range 3 * len(mails.week) {
		m, err := eml.Parse(mails.Mail(n))
		if err != nil {
			t.Fatal(err)
		}
		if before, ok := seen[m.ID]; ok {
			t.Errorf("mails %d and %d have the same Message-ID %s", before, n, m.ID)
		}
		seen[m.ID] = n
		for _, id := range m.InReplyTo {
			if _, ok := seen[id]; !ok {
				t.Errorf("mail %d answers %s, which did not come before it", n, id)
			}
		}
		if !strings.Contains(m.Header["To"][0], "@pinfold.example") {
			t.Errorf("mail %d goes to %v, not to the shop", n, m.Header["To"])
		}
	}
}

func TestGrowth(t *testing.T) {
	steady := func(n int) rehearsal.Vitals {
		return rehearsal.Vitals{Memory: 50 << 20, Descriptors: 20, Goroutines: 25 + n%3}
	}
	tests := []struct {
		name string
		at   func(n int) rehearsal.Vitals
		want string // "" for no growth
	}{
		{"a goroutine a mail", func(n int) rehearsal.Vitals { v := steady(n); v.Goroutines += n; return v }, "goroutines grew"},
		{"a connection every second mail", func(n int) rehearsal.Vitals { v := steady(n); v.Descriptors += n / 2; return v }, "descriptors grew"},
		{"a megabyte a mail", func(n int) rehearsal.Vitals { v := steady(n); v.Memory += int64(n) << 20; return v }, "memory grew"},
		{"warm after a while", func(n int) rehearsal.Vitals { v := steady(n); v.Memory -= int64(max(0, 10-n)) << 20; return v }, ""},
		{"steady", steady, ""},
	}
	for _, tt := range tests {
		var samples []rehearsal.Vitals
		for n := range 40 {
			samples = append(samples, tt.at(n))
		}
		got := strings.Join(growth(samples), "; ")
		if tt.want == "" && got != "" || !strings.Contains(got, tt.want) {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
	if len(growth(nil)) == 0 {
		t.Error("a run without a look counts as steady")
	}
}

func TestIdle(t *testing.T) {
	if len(idle(fewPressed, 0)) == 0 || len(idle(fewPressed-1, 0)) > 0 || len(idle(fewPressed, 1)) > 0 {
		t.Error("letters that never leave are not told from a run without any")
	}
}
