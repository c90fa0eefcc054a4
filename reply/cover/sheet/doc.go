// Package sheet writes a cut sheet as files.
package sheet
