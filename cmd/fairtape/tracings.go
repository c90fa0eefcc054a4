package main

import (
	"encoding/json"
	"fmt"
	"io"

	"fairtape/parse"
	"fairtape/reply/cover"
)

// lineFlag is what a tape reads along the line that is printed on tracing sheets.
type lineFlag struct {
	Line string `help:"What a tape reads along the line printed on the tracing sheet, as in \"8 in\"; without it a photo of a tracing is a preview." placeholder:"LENGTH"`
}

// length returns what was said, 0 for nothing.
func (f lineFlag) length() (parse.Length, error) {
	if f.Line == "" {
		return 0, nil
	}
	amount, fault := parse.ParseLength(f.Line)
	length, known := amount.Length(parse.Bare)
	if fault.Some() || !known || length <= 0 {
		return 0, usage(`write a number and its unit, as in "8 in" or "20 cm"`, "--line %q: cannot be meant", f.Line)
	}
	return length, nil
}

// tracings are those of the files of a survey.
func (s survey) tracings() (all []parse.Tracing) {
	for _, part := range s.parts {
		for _, d := range part.Documents {
			all = append(all, d.Tracings...)
		}
	}
	return all
}

// tracingJSON is a tracing as scripts read it.
type tracingJSON struct {
	File       string       `json:"file"`
	Sheets     int          `json:"sheets"`
	True       bool         `json:"true_scale"`
	Preview    *string      `json:"preview"` // why it is only one
	Residual   float64      `json:"residual_mm"`
	Error      float64      `json:"error_mm"`
	PrintScale *float64     `json:"print_scale"`
	Line       [][2]float64 `json:"line_mm"`
}

// withTracings puts the tracings into a report's object, as one key more.
func withTracings(report []byte, tracings []parse.Tracing, tape parse.Length) ([]byte, error) {
	list := []tracingJSON{}
	for _, t := range tracings {
		why := t.Preview(tape)
		line := tracingJSON{File: t.File, Sheets: t.Sheets, True: why == "", Residual: t.Residual, Error: t.Error}
		if why != "" {
			line.Preview = &why
		}
		if t.PrintScale != 0 {
			line.PrintScale = &t.PrintScale
		}
		for _, p := range t.Line {
			line.Line = append(line.Line, [2]float64{p.X, p.Y})
		}
		list = append(list, line)
	}
	data, err := json.Marshal(list)
	if err != nil {
		return nil, fmt.Errorf("write the tracings: %w", err)
	}
	return fmt.Appendf(nil, `%s,"tracings":%s}`, report[:len(report)-1], data), nil
}

// printTracings says what photos of tracings are good for.
func printTracings(w io.Writer, tracings []parse.Tracing, tape parse.Length) error {
	for _, t := range tracings {
		scale := "print scale not seen"
		if t.PrintScale != 0 {
			scale = fmt.Sprintf("printed at %.1f %% by the paper's edges", 100*t.PrintScale)
		}
		worth := "true to scale"
		if why := t.Preview(tape); why != "" {
			worth = "preview only, the paper is still needed: " + why
		}
		_, err := fmt.Fprintf(w, "tracing: %s, on %s: marks off by %.2f mm, the line by %.1f mm at most; %s; %s\n",
			escape(t.File), counted(t.Sheets, "sheet", "sheets"), t.Residual, t.Error, scale, escape(worth))
		if err != nil {
			return err
		}
	}
	return nil
}

// profiles are the ends of the boat as their tracings show them. A photo that
// is only a preview ends the command: the shop meant it for more.
func (c *cutCommand) profiles(t *terminal) (profiles [2]*cover.Profile, err error) {
	tape, err := c.length()
	if err != nil {
		return profiles, err
	}
	for k, end := range []struct{ flag, file string }{{"--bow", c.Bow}, {"--stern", c.Stern}} {
		if end.file == "" {
			continue
		}
		l, err := newLoader(t)
		if err != nil {
			return profiles, err
		}
		s := l.survey(t.ctx, []string{end.file})
		if s.err != nil {
			return profiles, s.err
		}
		found := s.tracings()
		if len(found) != 1 {
			if err := printProblems(t.err, s.problems); err != nil {
				return profiles, err
			}
			return profiles, &exit{statusUnreadable, fmt.Errorf("%s %s shows no tracing on a sheet of ours", end.flag, end.file),
				"leave it out: the sheet then has that end rough, for the paper tracing"}
		}
		if why := found[0].Preview(tape); why != "" {
			return profiles, &exit{statusOpen, fmt.Errorf("%s %s is a preview only: %s", end.flag, end.file, why),
				"leave it out: the sheet then has that end rough, for the paper tracing"}
		}
		profile, err := cover.ProfileOf(found[0])
		if err != nil {
			return profiles, &exit{statusOpen, fmt.Errorf("%s %s: %w", end.flag, end.file, err), ""}
		}
		profiles[k] = profile
	}
	return profiles, nil
}
