package main

import (
	"fmt"
	"io"

	"fairtape/reply/cover"
	"fairtape/reply/cover/sheet"
)

// printCut sums up a cut sheet.
func printCut(w io.Writer, s *cover.CutSheet, files []sheet.File) error {
	title := "Cut sheet"
	if !s.Settled {
		title = "DRAFT cut sheet, not for cutting"
	}
	fmt.Fprintln(w, emphasis(w, title)) //nolint:errcheck // the last write tells
	for _, line := range []string{s.GirthWords(), s.LengthWords()} {
		fmt.Fprintf(w, "  %s\n", escape(line)) //nolint:errcheck // the last write tells
	}
	fmt.Fprintf(w, "  Buy %s; the panels use %.0f %% of the cloth, their boxes would use %.0f %%\n", //nolint:errcheck // the last write tells
		s.Running(s.Lay.Length), 100*s.Lay.Use(), 100*s.Boxes.Use())
	for _, note := range s.Notes {
		fmt.Fprintf(w, "  note: %s\n", escape(note)) //nolint:errcheck // the last write tells
	}
	var err error
	for _, f := range files {
		_, err = fmt.Fprintf(w, "  %s\n", f.Name)
	}
	return err
}

// printBatch sums up several covers on one roll.
func printBatch(w io.Writer, b cover.Batch, files []sheet.File) error {
	fmt.Fprintln(w, emphasis(w, "All on one roll"))         //nolint:errcheck // the last write tells
	fmt.Fprintf(w, "  Buy %s; one by one it would be %s\n", //nolint:errcheck // the last write tells
		b.Sheets[0].Running(b.Lay.Length), b.Sheets[0].Running(b.Alone))
	var err error
	for _, f := range files {
		_, err = fmt.Fprintf(w, "  %s\n", f.Name)
	}
	return err
}
