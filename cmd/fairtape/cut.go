package main

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/settings"
	"fairtape/parse"
	"fairtape/reply/cover"
	"fairtape/reply/cover/sheet"
	"fairtape/validate"
)

type cutCommand struct {
	Out      string `help:"Write the cut sheet's files into this folder." placeholder:"DIR" type:"path" required:""`
	Draft    bool   `help:"Cut an unsettled survey too; every page says DRAFT."`
	Cloth    string `help:"Cloth of the settings; default when not given." placeholder:"NAME" default:"default"`
	Colour   string `help:"Colour of the cloth, as it stands on the sheet." placeholder:"COLOUR"`
	Paper    string `help:"Paper, letter or a4; letter for inches and a4 for centimetres when not given." placeholder:"PAPER"`
	Job      string `help:"Job that the sheet belongs to." placeholder:"JOB"`
	Number   int    `help:"Number of the sheet." default:"1"`
	Replaces int    `help:"Number of the sheet that this one makes void." placeholder:"N"`
	Join     string `help:"Join panels wider than the roll so far from their datum, as in \"20 in\"." placeholder:"LENGTH"`
	Each     bool   `help:"Every file is a survey of its own, with a folder of its own; all lie on one roll."`
	Returned bool   `help:"Write a page of blanks for a cover that came back, too."`
	Bow      string `help:"Photo of the bow's tracing, to be used in the place of paper." placeholder:"PHOTO"`
	Stern    string `help:"Photo of the stern's tracing, to be used in the place of paper." placeholder:"PHOTO"`
	lineFlag
	Tiled bool     `help:"Write the panels at full size over many pages too."`
	Files []string `arg:"" name:"file" help:"Files of one survey; - is standard input."`
}

// Run writes the cut sheet of a survey.
func (c *cutCommand) Run(t *terminal) error {
	conf, err := t.optionalSettings()
	if err != nil {
		return err
	}
	cloth, err := c.cloth(conf)
	if err != nil {
		return err
	}
	if c.Paper != "" && c.Paper != string(sheet.Letter) && c.Paper != string(sheet.A4) {
		return usage("", "--paper %q: letter or a4", c.Paper)
	}
	if c.Number < 1 || c.Replaces < 0 || c.Replaces >= c.Number {
		return usage("sheets are numbered from 1, and a later one replaces an earlier one", "--number %d --replaces %d: cannot be", c.Number, c.Replaces)
	}
	if c.Each && (c.Bow != "" || c.Stern != "") {
		return usage("", "tracings are of one boat: leave --each out")
	}
	if c.Each {
		folders := map[string]string{}
		for _, file := range c.Files {
			if other, taken := folders[surveyFolder(file)]; taken {
				return usage("", "%s and %s would be written into one folder", other, file)
			}
			folders[surveyFolder(file)] = file
		}
	}
	profiles, err := c.profiles(t)
	if err != nil {
		return err
	}
	status := statusClean
	var made []*cover.CutSheet
	err = surveys(t, c.Files, c.Each, func(s survey) error {
		sheet, ended, err := c.cut(t, conf, cloth, profiles, s)
		if sheet != nil {
			made = append(made, sheet)
		}
		if err != nil && c.Each { // the others are still cut
			ended, err = report(t.err, err), nil
		}
		status = worse(status, ended)
		return err
	})
	if err != nil {
		return err
	}
	if len(made) > 1 {
		if err := c.roll(t, made); err != nil {
			return err
		}
	}
	return settle(status)
}

// cut makes and writes the sheet of one survey, and returns the status that it
// ends with.
func (c *cutCommand) cut(t *terminal, conf settings.Settings, cloth cover.Cloth, profiles [2]*cover.Profile, s survey) (*cover.CutSheet, int, error) {
	if s.err != nil {
		return nil, statusFailure, s.err
	}
	report := validate.Check(s.survey, s.problems, costs(conf))
	if report.Verdict != validate.Clean { // what is missing may be for want of a file
		if err := printProblems(t.err, s.problems); err != nil {
			return nil, statusFailure, err
		}
	}
	order := cover.Order{
		Shop: conf.Shop.Name, Job: c.Job, Sheet: c.Number, Replaces: c.Replaces,
		Date: time.Now().In(conf.Shop.Timezone.Location), Cloth: cloth, Draft: c.Draft, Profiles: profiles,
	}
	folder := c.Out
	if c.Each {
		folder = filepath.Join(c.Out, surveyFolder(s.files[0]))
	}
	sheet, err := c.write(t, report, order, folder)
	return sheet, verdictStatus(report.Verdict), err
}

// surveyFolder names a folder after the file of a survey.
func surveyFolder(file string) string {
	if file == standardInput {
		return "input"
	}
	return strings.ReplaceAll(filepath.Base(file), ".", "-")
}

// roll lays all covers on one roll.
func (c *cutCommand) roll(t *terminal, made []*cover.CutSheet) error {
	batch, err := cover.Together(made)
	if err != nil {
		return err
	}
	files, err := sheet.Roll(batch)
	if err != nil {
		return err
	}
	if err := writeFiles(c.Out, files); err != nil {
		return err
	}
	return printBatch(t.out, batch, files)
}

func writeFiles(folder string, files []sheet.File) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fmt.Errorf("make the folder: %w", err)
	}
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(folder, f.Name), f.Data, 0o644); err != nil {
			return fmt.Errorf("write the cut sheet: %w", err)
		}
	}
	return nil
}

func noCloth(name string, conf settings.Settings) error {
	return usage("", "there is no cloth %q; the settings have: %s", name, strings.Join(slices.Sorted(maps.Keys(conf.Cloth)), ", "))
}

// coverCloth is a cloth of the settings as covers are made of it.
func coverCloth(s settings.Cloth) cover.Cloth {
	return cover.Cloth{
		Construction: cover.Construction(s.Construction),
		RollWidth:    s.RollWidth.Length, UsableWidth: s.UsableWidth.Length,
		GirthReduction: s.GirthReduction, LengthReduction: s.LengthReduction, StretchAcross: s.StretchAcross,
		SeamAllowance: s.SeamAllowance.Length, Hem: s.Hem.Length, Slit: s.Slit.Length,
	}
}

// cloth is the cloth that the sheet is made for.
func (c *cutCommand) cloth(conf settings.Settings) (cover.Cloth, error) {
	s, ok := conf.Cloth[c.Cloth]
	if !ok {
		return cover.Cloth{}, noCloth(c.Cloth, conf)
	}
	cloth := coverCloth(s)
	cloth.Name, cloth.Colour = c.Cloth, c.Colour
	if c.Join != "" {
		amount, fault := parse.ParseLength(c.Join)
		join, known := amount.Length(parse.Bare)
		if fault.Some() || !known {
			return cover.Cloth{}, usage(`write a number and its unit, as in "20 in"`, "--join %q: cannot be meant", c.Join)
		}
		cloth.Join = join
	}
	return cloth, nil
}

// write makes the sheet and its files. Nothing is written unless all of it can
// be made.
func (c *cutCommand) write(t *terminal, report validate.Report, order cover.Order, folder string) (*cover.CutSheet, error) {
	s, err := cover.Make(report, order)
	var refused *cover.Refusal
	switch {
	case errors.Is(err, cover.ErrUnsettled):
		return nil, c.unsettled(t, report)
	case errors.As(err, &refused):
		return nil, c.refused(t, refused)
	case err != nil:
		return nil, err
	}
	paper := cmp.Or(sheet.Paper(c.Paper), sheet.PaperFor(s.Unit))
	files, err := sheet.Files(&s, sheet.Options{Paper: paper, Tiled: c.Tiled, Returned: c.Returned})
	if err != nil {
		return nil, err
	}
	if err := writeFiles(folder, files); err != nil {
		return nil, err
	}
	return &s, printCut(t.out, &s, files)
}

// unsettled says why nothing is written.
func (c *cutCommand) unsettled(t *terminal, report validate.Report) error {
	for _, f := range report.Findings {
		if f.Kind != validate.Note {
			sayNotice(t.err, "%s: %s", f.Kind, f.Message)
		}
	}
	return &exit{max(statusOpen, verdictStatus(report.Verdict)), cover.ErrUnsettled, "settle it first, or look at a draft with --draft"}
}

// refused says each reason.
func (c *cutCommand) refused(t *terminal, r *cover.Refusal) error {
	for _, reason := range r.Reasons {
		sayNotice(t.err, "no cut sheet: %s: %s", reason.Key, reason.Why)
	}
	return &exit{status: statusOpen}
}
