package reply

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"
)

func TestTextsOfOnesOwnAreCheckedAtLoad(t *testing.T) {
	for _, test := range []struct{ name, file, body, want string }{
		{"unknown field", "en/mine.tmpl", "\n{{define \"regards\"}}Yours,\n{{.Shopp}}{{end}}", `en/mine.tmpl:3:2: there is no .Shopp`},
		{"unknown field on a branch that no sample takes", "en/mine.tmpl", `{{define "regards"}}{{if eq .Round 77}}{{.Expected}}{{end}}{{end}}`, "en/mine.tmpl:1:41: there is no .Expected"},
		{"unknown field in a condition", "fr/mine.tmpl", `{{define "regards"}}{{if and .Asks .Nope}}x{{end}}{{end}}`, "fr/mine.tmpl:1:35: there is no .Nope"},
		{"unknown field in a pipe", "en/mine.tmpl", `{{define "regards"}}{{printf "%s" (print .Nope)}}{{end}}`, "there is no .Nope"},
		{"unknown field of the whole", "en/mine.tmpl", `{{define "regards"}}{{if eq .Round 77}}{{$.Nope}}{{end}}{{end}}`, "there is no $.Nope"},
		{"a field of a field", "en/mine.tmpl", `{{define "regards"}}{{.Shop.Name}}{{end}}`, "en/mine.tmpl:1:27"},
		{"a text that no letter has", "en/mine.tmpl", "{{define \"regards\"}}Yours,{{end}}\n{{define \"regard\"}}Yours,{{end}}", `en/mine.tmpl:2:19: no letter has a text named "regard"`},
		{"words outside any text", "en/mine.tmpl", "Kind regards", "en/mine.tmpl:1:0: words outside"},
		{"a language that no letter has", "english/mine.tmpl", `{{define "regards"}}Yours,{{end}}`, "english/mine.tmpl: no letter looks there"},
		{"a layout that no letter has", "layout/letter.tmpl", "x", "layout/letter.tmpl: no letter looks there"},
		{"a text beside the folders", "mine.tmpl", "x", "mine.tmpl: no letter looks there"},
		{"braces that do not close", "en/mine.tmpl", "\n\n{{define \"regards\"}}{{.Shop{{end}}", "en/mine.tmpl:3"},
		{"a function that does not exist", "en/mine.tmpl", "\n{{define \"regards\"}}{{upper .Shop}}{{end}}", "en/mine.tmpl:2"},
		{"numbers joined to words", "en/mine.tmpl", `{{define "regards"}}{{plural .Shop "a" "b"}}{{end}}`, "en/mine.tmpl:1"},
		{"Latin-1", "fr/mine.tmpl", "{{define \"regards\"}}Cordialit\xe9{{end}}", "fr/mine.tmpl: not UTF-8"},
		{"a layout with an unknown field", "layout/letter.txt.tmpl", "\n{{.Blockz}}", "layout/letter.txt.tmpl:2"},
		{"an HTML layout with an unknown field", "layout/letter.html.tmpl", "<p>\n{{range .Blocks}}{{.Nope}}{{end}}</p>", "layout/letter.html.tmpl:2"},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := LoadTexts(fstest.MapFS{test.file: {Data: []byte(test.body)}})
			if err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want one that says %q", err, test.want)
			}
		})
	}
}

func TestTextsOfOnesOwnReplaceOnlyWhatTheyName(t *testing.T) {
	own := fstest.MapFS{
		"en/ours.tmpl": {Data: []byte(`{{/* ours */}}{{define "regards"}}Fair winds from {{.Shop}},{{end}}`)},
		"README":       {Data: []byte("our texts")},
	}
	texts, err := LoadTexts(own)
	if err != nil {
		t.Fatal(err)
	}
	builtIn := loadTexts(t)
	for _, s := range Samples() {
		got, ok := letterOf(t, texts, s.Report, s.Job)
		want, _ := letterOf(t, builtIn, s.Report, s.Job)
		if !ok {
			continue
		}
		text := want.Text
		if s.Job.Language == English {
			text = strings.Replace(text, "Kind regards,", "Fair winds from Pinfold Cover Loft,", 1)
		}
		if got.Text != text {
			t.Errorf("%s, %s: more changed than the text of one's own:\n%s", s.Name, s.Job.Language, got.Text)
		}
	}
}

func TestMissingFolderIsSaid(t *testing.T) {
	if _, err := LoadTexts(os.DirFS(filepath.Join(t.TempDir(), "nothing"))); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("error %v, want fs.ErrNotExist", err)
	}
}

// The page that shops write their texts by names every fact there is.
func TestReadmeNamesEveryFact(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "templates", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for i := range reflect.TypeFor[Facts]().NumField() {
		if name := reflect.TypeFor[Facts]().Field(i).Name; !strings.Contains(string(page), "`."+name+"`") {
			t.Errorf("templates/README.md does not name .%s", name)
		}
	}
}

func TestEmptyFolderIsTheBuiltInTexts(t *testing.T) {
	texts, err := LoadTexts(fstest.MapFS{})
	if err != nil {
		t.Fatal(err)
	}
	s := Samples()[2]
	got, _ := letterOf(t, texts, s.Report, s.Job)
	want, _ := letterOf(t, loadTexts(t), s.Report, s.Job)
	if got.Text != want.Text || got.HTML != want.HTML {
		t.Error("an empty folder changes a letter")
	}
}
