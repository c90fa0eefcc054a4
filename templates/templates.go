// Package templates holds the words that customers read: the letters' sentences
// in English and French, and the two layouts they are set in.
package templates

import "embed"

// Letters holds the catalogue of each language (en/*.tmpl, fr/*.tmpl) and the
// layouts (layout/letter.txt.tmpl, layout/letter.html.tmpl).
//
//go:embed en fr layout
var Letters embed.FS
