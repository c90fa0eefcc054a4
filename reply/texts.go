package reply

import (
	"errors"
	"fmt"
	htmltemplate "html/template"
	"io/fs"
	"net/url"
	"path"
	"slices"
	"text/template"
	"unicode/utf8"

	"fairtape/templates"
)

// Texts holds the words and the layouts of the letters, checked and ready. It
// is safe for use by several goroutines.
type Texts struct {
	sentences map[string]*template.Template // by language
	text      *template.Template
	html      *htmltemplate.Template
}

// Where the texts lie, in the built-in set and in a shop's own folder alike.
const (
	textLayout = "layout/letter.txt.tmpl"
	htmlLayout = "layout/letter.html.tmpl"
	anySpeech  = "*.tmpl" // in the folder of each language
)

// LoadTexts returns the built-in texts, with those of the shop's own folder in
// place of the ones they name; own may be nil. What the folder does not name
// stays as it is built in. A text that cannot be used - one that no letter
// has, or with a field that does not exist - is an error that names file and
// line, and no letter is left to find out at the moment of sending: every text
// is tried on sample jobs here.
func LoadTexts(own fs.FS) (*Texts, error) {
	if own != nil {
		if err := checkPlaces(own); err != nil {
			return nil, err
		}
	}
	t := &Texts{sentences: make(map[string]*template.Template)}
	for code, lang := range languages {
		set := template.New(code).Funcs(template.FuncMap{"plural": lang.plural}).Option("missingkey=error")
		if err := parseSpeech(set, templates.Letters, code); err != nil {
			return nil, err
		}
		known := names(set)
		if own != nil {
			if err := parseSpeech(set, own, code); err != nil {
				return nil, err
			}
		}
		if err := checkSpeech(set, known); err != nil {
			return nil, err
		}
		t.sentences[code] = set
	}
	if err := t.parseLayouts(own); err != nil {
		return nil, err
	}
	return t, t.try()
}

// parseSpeech adds the sentences of one language; later ones replace earlier.
func parseSpeech(set *template.Template, files fs.FS, code string) error {
	found, err := fs.Glob(files, path.Join(code, anySpeech))
	if err != nil {
		return fmt.Errorf("letter texts: %w", err)
	}
	for _, name := range found {
		body, err := fs.ReadFile(files, name)
		if err != nil {
			return fmt.Errorf("letter texts: %w", err)
		}
		if !utf8.Valid(body) {
			return fmt.Errorf("letter texts: %s: not UTF-8; save it with that encoding", name)
		}
		if _, err := set.New(name).Parse(string(body)); err != nil {
			return fmt.Errorf("letter texts: %w", err)
		}
	}
	return nil
}

// names lists the sentences of a set, without the files they came in.
func names(set *template.Template) []string {
	var list []string
	for _, t := range set.Templates() {
		if path.Ext(t.Name()) != ".tmpl" {
			list = append(list, t.Name())
		}
	}
	slices.Sort(list)
	return list
}

// parseLayouts takes each layout from the shop's folder, else the built-in one.
func (t *Texts) parseLayouts(own fs.FS) error {
	text, err := layout(own, textLayout)
	if err != nil {
		return err
	}
	t.text, err = template.New(textLayout).Funcs(template.FuncMap{
		"wrap":      func(s string) string { return wrap("", "", s) },
		"heading":   heading,
		"bullet":    func(s string) string { return wrap("- ", "  ", s) },
		"step":      step,
		"fields":    fields,
		"signature": signature,
		"quote":     quote,
	}).Parse(text)
	if err != nil {
		return fmt.Errorf("letter texts: %w", err)
	}
	html, err := layout(own, htmlLayout)
	if err != nil {
		return err
	}
	t.html, err = htmltemplate.New(htmlLayout).Funcs(htmltemplate.FuncMap{"picture": pictureURL}).Parse(html)
	if err != nil {
		return fmt.Errorf("letter texts: %w", err)
	}
	return nil
}

func layout(own fs.FS, name string) (string, error) {
	if own != nil {
		body, err := fs.ReadFile(own, name)
		if err == nil {
			return string(body), nil
		}
		if !errors.Is(err, fs.ErrNotExist) {
			return "", fmt.Errorf("letter texts: %w", err)
		}
	}
	body, err := fs.ReadFile(templates.Letters, name)
	return string(body), err
}

// pictureURL is the address of a picture of the same mail (RFC 2392). The
// content id is our own and is escaped, so the scheme is all that is vouched
// for.
func pictureURL(contentID string) htmltemplate.URL {
	return htmltemplate.URL("cid:" + url.PathEscape(contentID))
}

// try writes every sample letter, and every sentence with the facts of each.
func (t *Texts) try() error {
	for _, sample := range Samples() {
		plan := Decide(sample.Report, sample.Job)
		if plan.Action != Write {
			continue
		}
		if _, err := t.Compose(plan, sample.Job); err != nil {
			return err
		}
	}
	for code, set := range t.sentences {
		w := writer{set: set, facts: sampleFacts()}
		for _, name := range names(set) {
			w.say(name)
		}
		if w.err != nil {
			return fmt.Errorf("in %s: %w", code, w.err)
		}
	}
	return nil
}
