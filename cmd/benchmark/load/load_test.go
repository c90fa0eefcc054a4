package load

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/benchmark/soak"
	"fairtape/ingest/eml"
)

// A small load on the real program: memory bounded, order kept, posts at the
// chat's pace, nothing lost.
func TestRun(t *testing.T) {
	if testing.Short() {
		t.Skip("it builds the program")
	}
	var out bytes.Buffer
	c := Command{Waiting: 300, Large: 1, Burst: 0, Old: 500, Limit: 2 * time.Minute}
	if err := c.Run(t.Context(), &out); err != nil {
		t.Fatalf("%v\n%s", err, &out)
	}
	for _, want := range []string{"300 mails wait", "1 answered, 0 held, 299 ignored", "20 new mails in a mailbox of 500", "0 things wrong"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("no %q in\n%s", want, &out)
		}
	}
}

func TestMails(t *testing.T) {
	mails, err := soak.NewMails()
	if err != nil {
		t.Fatal(err)
	}
	for name, one := range map[string]func(int) []byte{"mixed": mixed(mails), "surveys": surveys(mails), "large": large} {
		seen := map[string]bool{}
		for n := range 3 {
			m, err := eml.Parse(one(n))
			if err != nil || seen[m.ID] {
				t.Errorf("%s %d: %v, Message-ID %s", name, n, err, m.ID)
			}
			seen[m.ID] = true
			if name != "mixed" && len(m.Attachments) == 0 && len(m.Text) < 100 {
				t.Errorf("%s %d brings nothing", name, n)
			}
		}
	}
	if size := len(large(0)); size < 13<<20 || size > 15<<20 {
		t.Errorf("a large mail has %d bytes", size)
	}
}
