package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"time"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/settings"
	"fairtape/ingest"
	"fairtape/reply"
	"fairtape/reply/eml"
	"fairtape/reply/picture"
	"fairtape/validate"
)

type letterCommand struct {
	Out     string   `help:"Write the whole message to this file." placeholder:"FILE.eml" type:"path"`
	Preview string   `help:"Show letters of sample jobs instead: all, or the name of one." placeholder:"NAME"`
	Files   []string `arg:"" name:"file" optional:"" help:"Files of one survey; - is standard input."`
}

// Run prints the letter that a survey would be answered with.
func (c *letterCommand) Run(t *terminal) error {
	conf, err := t.optionalSettings()
	if err != nil {
		return err
	}
	texts, err := reply.LoadTexts(ownTexts(conf))
	if err != nil {
		return &exit{statusUsage, err, "the texts lie in the folder that letters.folder names"}
	}
	switch {
	case c.Preview != "" && (len(c.Files) > 0 || c.Out != ""):
		return usage("", "--preview shows sample jobs and takes no file")
	case c.Preview != "":
		return preview(t, texts, c.Preview)
	case len(c.Files) == 0:
		return usage("see: fairtape letter --help", "name a file, or - for standard input")
	}
	status := statusClean
	err = surveys(t, c.Files, false, func(s survey) error {
		if s.err != nil {
			return s.err
		}
		report := validate.Check(s.survey, s.problems, costs(conf))
		status = verdictStatus(report.Verdict)
		return c.write(t, texts, report, letterJob(conf, s))
	})
	if err != nil {
		return err
	}
	return settle(status)
}

// ownTexts is the shop's own folder of texts, nil for none.
func ownTexts(s settings.Settings) fs.FS {
	if s.Letters.Folder == "" {
		return nil
	}
	return os.DirFS(s.Letters.Folder)
}

// write composes the letter and puts it out.
func (c *letterCommand) write(t *terminal, texts *reply.Texts, report validate.Report, job reply.Job) error {
	plan := reply.Decide(report, job)
	if asked := plan.Ringed(); len(asked) > 0 {
		p, err := picture.ForCustomer(report.Survey, asked, job.Language)
		if err != nil {
			return fmt.Errorf("draw the boat: %w", err)
		}
		job.Picture = &reply.Picture{PNG: p.PNG, Alt: p.Alt}
	}
	draft, err := texts.Compose(plan, job)
	if err != nil && !errors.Is(err, reply.ErrNoLetter) {
		return err
	}
	if report.Verdict != validate.Clean { // the letter may ask for what a file of a wrong name holds
		if err := printProblems(t.err, report.Problems); err != nil {
			return err
		}
	}
	if err != nil {
		sayNotice(t.err, "no letter: a person has to look at this first")
		return nil
	}
	if c.Out != "" {
		raw, err := eml.Marshal(draft)
		if err != nil {
			return err
		}
		if err := os.WriteFile(c.Out, raw, 0o644); err != nil {
			return fmt.Errorf("write the letter: %w", err)
		}
	}
	_, err = fmt.Fprintln(t.out, strings.TrimRight(escapeText(draft.Text), "\n"))
	return err
}

// letterJob is the job that a survey from files would open.
func letterJob(conf settings.Settings, s survey) reply.Job {
	job := reply.Job{
		ID:         reply.DraftID{Job: 1, Version: 1},
		MessageID:  desk.NewMailID(conf.Shop.From),
		Now:        time.Now().In(conf.Shop.Timezone.Location),
		AnswerDays: conf.Letters.AnswerDays,
		Shop:       shop(conf),
		Customer:   ingest.Address{Name: s.survey.Customer, Address: "customer@mail.example"},
		Language:   conf.Shop.Language,
		Round:      1,
	}
	for _, part := range s.parts {
		if part.Message == nil {
			continue
		}
		job.Answers, job.Customer = *part.Message, part.Message.From
		job.Language = cmp.Or(part.Body.Language, job.Language)
		job.Request.Question = strings.Join(part.Body.Questions, " ")
	}
	return job
}

func shop(conf settings.Settings) reply.Shop {
	return reply.Shop{
		Name:      conf.Shop.Name,
		From:      ingest.Address{Name: conf.Shop.Name, Address: conf.Shop.From},
		Telephone: conf.Shop.Phone,
		Post:      conf.Shop.Post,
	}
}

// preview shows the letters of sample jobs.
func preview(t *terminal, texts *reply.Texts, name string) error {
	var known []string
	shown := false
	for _, s := range reply.Samples() {
		if !slices.Contains(known, s.Name) { // each is there in every language
			known = append(known, s.Name)
		}
		if name != "all" && name != s.Name {
			continue
		}
		shown = true
		title := fmt.Sprintf("%s (%s)", s.Name, s.Job.Language)
		draft, err := texts.Compose(reply.Decide(s.Report, s.Job), s.Job)
		text := draft.Text
		if errors.Is(err, reply.ErrNoLetter) {
			text, err = "(no letter: the shop telephones, or a person has to look)", nil
		}
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(t.out, "%s\n\n%s\n\n", emphasis(t.out, "== "+title+" =="), strings.TrimRight(escapeText(text), "\n")); err != nil {
			return err
		}
	}
	if !shown {
		return usage("", "there is no sample %q; there are: all, %s", name, strings.Join(known, ", "))
	}
	return nil
}
