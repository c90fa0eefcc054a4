package corpus

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// readable are the endings of files that the sound part of a corpus is made of.
var readable = []string{".eml", ".xlsx", ".csv", ".tsv", ".ods", ".docx", ".pdf", ".jpg", ".png", ".heic", ".tiff", ".webp", ".txt", ".html"}

// largestSeed keeps a corpus small enough for any disk.
const largestSeed = 2 << 20

// makeCorpus fills a new folder: every sound file of a tree as it is, files made to
// hurt, and damaged ones of both kinds until there are so many.
func makeCorpus(folder, from string, count int, seed uint64) error {
	if err := os.Mkdir(folder, 0o755); err != nil {
		return fmt.Errorf("make a corpus: %w", err)
	}
	random := rand.New(rand.NewPCG(seed, 0))
	type file struct {
		name string
		data []byte
	}
	var seeds []file
	err := filepath.WalkDir(from, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !slices.Contains(readable, filepath.Ext(path)) {
			return err
		}
		data, err := os.ReadFile(path)
		if err == nil && len(data) <= largestSeed {
			seeds = append(seeds, file{filepath.Base(path), data})
		}
		return err
	})
	if err != nil {
		return fmt.Errorf("make a corpus: %w", err)
	}
	if len(seeds) == 0 {
		return errors.New("make a corpus: there is nothing to make it from")
	}
	bad, err := nasty(random)
	if err != nil {
		return fmt.Errorf("make a corpus: %w", err)
	}
	var files []file
	// A fair share of sound ones, of which "read" has to say the same.
	for i := range min(len(seeds), count/4) {
		s := seeds[i*len(seeds)/min(len(seeds), count/4)]
		files = append(files, file{"sound-" + s.name, s.data})
	}
	for _, name := range slices.Sorted(maps.Keys(bad)) {
		data := bad[name]
		files = append(files, file{"nasty-" + name, data})
		if len(data) <= largestSeed {
			seeds = append(seeds, file{name, data})
		}
	}
	slices.SortFunc(seeds, func(a, b file) int { return strings.Compare(a.name, b.name) })
	for n := len(files); n < count; n++ {
		s := seeds[random.IntN(len(seeds))]
		other := seeds[random.IntN(len(seeds))]
		name, data := damage(random, s.name, s.data, other.data)
		files = append(files, file{"damaged-" + name, data})
	}
	for n, f := range files {
		if err := os.WriteFile(filepath.Join(folder, fmt.Sprintf("%04d-%s", n, f.name)), f.data, 0o644); err != nil {
			return fmt.Errorf("make a corpus: %w", err)
		}
	}
	return nil
}

// damage harms a file in one of the ways that mails, disks and people do.
func damage(random *rand.Rand, name string, data, other []byte) (string, []byte) {
	data = bytes.Clone(data)
	if len(data) == 0 {
		return name, other
	}
	at := random.IntN(len(data))
	long := min(len(data)-at, 1+random.IntN(4096))
	switch random.IntN(9) {
	case 0:
		return name, data[:at]
	case 1:
		return name, data[at:]
	case 2:
		for range 1 + random.IntN(20) {
			data[random.IntN(len(data))] ^= byte(1 << random.IntN(8))
		}
	case 3:
		clear(data[at : at+long])
	case 4:
		data = slices.Insert(data, at, data[at:at+long]...)
	case 5:
		data = slices.Delete(data, at, at+long)
	case 6: // two files in one
		data = append(data, other...)
	case 7:
		data = slices.Insert(data, at, other[:min(len(other), 4096)]...)
	case 8: // called what it is not
		name = strings.TrimSuffix(name, filepath.Ext(name)) + readable[random.IntN(len(readable))]
	}
	return name, data
}
