package prose

import (
	"strings"
	"testing"

	"fairtape/parse"
)

// FuzzRead holds that any body is read without panic, and that every sure
// number stands in the body as it was written.
func FuzzRead(f *testing.F) {
	f.Add("1 ft: 35 1/2 / 42\n2 ft: 38 / 52", "")
	f.Add("the bow is 18 1/2 inches high and the stern 17", "")
	f.Add("hull at 9ft should be 41 not 51\n> quoted 12", "")
	f.Add("", "<table><tr><td>1 ft</td><td>35½</td><td>42</td></tr></table>")
	f.Add("about 46? 41/2 1,250 46-47 ½ ' \" ,,;/", "")
	f.Fuzz(func(t *testing.T, text, html string) {
		mail := Read("m.eml", text, html)
		for _, s := range mail.Document.Surveys {
			for _, r := range []parse.Reading{s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint} {
				if r.Certain() && html == "" && !strings.Contains(text, r.Source.Raw) {
					t.Errorf("%q was read and is not in %q", r.Source.Raw, text)
				}
			}
		}
	})
}

func BenchmarkRead(b *testing.B) {
	body := strings.Repeat("1 ft: 35 1/2 / 42\nthe bow is 18 1/2 inches high and the stern 17\n", 20)
	for b.Loop() {
		Read("m.eml", body, "")
	}
}
