package main

import (
	"fmt"

	"fairtape/cmd/internal/settings"
	"fairtape/parse"
	"fairtape/validate"
)

type readCommand struct {
	Each  bool     `help:"Every file is a survey of its own."`
	JSON  bool     `name:"json" help:"One JSON object; with --each one a line."`
	Files []string `arg:"" name:"file" help:"Files of one survey; - is standard input."`
	lineFlag
}

// Run prints what files say, unjudged.
func (c *readCommand) Run(t *terminal) error {
	tape, err := c.length()
	if err != nil {
		return err
	}
	status := statusClean
	err = surveys(t, c.Files, c.Each, func(s survey) error {
		if s.err != nil {
			status = worse(status, statusFailure)
			sayError(t.err, s.err)
			return nil
		}
		r := validate.Report{Survey: s.survey, Problems: s.problems, Verdict: readVerdict(s.survey)}
		status = worse(status, readStatus(r))
		if c.JSON {
			return c.printJSON(t, s, r, tape)
		}
		if err := printReadings(t.out, s.files, r.Survey); err != nil {
			return err
		}
		if err := printTracings(t.out, s.tracings(), tape); err != nil {
			return err
		}
		return printProblems(t.out, r.Problems)
	})
	if err != nil {
		return err
	}
	return settle(status)
}

// printJSON prints what was read, with the tracings.
func (c *readCommand) printJSON(t *terminal, s survey, r validate.Report, tape parse.Length) error {
	data, err := r.JSON(s.files)
	if err == nil {
		data, err = withTracings(data, s.tracings(), tape)
	}
	if err == nil {
		_, err = fmt.Fprintf(t.out, "%s\n", data)
	}
	return err
}

// readVerdict sums up what was read, without judging it.
func readVerdict(s parse.Survey) validate.Verdict {
	verdict := validate.Unreadable
	for _, r := range girths(s) {
		if r.Known {
			verdict = validate.Clean
		}
	}
	for _, r := range readings(s) {
		if r.Doubtful() && verdict == validate.Clean {
			return validate.Incomplete
		}
	}
	return verdict
}

func girths(s parse.Survey) []parse.Reading {
	all := []parse.Reading{s.Greatest.HullGirth, s.Greatest.FullGirth, s.Transom.HullGirth, s.Transom.FullGirth}
	for _, st := range s.Stations {
		all = append(all, st.HullGirth, st.FullGirth)
	}
	return all
}

func readings(s parse.Survey) []parse.Reading {
	return append(girths(s), s.LengthOverall, s.BowHeight, s.SternHeight, s.CarryPoint, s.Greatest.At, s.Greatest.Opening)
}

func readStatus(r validate.Report) int {
	switch {
	case r.Verdict == validate.Unreadable:
		return statusUnreadable
	case len(r.Problems) > 0:
		return statusOpen
	}
	return statusClean
}

type checkCommand struct {
	Each  bool     `help:"Every file is a survey of its own."`
	JSON  bool     `name:"json" help:"One JSON object; with --each one a line."`
	Files []string `arg:"" name:"file" help:"Files of one survey; - is standard input."`
}

// Run prints the report of a survey.
func (c *checkCommand) Run(t *terminal) error {
	conf, err := t.optionalSettings()
	if err != nil {
		return err
	}
	status := statusClean
	err = surveys(t, c.Files, c.Each, func(s survey) error {
		if s.err != nil {
			status = worse(status, statusFailure)
			sayError(t.err, s.err)
			return nil
		}
		r := validate.Check(s.survey, s.problems, costs(conf))
		status = worse(status, verdictStatus(r.Verdict))
		if c.JSON {
			return printJSON(t, s.files, r)
		}
		return printReport(t.out, s.files, r)
	})
	if err != nil {
		return err
	}
	return settle(status)
}

func costs(s settings.Settings) validate.Costs {
	return validate.Costs{Ask: s.Judge.CostAsk, Miss: s.Judge.CostMiss}
}

func printJSON(t *terminal, files []string, r validate.Report) error {
	data, err := r.JSON(files)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(t.out, "%s\n", data)
	return err
}
