package desk

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/parse/prose"
	"fairtape/parse/sheet"
)

const answers = "../../../testdata/mail/answers"

// bodies reads what stands in the mails themselves, as the service does.
type bodies struct{}

func (bodies) Read(_ context.Context, msg ingest.Message, name string) (opener.Mail, error) {
	m := opener.Mail{Body: prose.Read(name, msg.Text, msg.HTML)}
	return m, nil
}

// answer is an answer of the corpus.
type answer struct {
	name, route, body string
	truth             []Value
}

func readAnswer(t *testing.T, path string) answer {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	head, body, _ := strings.Cut(string(data), "\n\n")
	a := answer{name: filepath.Base(path), body: body}
	for _, line := range strings.Split(head, "\n") {
		key, value, _ := strings.Cut(line, ": ")
		switch key {
		case "route":
			a.route = value
		case "true":
			v, ok := splitValue(strings.TrimPrefix(value, "- "))
			if !ok {
				t.Fatalf("%s: %q is no number of a survey", path, value)
			}
			a.truth = append(a.truth, v)
		}
	}
	return a
}

// asked is the survey that the letter answers: two numbers are odd, one is
// missing.
func asked(t *testing.T) parse.Survey {
	t.Helper()
	data, err := os.ReadFile("../../../testdata/conversation/survey.csv")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := sheet.CSV("survey.csv", data, nil)
	if err != nil || len(doc.Surveys) != 1 {
		t.Fatalf("the survey is not read: %v, %v", doc.Problems, err)
	}
	s := doc.Surveys[0]
	s.SternHeight = parse.Reading{}
	return s
}

// text fills the marks of an answer in.
func (a answer) text(letter string, s parse.Survey) string {
	fill := func(mark string) string {
		var b strings.Builder
		for line := range strings.Lines(letter) {
			for _, blank := range []struct{ of, with string }{
				{"hull girth", "70 1/2"}, {"full girth", "109"}, {"under the tape", "nothing"}, {"stern height", "28"}, {"Stern height", "28"}} {
				if strings.Contains(line, blank.of) && strings.Contains(line, "____") {
					line = strings.Replace(strings.Replace(line, "____", blank.with, 1), "____", blank.with, 1)
					break
				}
			}
			b.WriteString(mark + line)
		}
		return b.String()
	}
	quoted := "> " + strings.ReplaceAll(letter, "\n", "\n> ")
	var whole strings.Builder
	fmt.Fprintf(&whole, "All again, this time with care:\n\nlength overall 17 ft 1/2 in\nbow height 28\nstern height 28\ncarry point 16 1/2\n")
	for _, st := range s.Stations {
		hull, full := st.HullGirth.Value, st.FullGirth.Value
		switch st.At.In(parse.Inch) {
		case 108:
			hull = parse.Inches(70.5)
		case 60:
			full = parse.Inches(109)
		}
		fmt.Fprintf(&whole, "%g ft: hull %g, full %g\n", st.At.In(parse.Inch)/12, hull.In(parse.Inch), full.In(parse.Inch))
	}
	return strings.NewReplacer("{{QUOTED}}", quoted, "{{FILLED}}", fill("> "), "{{FILLED-PLAIN}}", fill(""), "{{WHOLE}}", whole.String()).Replace(a.body)
}

// Answers in many styles find their job, and each number in them ends right or
// with a person of the shop. None ends silently wrong, and none is lost.
func TestAnswersOfManyStyles(t *testing.T) {
	for _, folder := range []string{answers, answers + "-unseen"} {
		paths, err := filepath.Glob(folder + "/*.txt")
		if err != nil || len(paths) < 60 {
			t.Fatalf("%d answers in %s, %v; want at least 60", len(paths), folder, err)
		}
		var sum tally
		t.Run(filepath.Base(folder), func(t *testing.T) {
			for i, path := range paths {
				if testing.Short() && i%5 != 0 {
					continue
				}
				a := readAnswer(t, path)
				t.Run(a.name, func(t *testing.T) {
					t.Parallel()
					sum.add(a.play(t))
				})
			}
		})
		t.Logf("%s: %d answers, %d joined to their job; of %d numbers %d right, %d left to a person, %d silently wrong",
			filepath.Base(folder), sum.answers, sum.joined, sum.right+sum.person+sum.wrong, sum.right, sum.person, sum.wrong)
	}
}

// tally is what came of answers.
type tally struct {
	adding                                sync.Mutex
	answers, joined, right, person, wrong int
}

func (t *tally) add(o *tally) {
	t.adding.Lock()
	defer t.adding.Unlock()
	t.answers++
	t.joined += o.joined
	t.right += o.right
	t.person += o.person
	t.wrong += o.wrong
}

// play plays one answer, and counts what became of its numbers.
func (a answer) play(t *testing.T) *tally {
	sum := &tally{}
	w := newWorld(t)
	base := asked(t)
	w.says("Our canoe", base)
	w.arrive(mail{uid: 1, from: "Ann Tarn <" + ann + ">", subject: "Our canoe", id: "1@tarn.example"})
	letter := w.openLetter(1)
	w.send(1)
	if len(w.letters) != 1 {
		t.Fatalf("no letter went out:\n%s", letter)
	}
	reply := mail{uid: 2, from: "Ann Tarn <" + ann + ">", subject: "Re: Our canoe", id: "2@tarn.example", body: strings.ReplaceAll(a.text(letter, base), "\n", "\r\n"),
		header: "MIME-Version: 1.0\r\nContent-Type: text/plain; charset=utf-8\r\n"}
	switch a.route {
	case "reply":
		reply.answers = "letter-1@pinfold.example"
	case "own":
		reply.answers = "1@tarn.example"
	case "address":
		reply.subject = "canoe cover"
	default:
		t.Fatalf("no such route: %q", a.route)
	}
	w.reader = bodies{}
	w.arrive(reply)
	m := w.message(2)
	if m.Job != 1 {
		t.Errorf("it went to job %d (%s, %s): %+v", m.Job, m.End, m.Reason, w.surveyOf(m.Job).Survey)
		sum.wrong = len(a.truth)
		return sum
	}
	sum.joined = 1
	now := w.surveyOf(1).Survey
	job := w.job(1)
	told := len(job.Summary.Problems) > 0 || job.Summary.Question != "" || m.End == ledger.Held
	report := w.desk().judge(now, nil, nil)
	meant := map[parse.Cell]parse.Length{}
	for _, v := range a.truth {
		cell, length, err := v.In(base)
		if err != nil {
			t.Fatal(err)
		}
		meant[cell] = length
	}
	for _, cell := range Cells(base) {
		was, is := ReadingAt(base, cell), ReadingAt(now, cell)
		want, given := meant[cell]
		switch {
		case given && is.Certain() && is.Value == want:
			sum.right++
		case given && told && (!is.Certain() || was.Known && is.Value == was.Value):
			sum.person++
		case given && was.Value != is.Value && is.Known && asksAbout(report, cell) && w.openLetter(1) != "":
			sum.person++ // as it stands in the answer, and asked for again
		case given:
			sum.wrong++
			t.Errorf("%s is %+v, and nobody is told; the customer means %s", numberName(cell, parse.Inch), is, written(want, parse.Inch))
		case is.Certain() && (!was.Known || is.Value != was.Value):
			sum.wrong++
			t.Errorf("%s became %s without a word of the customer", numberName(cell, parse.Inch), written(is.Value, parse.Inch))
		}
	}
	if t.Failed() || sum.person > 0 && testing.Verbose() {
		t.Logf("%d right, %d to a person: problems %q, question %q, %s: %s\n%s", sum.right, sum.person, job.Summary.Problems, job.Summary.Question, m.End, m.Reason, reply.body)
	}
	return sum
}
