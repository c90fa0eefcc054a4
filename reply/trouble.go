package reply

import (
	"path"
	"strings"

	"fairtape/parse"
)

// troubles gives, for every problem that only the customer can mend, the text
// that says what to send instead. Every other problem - above all doubt about
// our own reading - is for the shop and asked of nobody else.
var troubles = map[parse.Code]string{
	"file-empty":      "file.empty",
	"file-locked":     "file.locked",
	"file-broken":     "file.broken",
	"file-too-large":  "file.large",
	"file-too-heavy":  "file.large",
	"file-wrong-kind": "file.kind",
	"pdf-locked":      "file.locked",
	"pdf-broken":      "file.broken",
	"pdf-xfa":         "file.form",
	"encrypted":       "file.locked",
	"winmail":         "file.winmail",
	"too-large":       "file.large",
}

// unreadable keeps the problems that the customer is asked to mend, one a file.
func unreadable(problems []parse.Problem) []parse.Problem {
	var files []parse.Problem
	seen := make(map[string]bool)
	for _, p := range problems {
		if _, theirs := troubles[p.Code]; !theirs || seen[p.Source.File] {
			continue
		}
		seen[p.Source.File] = true
		files = append(files, p)
	}
	return files
}

// fileName is a file's own name, without the mail it came in.
func fileName(source parse.Source) string { return Line(path.Base(source.File)) }

// fileSort tells archives and sound from other files that are not read, for
// which the customer has something else to do.
func fileSort(name string) string {
	switch strings.ToLower(path.Ext(name)) {
	case ".zip", ".rar", ".7z", ".gz", ".tar":
		return "archive"
	case ".m4a", ".mp3", ".ogg", ".opus", ".amr", ".wav", ".aac", ".mp4", ".mov":
		return "sound"
	}
	return ""
}
