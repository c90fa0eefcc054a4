// Package plural tells the words for one from those for several.
package plural

import (
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// One reports whether n things, at least 0, take the words for one in a
// language, as in "en" and "fr": the cardinal rules of Unicode CLDR.
func One(tag string, n int) bool {
	return plural.Cardinal.MatchPlural(language.Make(tag), n, 0, 0, 0, 0) == plural.One
}
