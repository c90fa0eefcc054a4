package form

import (
	"bytes"
	"crypto/md5"
	"encoding/hex"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
)

// What makes the same form the same bytes: the library writes the objects of a
// file in any order, and says when it did.

// inOrder puts the objects of a file in the order of their numbers. places says
// at which byte each begins.
func inOrder(file []byte, places map[int]int64) []byte {
	table := bytes.LastIndex(file, []byte("\nxref")) + 1
	trailer := file[table+bytes.Index(file[table:], []byte("trailer")):]
	trailer = trailer[:bytes.LastIndex(trailer, []byte("startxref"))]
	starts := append(slices.Sorted(maps.Values(places)), int64(table))
	last := slices.Max(slices.Collect(maps.Keys(places)))

	out := bytes.NewBuffer(slices.Clone(file[:starts[0]]))
	entries := "0000000000 65535 f \n"
	for number := 1; number <= last; number++ {
		start, written := places[number]
		if !written {
			entries += "0000000000 00000 f \n"
			continue
		}
		entries += fmt.Sprintf("%010d 00000 n \n", out.Len())
		end, _ := slices.BinarySearch(starts, start)
		out.Write(file[start:starts[end+1]])
	}
	at := out.Len()
	fmt.Fprintf(out, "xref\n0 %d\n%s%sstartxref\n%d\n%%%%EOF\n", last+1, entries, trailer, at)
	return out.Bytes()
}

var (
	dates = regexp.MustCompile(`/(?:CreationDate|ModDate)\s*\(D:[^)]*\)`)
	ids   = regexp.MustCompile(`/ID\s*\[\s*<[0-9A-Fa-f]*>\s*<[0-9A-Fa-f]*>\s*\]`)
	idHex = regexp.MustCompile(`<[0-9A-Fa-f]+>`)
)

// undated takes the times out of a file, so that the same form is the same
// bytes: dates become blanks, and the identifier follows from the rest. No byte
// moves, so the table of places in the file stays true.
func undated(file []byte) []byte {
	blank := func(b []byte) []byte { return bytes.Repeat([]byte{' '}, len(b)) }
	file = dates.ReplaceAllFunc(file, blank)
	sum := md5.Sum(ids.ReplaceAllFunc(file, blank)) // an identifier, no secret (ISO 32000-1, 14.4)
	id := []byte("<" + strings.ToUpper(hex.EncodeToString(sum[:])) + ">")
	return ids.ReplaceAllFunc(file, func(b []byte) []byte {
		return idHex.ReplaceAllFunc(b, func(old []byte) []byte {
			if len(old) != len(id) {
				return old
			}
			return id
		})
	})
}
