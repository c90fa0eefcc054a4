package pdf

import (
	"os"
	"path/filepath"
	"testing"
)

func TestDump(t *testing.T) {
	files, _ := filepath.Glob(os.Getenv("DUMP"))
	for _, f := range files {
		data, _ := os.ReadFile(f)
		r := Reader{Cache: "/tmp/wz"}
		d, err := r.open(t.Context(), data)
		if err != nil {
			t.Log(f, err)
			continue
		}
		s := sheet{file: f, second: readSecond(data, d.pages)}
		t.Log(f, s.second.err, s.second.fields)
		for i := range d.pages {
			p, err := d.readPage(i)
			if err != nil {
				t.Log(err)
				continue
			}
			g := s.grid(&p)
			for _, row := range g.Rows {
				line := ""
				for _, c := range row {
					line += "|" + c.Text
					if d, ok := s.doubts[c.Place]; ok {
						line += "{" + string(d.code) + "}"
					}
				}
				t.Log(line)
			}
		}
		for _, p := range s.problems {
			t.Log(p)
		}
		d.close()
	}
}
