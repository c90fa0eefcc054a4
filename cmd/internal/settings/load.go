package settings

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"

	"github.com/pelletier/go-toml/v2"
)

// ErrNone is the error of Load when there is no settings file.
var ErrNone = errors.New("there is no settings file")

// Error is what is wrong in a settings file, one line each, written for the
// person who wrote the file.
type Error struct {
	File  string
	Wrong []string
}

func (e *Error) Error() string {
	return fmt.Sprintf("the settings in %s need a change:\n  %s", e.File, strings.Join(e.Wrong, "\n  "))
}

// Path returns where the settings file lies when no other place is given:
// fairtape/fairtape.toml in the user's configuration folder, which on Linux is
// the XDG base directory $XDG_CONFIG_HOME or ~/.config.
func Path() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("find the configuration folder: %w", err)
	}
	return filepath.Join(dir, "fairtape", "fairtape.toml"), nil
}

// Load reads and checks the settings file. The error is ErrNone when the file
// is not there, an *Error when something in it is wrong, and anything else
// when it could not be read.
func Load(file string) (Settings, error) {
	data, err := os.ReadFile(file)
	if errors.Is(err, os.ErrNotExist) {
		return Settings{}, fmt.Errorf("%w at %s", ErrNone, file)
	}
	if err != nil {
		return Settings{}, fmt.Errorf("read settings: %w", err)
	}
	return Parse(data, file)
}

// Parse checks the text of a settings file. Paths in it are taken relative to
// the folder of file.
func Parse(data []byte, file string) (Settings, error) {
	s := Default()
	if err := s.read(data); err != nil {
		return Settings{}, &Error{File: file, Wrong: explain(err, data)}
	}
	if wrong := append(s.check(), s.checkInboxes()...); len(wrong) > 0 {
		return Settings{}, &Error{File: file, Wrong: wrong}
	}
	dir, err := filepath.Abs(filepath.Dir(file))
	if err != nil {
		return Settings{}, fmt.Errorf("find the folder of %s: %w", file, err)
	}
	s.resolve(dir)
	for i, in := range s.Inboxes {
		view := s.with(in)
		view.resolve(dir)
		s.Inboxes[i] = view.inbox(in.Name)
	}
	return s, nil
}

// read takes the values of a file on top of the defaults.
func (s *Settings) read(data []byte) error {
	if err := inheritCloth(data, s.Cloth); err != nil {
		return err
	}
	if err := decode(data, s, true); err != nil {
		return err
	}
	s.borrowSignIn()
	return s.fillInboxes(data)
}

func decode(data []byte, into any, strict bool) error {
	d := toml.NewDecoder(bytes.NewReader(data))
	if strict {
		d.DisallowUnknownFields()
	}
	return d.Decode(into)
}

// inheritCloth gives every named cloth that cloths does not hold yet the values
// of cloth.default, so that a cloth's table only holds what is different about
// it.
func inheritCloth(data []byte, cloths map[string]Cloth) error {
	var names struct {
		Cloth map[string]any `toml:"cloth"`
	}
	if err := decode(data, &names, false); err != nil {
		return err
	}
	first := struct {
		Cloth struct {
			Default Cloth `toml:"default"`
		} `toml:"cloth"`
	}{}
	first.Cloth.Default = cloths[defaultCloth]
	if err := decode(data, &first, false); err != nil {
		return err
	}
	for name := range names.Cloth {
		if _, ok := cloths[name]; !ok {
			cloths[name] = first.Cloth.Default
		}
	}
	return nil
}

// borrowSignIn lets sending use the mailbox's account where [smtp] names none:
// for most providers they are the same. A relay on this machine without TLS
// asks for none.
func (s *Settings) borrowSignIn() {
	if s.SMTP.Address == "" || s.SMTP.User != "" || s.SMTP.TLS == None {
		return
	}
	s.SMTP.User = s.IMAP.User
	if s.SMTP.PasswordFile == "" && s.SMTP.PasswordEnv == "" && s.SMTP.OAuth2 == nil {
		s.SMTP.PasswordFile, s.SMTP.PasswordEnv, s.SMTP.OAuth2 = s.IMAP.PasswordFile, s.IMAP.PasswordEnv, s.IMAP.OAuth2
	}
}

// resolve makes every path absolute. Both connections may share one OAuth2
// table by now; an absolute path stays as it is.
func (s *Settings) resolve(dir string) {
	secrets := []*string{&s.IMAP.PasswordFile, &s.SMTP.PasswordFile, &s.Slack.BotTokenFile, &s.Slack.AppTokenFile}
	paths := []*string{&s.IMAP.CAFile, &s.SMTP.CAFile, &s.Ledger.Path, &s.Letters.Folder}
	for _, o := range []*OAuth2{s.IMAP.OAuth2, s.SMTP.OAuth2} {
		if o == nil {
			continue
		}
		secrets = append(secrets, &o.ClientSecretFile)
		if o.TokenURL == "" {
			secrets = append(secrets, &o.TokenFile)
		}
		paths = append(paths, &o.TokenFile) // written anew, so it cannot stay with systemd's
	}
	for _, p := range secrets {
		*p = inCredentials(*p)
	}
	for _, p := range append(paths, secrets...) {
		if *p != "" && !filepath.IsAbs(*p) {
			*p = filepath.Join(dir, *p)
		}
	}
}

// explain puts what the TOML library found into words for the writer of the
// file: a place, a key, and the likely fix.
func explain(err error, data []byte) []string {
	var unknown *toml.StrictMissingError
	if errors.As(err, &unknown) {
		var wrong []string
		for i := range unknown.Errors {
			e := &unknown.Errors[i]
			line, _ := e.Position()
			key := strings.Join(e.Key(), ".")
			wrong = append(wrong, fmt.Sprintf("line %d: there is no setting %s; did you mean %s?", line, key, nearest(key, keys())))
		}
		return wrong
	}
	var value wrongValue
	if errors.As(err, &value) {
		// The library gives no place for a bare number where a text is due.
		line := lineOf(data, value.value)
		return []string{fmt.Sprintf("line %d: %s: %v", line, sourceLine(data, line), value)}
	}
	var bad *toml.DecodeError
	if !errors.As(err, &bad) {
		return []string{err.Error()}
	}
	line, _ := bad.Position()
	text := sourceLine(data, line)
	message := strings.TrimPrefix(bad.Error(), "toml: ")
	if strings.Contains(message, "cannot decode") || strings.Contains(message, "cannot be stored") {
		message = "the value is of the wrong kind; compare it with the default in the documentation (texts and times stand in quotes, numbers do not)"
	}
	return []string{fmt.Sprintf("line %d: %s: %s", line, text, message)}
}

// lineOf returns the first line that sets a bare value, 0 when there is none.
func lineOf(data []byte, value string) int {
	for i, line := range strings.Split(string(data), "\n") {
		setting, _, _ := strings.Cut(line, "#")
		if _, v, ok := strings.Cut(setting, "="); ok && strings.TrimSpace(v) == value {
			return i + 1
		}
	}
	return 0
}

func sourceLine(data []byte, line int) string {
	lines := strings.Split(string(data), "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	return strings.TrimSpace(lines[line-1])
}

// keys lists every key that a settings file may hold, by its full name.
func keys() []string {
	var all []string
	var walk func(prefix string, t reflect.Type)
	walk = func(prefix string, t reflect.Type) {
		for i := range t.NumField() {
			f := t.Field(i)
			name := f.Tag.Get("toml")
			switch {
			case f.Anonymous && f.Type.Kind() == reflect.Struct:
				walk(prefix, f.Type)
				continue
			case name == "":
				continue
			}
			full := prefix + name
			all = append(all, full)
			switch elem := f.Type; {
			case elem.Kind() == reflect.Map:
				walk(full+"."+defaultCloth+".", elem.Elem())
			case elem.Kind() == reflect.Slice && elem.Elem().Kind() == reflect.Struct:
				walk(full+".", elem.Elem())
			case elem.Kind() == reflect.Pointer:
				walk(full+".", elem.Elem())
			case elem.Kind() == reflect.Struct:
				walk(full+".", elem)
			}
		}
	}
	walk("", reflect.TypeFor[Settings]())
	return all
}

// nearest returns the known name that differs from name in the fewest letters.
func nearest(name string, known []string) string {
	best, least := "", len(name)+100
	for _, k := range known {
		if d := distance(name, k); d < least {
			best, least = k, d
		}
	}
	return best
}

// distance is the number of letters to add, drop or change between a and b
// (Levenshtein 1966).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
