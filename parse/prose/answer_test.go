package prose

import (
	"fmt"
	"strings"
	"testing"

	"fairtape/parse"
)

// answered writes what a mail answers, a thing a line.
func answered(m Mail) string {
	var out []string
	for _, c := range m.Corrections {
		var values []string
		for _, v := range c.Values {
			values = append(values, fmt.Sprintf("%g", v.Value.In(parse.Inch)))
		}
		out = append(out, strings.TrimSpace(fmt.Sprintf("%g %s %s %q", c.Cell.At.In(parse.Inch), c.Cell.Measure, strings.Join(values, ","), c.Source.Raw)))
	}
	for _, c := range m.Confirmations {
		out = append(out, fmt.Sprintf("%s%s yes=%t no=%t", c.Slip, c.Cell.Measure, c.Yes, c.No))
	}
	for _, p := range m.Document.Problems {
		out = append(out, fmt.Sprintf("problem %s %q", p.Code, p.Source.Raw))
	}
	if m.UnderTape != "" {
		out = append(out, "under: "+m.UnderTape)
	}
	return strings.Join(out, "\n")
}

const wrote = "On Tue, Nov 24, 2026 at 9:12 AM Pinfold <orders@pinfold.example> wrote:\n"

func TestAnswers(t *testing.T) {
	for name, c := range map[string]struct{ body, want string }{
		"a blank holds two numbers": {
			wrote + "> 6 ft  hull girth  1st try 38 39  2nd try ____  3rd ____",
			`problem several-numbers "38 39"`,
		},
		"a blank holds a rough number": {
			wrote + "> 6 ft  hull girth  1st try about 38  2nd try 38  3rd ____",
			"problem approximate \"about 38\"\nproblem second-try \"38\"",
		},
		"words in a blank": {
			wrote + "> 6 ft  hull girth  1st try cannot reach  2nd try ____  3rd ____",
			`problem not-a-length "cannot reach"`,
		},
		"tries that differ": {
			wrote + "> 6 ft  hull girth  1st try 36  2nd try 38  3rd ____",
			"72 hull_girth 36,38 \"36 / 38\"\nproblem second-try \"36 / 38\"",
		},
		"tries that agree": {
			wrote + "> 6 ft  hull girth  1st try 38  2nd try 38 1/2  3rd ____",
			`72 hull_girth 38,38.5 "38 / 38 1/2"`,
		},
		"under the blanks": {
			wrote + "> 6 ft  hull girth  1st try ____  2nd try ____  3rd ____\n38 and 38 1/2\n> 6 ft  under the tape: ____\nnothing",
			"72 hull_girth 38,38.5 \"38 / 38 1/2\"\nunder: 6 ft: nothing",
		},
		"between the lines of the blanks": {
			wrote + "> 6 ft  hull girth  1st try _38__  2nd try __38½\"_  3rd ____",
			`72 hull_girth 38,38.5 "38 / 38½\""`,
		},
		"the whole boat": {
			wrote + "> bow height  1st try 18  2nd try 18  3rd ____\n> greatest girth, distance from bow  1st try 8 ft 2 in\n> 2nd try 8' 2\"  3rd ____",
			"0 bow_height 18,18 \"18 / 18\"\n0 greatest.at 98,98 \"8 ft 2 in / 8' 2\\\"\"",
		},
		"numbers from before are not answers": {
			wrote + "> Answer this mail and type into the blanks.\n> 6 ft  hull girth  1st try 38  2nd try 38  3rd ____\n>\n> What your survey says now\n> -------\n> - 7 ft, hull girth: 23 1/2 in\n> - bow height 17",
			`72 hull_girth 38,38 "38 / 38"`,
		},
		"an earlier mail with the words of a letter is no letter": {
			wrote + "> stern height 17\n> 1 ft hull girth 35 full girth 42",
			`problem only-quoted ""`,
		},
		"what the letter quotes": {
			wrote + "> 6 ft  hull girth  1st try ____  2nd try ____  3rd ____\n>> 6 ft  hull girth  1st try 44  2nd try 44  3rd ____\n> On 24 November you wrote:\n> 7 ft hull girth 1st try 45",
			`problem only-quoted ""`,
		},
		"centimetres": {
			wrote + "> 60 cm  tour de coque  1er essai 80  2e essai 80,5  3e ____\n> hauteur avant 40",
			"23.622047244 hull_girth 31.496062992,31.692913386 \"80 / 80,5\"\n0 bow_height 15.748031496 \"40\"",
		},
		"yes and a number": {
			wrote + "> - 10 ft, hull girth: we read 460 in. Is a decimal point missing? Yes, 46",
			"120 hull_girth 46 \"46\"\ndecimal-losthull_girth yes=true no=false",
		},
		"no, in the next line": {
			wrote + "> - 11 ft: we read hull girth 62 in and full girth 43 in. Have the two\n>   changed places? ____\nno",
			"swapped-pairpair yes=false no=true",
		},
		"neither": {
			wrote + "> - bow height: we read 17 1/2 in. Is there anything special about the boat there, such as a raised or cut-down end? we raised it last year",
			"bow_height yes=false no=false",
		},
		"first with the words of a letter": {
			"6 ft hull girth 1st 38, 2nd 38\n6 ft under the tape: a cushion, now out",
			"72 hull_girth 38,38 \"38 / 38\"\nunder: 6 ft: a cushion, now out",
		},
	} {
		t.Run(name, func(t *testing.T) {
			if got := answered(Read("m.eml", c.body, "")); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}
