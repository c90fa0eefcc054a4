package prose

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"

	"fairtape/parse"
)

// meantMail is a mail in plain words; each test puts a label of its own in place of
// the one of its meaning.
const meantMail = `Hello,

{length|Length overall}: 6 ft
{bow|Bow height}: 18 1/2 in
{stern|Stern height}: 17 in
{carry|Carry point}: 19 1/2 in
{no length|}{another length|}
1 ft: {hull|hull girth} 35 1/2 in, {full|full girth} 42 in
2 ft: {hull|hull girth} 38 in, {full|full girth} 52 in
3 ft: {hull|hull girth} 40 in, {full|full girth} 56 in
4 ft: {hull|hull girth} 52 in, {full|full girth} 82 in
5 ft: {hull|hull girth} 36 in, {full|full girth} 42 in

{greatest at|Greatest girth at}: 4 ft 1 in
{greatest hull|Greatest hull girth}: 52 1/2 in
{greatest full|Greatest full girth}: 83 in
{greatest opening|Opening there}: 30 1/2 in

Thanks
`

func meantWith(meaning, label string) string {
	text := meantMail
	for {
		open := strings.IndexByte(text, '{')
		if open < 0 {
			return text
		}
		end := open + strings.IndexByte(text[open:], '}')
		of, plain, _ := strings.Cut(text[open+1:end], "|")
		if of == meaning {
			plain = label
			if strings.HasSuffix(meaning, " length") {
				plain += ": 37\n"
			}
		}
		text = text[:open] + plain + text[end+1:]
	}
}

func saidSurely(doc parse.Document) map[string]string {
	all := map[string]string{}
	for _, s := range doc.Surveys {
		for _, n := range written(&s) {
			said := "?"
			if n.Certain() {
				said = fmt.Sprintf("%g", n.Value.In(s.Unit))
			}
			all[fmt.Sprintf("%s@%g", n.cell.Measure, n.cell.At.In(s.Unit))] = said
		}
	}
	return all
}

// known is how many of the labels of each meaning a mail reads at least.
var known = map[string]int{
	"length": 95, "bow": 90, "stern": 65, "carry": 83, "hull": 99, "full": 80, "greatest at": 40, "greatest hull": 18, "greatest full": 16,
}

// TestMeanings reads mails with the labels that people use, each in an otherwise
// plain mail: most are read, and none makes any number wrong.
func TestMeanings(t *testing.T) {
	f, err := os.Open("../../testdata/labels/labels.txt")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	plain := saidSurely(Read("m", meantWith("", ""), "").Document)
	read := map[string]int{}
	meaning := ""
	for lines := bufio.NewScanner(f); lines.Scan(); {
		line := strings.TrimRight(strings.TrimSpace(lines.Text()), ":")
		switch {
		case line == "" || line[0] == '#':
			continue
		case line[0] == '[':
			meaning = strings.Trim(line, "[]")
			continue
		case !strings.Contains(meantMail, "{"+meaning+"|"):
			continue
		}
		got := saidSurely(Read("m", meantWith(meaning, line), "").Document)
		whole := true
		for key, want := range plain {
			whole = whole && got[key] == want
		}
		for key, value := range got {
			if value != "?" && value != plain[key] {
				t.Errorf("%s as %q: %s is %s for sure", meaning, line, key, value)
			}
		}
		if whole {
			read[meaning]++
		}
	}
	for meaning, least := range known {
		if read[meaning] < least {
			t.Errorf("%d labels of %s are read, want at least %d", read[meaning], meaning, least)
		}
	}
}
