package sheet

import "fairtape/reply/cover"

// File is one file of a cut sheet.
type File struct {
	Name string
	Data []byte
}

// Options say which files are written.
type Options struct {
	Paper    Paper
	Tiled    bool // the panels at full size over many pages too
	Returned bool // blanks for a cover that came back too
}

// Files writes a cut sheet in every form.
func Files(s *cover.CutSheet, o Options) ([]File, error) {
	type form struct {
		name  string
		write func() ([]byte, error)
	}
	forms := []form{
		{"cut-sheet.pdf", func() ([]byte, error) { return PDF(s, o.Paper) }},
		{"cut-sheet.xlsx", func() ([]byte, error) { return XLSX(s) }},
		{"panels.svg", func() ([]byte, error) { return SVG(s) }},
		{"panels.dxf", func() ([]byte, error) { return DXF(s) }},
	}
	if o.Tiled {
		forms = append(forms, form{"panels-full-size.pdf", func() ([]byte, error) { return Tiled(s, o.Paper) }})
	}
	if o.Returned {
		forms = append(forms, form{"returned.pdf", func() ([]byte, error) { return Returned(s, o.Paper) }})
	}
	var files []File
	for _, f := range forms {
		data, err := f.write()
		if err != nil {
			return nil, err
		}
		files = append(files, File{f.name, data})
	}
	return files, nil
}
