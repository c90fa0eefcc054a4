package settings

import (
	"fmt"
	"strings"
	"testing"
)

// The reference and the reader of settings know the same keys, and every
// default of the reference may be written.
func TestReferenceIsWhole(t *testing.T) {
	known := map[string]bool{}
	for _, key := range keys() {
		if !strings.HasPrefix(key, "inbox") {
			known[strings.Replace(key, "cloth."+defaultCloth, "cloth.NAME", 1)] = true
		}
	}
	for _, k := range Reference() {
		full := k.Table + "." + k.Name
		if !known[full] {
			t.Errorf("%s is not a setting", full)
		}
		delete(known, full)
		if k.Help == "" {
			t.Errorf("%s has no help", full)
		}
		if k.Default == "" || strings.HasPrefix(k.Table, "imap") || strings.HasPrefix(k.Table, "shop") || k.Table == "smtp" {
			continue
		}
		file := least + fmt.Sprintf("[%s]\n%s = %s\n", k.Table, k.Name, k.Default)
		if _, err := Parse([]byte(file), "fairtape.toml"); err != nil && k.Table != "slack" {
			t.Errorf("the default of %s: %v", full, err)
		}
	}
	for key := range known {
		switch key {
		case "shop", "imap", "smtp", "slack", "ledger", "letters", "digest", "judge", "survey", "keep", "status", "cloth", "imap.oauth2", "smtp.oauth2":
		default:
			if !strings.HasPrefix(key, "smtp.oauth2.") { // as imap.oauth2
				t.Errorf("%s is missing from the reference", key)
			}
		}
	}
}
