package chat

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// Nothing from outside pings, links, formats or hides. The left side is what a
// customer could write, the right what the service is given.
func TestEscapeHostile(t *testing.T) {
	for text, want := range map[string]string{
		"<!channel>":                           "&lt;!channel&gt;",
		"<!here|here>":                         "&lt;!here|here&gt;",
		"<!everyone> <@U0ANN>":                 "&lt;!everyone&gt; &lt;@U0ANN&gt;",
		"<!subteam^S1|@crew>":                  "&lt;!subteam^S1|@crew&gt;",
		"<#C0SURVEYS>":                         "&lt;#C0SURVEYS&gt;",
		"<https://bad.example|shop.example>":   "&lt;https://bad.example|shop.example&gt;",
		"<mailto:a@b.example|click>":           "&lt;mailto:a@b.example|click&gt;",
		"&lt;!channel&gt;":                     "&amp;lt;!channel&amp;gt;",
		"`code` and ```block```":               "ˋcodeˋ and ˋˋˋblockˋˋˋ",
		"*bold* ~gone~ _slanted_":              "∗bold∗ ∼gone∼ ˍslantedˍ",
		"IMG_2034_a.jpg":                       "IMG_2034_a.jpg",
		":tada: at 14:02:33":                   ":tada∶ at 14:02:33",
		":+1::skin-tone-2:":                    ":+1∶:skin-tone-2∶",
		"> quoted":                             "&gt; quoted",
		"a\x00b\x07c\x1b[31md":                 "abc[31md",
		"line\r\nnext\rlast\u2028end":          "line\nnext\nlast\nend",
		"exe\u202egnp.scr":                     "exegnp.scr",
		"\u2066left\u2069 \u200eright\u200f":   "left right",
		"zero\u200bwidth\ufeff soft\u00adly":   "zerowidth softly",
		"\u0646\u0645\u06cc\u200c\u062f":       "\u0646\u0645\u06cc\u200c\u062f", // a joiner that Persian needs
		"15' 9\" = 35 1/2 < 36 & 2 > 1":        "15' 9\" = 35 1/2 &lt; 36 &amp; 2 &gt; 1",
		"broken \xff\xfe bytes":                "broken  bytes",
		"<" + strings.Repeat("<", 3) + "!here": "&lt;&lt;&lt;&lt;!here",
	} {
		if got := Escape(text); got != want {
			t.Errorf("Escape(%q) = %q, want %q", text, got, want)
		}
	}
}

func FuzzEscape(f *testing.F) {
	f.Add("<!channel> *a* `b` :c: &amp; \u202e")
	f.Add("_a_ _b_")
	f.Fuzz(func(t *testing.T, text string) {
		got := Escape(text)
		if strings.ContainsAny(got, "<>`*~\x1b") {
			t.Errorf("Escape(%q) = %q", text, got)
		}
		rest := strings.NewReplacer("&amp;", "", "&lt;", "", "&gt;", "").Replace(got)
		if strings.Contains(rest, "&") {
			t.Errorf("a bare ampersand in %q", got)
		}
		for _, r := range got {
			if r != '\n' && (unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Bidi_Control, r)) {
				t.Errorf("%U in %q", r, got)
			}
		}
		if !utf8.ValidString(got) {
			t.Errorf("%q is not UTF-8", got)
		}
	})
}

func FuzzSplit(f *testing.F) {
	f.Add("a\n\nb c d\ne", 5)
	f.Add("<<<<<<<<", 9)
	f.Fuzz(func(t *testing.T, text string, limit int) {
		if !utf8.ValidString(text) || limit < 8 || limit > 1000 || len(text) > 5000 {
			t.Skip()
		}
		size := func(s string) int { return utf8.RuneCountInString(Escape(s)) }
		joined := ""
		for _, p := range split(text, limit, size) {
			if size(p.text) > limit {
				t.Fatalf("piece %q is over %d", p.text, limit)
			}
			joined += p.text + p.after
		}
		if joined != text {
			t.Fatalf("joined %q, want %q", joined, text)
		}
	})
}

func TestShortenEscapedKeepsEntitiesWhole(t *testing.T) {
	for limit := 2; limit < 30; limit++ {
		got := shortenEscaped(Escape("1 < 2 & 3 > 2 & so on"), limit)
		rest := strings.NewReplacer("&amp;", "", "&lt;", "", "&gt;", "").Replace(got)
		if strings.Contains(rest, "&") || utf8.RuneCountInString(got) > limit {
			t.Errorf("limit %d: %q", limit, got)
		}
	}
}

func TestWords(t *testing.T) {
	for _, test := range []struct {
		text, want string
		mention    bool
	}{
		{"tracings in", "tracings in", false},
		{"<@U0FAIR> 14 close", "14 close", true},
		{"please <@U0FAIR|fairtape>  14 note 35 &lt; 36 &amp; so", "please   14 note 35 < 36 & so", true},
		{"<@U0BEN> look", "@U0BEN look", false},
		{"<@U0BEN|Ben> see <#C1|surveys> <!here>", "@Ben see #surveys @here", false},
		{"see <https://a.example/x?a=1&amp;b=2> or <https://a.example|this> or <mailto:i@b.example|i@b.example>",
			"see https://a.example/x?a=1&b=2 or this or i@b.example", false},
		{"14 note \u202eevil\x07", "14 note evil", false},
	} {
		if got, mention := words(test.text, "U0FAIR"); got != test.want || mention != test.mention {
			t.Errorf("words(%q) = %q, %v", test.text, got, mention)
		}
	}
}

func FuzzWords(f *testing.F) {
	f.Add("<@U0FAIR> 14 close <!here> <a|b> &lt;")
	f.Fuzz(func(t *testing.T, text string) {
		plain, _ := words(text, "U0FAIR")
		if strings.ContainsFunc(plain, func(r rune) bool { return r != '\n' && unicode.Is(unicode.Cc, r) }) {
			t.Errorf("words(%q) = %q", text, plain)
		}
	})
}
