package main

import (
	"strings"
	"testing"
	"unicode"
)

func TestEscape(t *testing.T) {
	tests := []struct{ in, want string }{
		{"\x1b[2Jgone", "[2Jgone"},
		{"\x1b]0;title\x07", "]0;title"},
		{"a\r\nfairtape: all is well", "a  fairtape: all is well"},
		{"form\u202efdp.exe", "formfdp.exe"}, // right-to-left override
		{"zero\u200bwidth", "zerowidth"},
		{"nul\x00", "nul"},
		{"c1 \u009b31m", "c1 31m"},
		{"bad \xff utf", "bad \ufffd utf"},
		{"Tapestry 15'9½\" – été", "Tapestry 15'9½\" – été"},
	}
	for _, tt := range tests {
		if got := escape(tt.in); got != tt.want {
			t.Errorf("escape(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

// escape looks at one character at a time, so that this is all there is.
func TestEscapeOfEveryCharacter(t *testing.T) {
	for r := range unicode.MaxRune + 1 {
		if i := strings.IndexFunc(escape(string(r)), unicode.IsControl); i >= 0 {
			t.Errorf("escape leaves %U", r)
		}
	}
}
