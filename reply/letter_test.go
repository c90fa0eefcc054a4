package reply

import (
	"encoding/xml"
	"errors"
	"flag"
	"html"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"fairtape/parse"
	"fairtape/validate"
	"fairtape/validate/slip"
)

var update = flag.Bool("update", false, "write the golden letters anew")

func loadTexts(t testing.TB) *Texts {
	t.Helper()
	texts, err := LoadTexts(nil)
	if err != nil {
		t.Fatal(err)
	}
	return texts
}

// written is a sample with its letter, and the blocks that it was set from.
type written struct {
	Sample
	plan   Plan
	draft  Draft
	blocks []block
}

// sampleLetters writes every sample that leads to a letter, with a picture.
func sampleLetters(t *testing.T) []written {
	t.Helper()
	texts := loadTexts(t)
	var list []written
	for _, s := range Samples() {
		s.Job.Picture = &Picture{PNG: []byte("picture")}
		plan := Decide(s.Report, s.Job)
		draft, err := texts.Compose(plan, s.Job)
		if errors.Is(err, ErrNoLetter) {
			if s.Name != "telephone" {
				t.Errorf("%s: no letter", s.Name)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		w := newWriter(texts, plan, s.Job)
		w.letter()
		s.Name += "-" + s.Job.Language
		list = append(list, written{s, plan, draft, w.blocks})
	}
	return list
}

func TestLettersGolden(t *testing.T) {
	for _, w := range sampleLetters(t) {
		for ext, got := range map[string]string{".txt": w.draft.Text, ".html": w.draft.HTML} {
			path := filepath.Join("..", "testdata", "letter", w.Name+ext)
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) {
				t.Errorf("%s differs; look at the change, then run with -update", path)
			}
		}
	}
}

// The first sentence after the greeting is all that many people read.
func TestFirstLineSaysWhatHowLongAndByWhen(t *testing.T) {
	reason := map[string]string{English: "lets us go on with your cover", French: "nous permet de poursuivre votre housse"}
	by := map[string]string{English: "Wednesday 2 December", French: "mercredi 2 décembre"}
	for _, w := range sampleLetters(t) {
		if !w.plan.Asks() {
			continue
		}
		first := strings.ReplaceAll(w.blocks[1].Text, nbsp, " ")
		for _, part := range []string{reason[w.draft.Language], by[w.draft.Language]} {
			if !strings.Contains(first, part) {
				t.Errorf("%s: first line does not say %q: %s", w.Name, part, first)
			}
		}
		if says := strings.Contains(first, " minute"); says != (w.plan.Minutes > 0) {
			t.Errorf("%s: minutes in the first line: %v, asked for %d", w.Name, says, w.plan.Minutes)
		}
	}
}

var sentenceEnd = regexp.MustCompile(`[.!?](?:\s|$)`)

// GOV.UK content design: sentences of at most 25 words.
func TestSentencesAreShort(t *testing.T) {
	const most = 25
	for _, w := range sampleLetters(t) {
		for _, b := range w.blocks {
			texts := []string{b.Text}
			for _, it := range b.Items {
				texts = append(texts, it.Text)
			}
			for _, text := range texts {
				for _, sentence := range sentenceEnd.Split(strings.ReplaceAll(text, nbsp, " "), -1) {
					words := slices.DeleteFunc(strings.Fields(sentence), func(word string) bool {
						return strings.Trim(word, ":;?!«»_") == ""
					})
					if len(words) > most && b.Kind != "quote" && b.Kind != "figure" {
						t.Errorf("%s: %d words: %s", w.Name, len(words), sentence)
					}
				}
			}
		}
	}
}

// No letter blames, commands or apologises by formula.
func TestNoBannedPhrases(t *testing.T) {
	banned := map[string][]string{
		English: {"wrong", "mistake", "error", "incorrect", "invalid", "fail", "unfortunately", "you forgot", "you must", "you have to", "should have",
			"please note", "kindly", "as per", "impossible", "suspicious", "unrealistic", "expected", "we think", "should be", "dear customer", "simply", "just ", "obviously"},
		French: {"erreur", "faute", "faux", "fausse", "incorrect", "invalide", "échec", "malheureusement", "vous avez oublié", "vous devez", "il faut",
			"auriez dû", "veuillez noter", "impossible", "suspect", "attendu", "nous pensons", "devrait", "cher client", "simplement", "évidemment", "urgent"},
	}
	texts := loadTexts(t)
	for code, set := range texts.sentences {
		for _, name := range names(set) {
			body := strings.ToLower(strings.Join(strings.Fields(set.Lookup(name).Tree.Root.String()), " "))
			for _, phrase := range banned[code] {
				if strings.Contains(body, phrase) {
					t.Errorf("%s/%s says %q", code, name, phrase)
				}
			}
		}
	}
}

func TestTextStaysWithinColumns(t *testing.T) {
	for _, w := range sampleLetters(t) {
		for line := range strings.Lines(w.draft.Text) {
			if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > columns {
				t.Errorf("%s: %d columns: %s", w.Name, n, line)
			}
		}
	}
}

var (
	head       = regexp.MustCompile(`(?s)^.*</head>`)
	image      = regexp.MustCompile(`<img [^>]*alt="([^"]*)"[^>]*>`)
	tag        = regexp.MustCompile(`<[^>]*>`)
	textMarkup = regexp.MustCompile(`(?m)^(?:-{3,}|-- |- |> ?|\d+\. |\[)|\]$`)
)

// Text and HTML say the same words in the same order.
func TestPartsAreEqualInContent(t *testing.T) {
	for _, w := range sampleLetters(t) {
		shown := image.ReplaceAllString(head.ReplaceAllString(w.draft.HTML, ""), " $1 ")
		shown = strings.ReplaceAll(html.UnescapeString(tag.ReplaceAllString(shown, " ")), nbsp, " ")
		inHTML, inText := strings.Fields(shown), strings.Fields(textMarkup.ReplaceAllString(w.draft.Text, ""))
		for i := range min(len(inHTML), len(inText)) {
			if inHTML[i] != inText[i] {
				t.Errorf("%s: HTML says %q where the text says %q", w.Name, inHTML[i:min(i+6, len(inHTML))], inText[i:min(i+6, len(inText))])
				break
			}
		}
		if len(inHTML) != len(inText) {
			t.Errorf("%s: %d words in HTML, %d in the text", w.Name, len(inHTML), len(inText))
		}
	}
}

// What mail programs show and screen readers need; see caniemail.com and WCAG
// 2.2, 1.1.1, 1.3.1 and 3.1.1.
func TestHTMLIsPlainAndWellFormed(t *testing.T) {
	for _, w := range sampleLetters(t) {
		d := xml.NewDecoder(strings.NewReader(strings.TrimPrefix(w.draft.HTML, "<!DOCTYPE html>")))
		d.Entity = xml.HTMLEntity
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Errorf("%s: %v", w.Name, err)
				break
			}
		}
		for _, never := range []string{"<table", "<style", "<script", "http:", "https:", "data:", `alt=""`, "; color:", `"color:`, "ZgotmplZ"} {
			if strings.Contains(w.draft.HTML, never) {
				t.Errorf("%s: has %s", w.Name, never)
			}
		}
		for _, always := range []string{`<html lang="` + w.draft.Language + `">`, "<h1 ", "font: 16px"} {
			if !strings.Contains(w.draft.HTML, always) {
				t.Errorf("%s: lacks %s", w.Name, always)
			}
		}
		if len(w.draft.Pictures) == 1 && !strings.Contains(w.draft.HTML, `src="cid:`+w.draft.Pictures[0].ContentID+`"`) {
			t.Errorf("%s: the picture is not shown by its content id", w.Name)
		}
	}
}

// Whatever sends a person to the boat says how to stay safe there.
func TestCautionsGoWithMeasuring(t *testing.T) {
	caution := map[string]string{English: "Two people lift the boat.", French: "Soulevez le bateau à deux."}
	for _, w := range sampleLetters(t) {
		measuring := len(w.plan.Again) > 0 || w.plan.AllAgain || len(w.plan.Missing) > 0 || w.Job.Request.Form
		if got := strings.Contains(w.draft.Text, caution[w.draft.Language]); got != measuring {
			t.Errorf("%s: cautions %v, measuring %v", w.Name, got, measuring)
		}
	}
}

// What the customer wrote stands only below the list of what to measure.
func TestOldNumbersStandBelowTheList(t *testing.T) {
	for _, w := range sampleLetters(t) {
		at := func(heading string) int {
			return slices.IndexFunc(w.blocks, func(b block) bool { return b.Text == heading })
		}
		texts := loadTexts(t)
		say := newWriter(texts, w.plan, w.Job).say
		list, old := at(say("again.heading")), at(say("wrote.heading"))
		if old >= 0 && old < list {
			t.Errorf("%s: old numbers at block %d, the list at %d", w.Name, old, list)
		}
		if list >= 0 && old < 0 {
			t.Errorf("%s: asks again and does not say what stands now", w.Name)
		}
	}
}

func TestEveryQuestionHasWordsInBothLanguages(t *testing.T) {
	texts := loadTexts(t)
	kinds := []slip.Kind{slip.None, slip.SwappedPair, slip.RowRepeated, slip.RowSkipped, slip.MetricEdge, slip.DecimalLost,
		slip.FeetInchesJoined, slip.FromStern, slip.OpeningForFull, slip.HalfGirth, slip.TapeOffset, slip.TapeLength}
	for _, code := range []string{English, French} {
		seen := make(map[string]slip.Kind)
		for _, kind := range kinds {
			for _, f := range []validate.Finding{confirm(kind, 7, parse.FullGirth), rows(validate.Confirm, kind, 1, 15), rows(validate.Confirm, kind, 4, 6)} {
				job := Job{Round: 1, Language: code}
				plan := Decide(validate.Report{Survey: heron().survey, Findings: []validate.Finding{f}, Verdict: validate.NeedRecheck}, job)
				w := newWriter(texts, plan, job)
				if len(plan.Questions) != 1 {
					t.Fatalf("%q: %d questions", kind, len(plan.Questions))
				}
				text := w.question(plan.Questions[0])
				if w.err != nil || !strings.HasSuffix(text, "?"+nbsp+blank) {
					t.Errorf("%s, %q: %q, %v", code, kind, text, w.err)
				}
				if other, ok := seen[text]; ok && other != kind {
					t.Errorf("%s: %q and %q ask the same: %s", code, kind, other, text)
				}
				seen[text] = kind
			}
		}
	}
}

func TestEveryMeasureHasWordsInBothLanguages(t *testing.T) {
	texts := loadTexts(t)
	for _, code := range []string{English, French} {
		w := newWriter(texts, Plan{}, Job{Language: code})
		for _, m := range []parse.Measure{parse.HullGirth, parse.FullGirth, parse.MeasurePair, parse.LengthOverall, parse.BowHeight, parse.SternHeight,
			parse.CarryPoint, parse.GreatestAt, parse.GreatestHullGirth, parse.GreatestFullGirth, parse.GreatestPair, parse.GreatestOpening,
			parse.TransomHullGirth, parse.TransomFullGirth, parse.TransomPair} {
			for _, cell := range single(parse.Cell{Measure: m}) {
				for _, name := range append(meaningsOf(cell.Measure), "measure."+string(m)) {
					if w.say(name) == "" || w.err != nil {
						t.Errorf("%s: no words for %s: %v", code, name, w.err)
					}
				}
			}
		}
		for code, name := range troubles {
			if w.say(name) == "" || w.err != nil {
				t.Errorf("no words for the problem %s: %v", code, w.err)
			}
		}
	}
}

// Both languages have the same texts, so neither falls silent.
func TestLanguagesHaveTheSameTexts(t *testing.T) {
	texts := loadTexts(t)
	if en, fr := names(texts.sentences[English]), names(texts.sentences[French]); !slices.Equal(en, fr) {
		t.Errorf("English has\n%s\nFrench has\n%s", en, fr)
	}
}
