package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"fairtape/cmd/internal/doctor"
	"fairtape/cmd/internal/opener"
	"fairtape/cmd/internal/settings"
	"fairtape/ingest/mailbox"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/smtp"
)

type doctorCommand struct {
	JSON bool `name:"json" help:"Print one JSON object."`
}

// Run tries everything that the settings name. The status is 1 when something
// is at fault; a warning leaves it at 0.
func (c *doctorCommand) Run(t *terminal) error {
	report, err := examine(t)
	if err != nil {
		return err
	}
	if c.JSON {
		err = json.NewEncoder(t.out).Encode(report)
	} else {
		err = printExamination(t.out, report)
	}
	if err != nil {
		return err
	}
	if report.Level == doctor.Fault {
		return settle(statusOpen)
	}
	return nil
}

func examine(t *terminal) (doctor.Report, error) {
	file, err := t.settingsFile()
	if err != nil {
		return doctor.Report{}, err
	}
	conf, err := settings.Load(file)
	var wrong *settings.Error
	switch {
	case errors.Is(err, settings.ErrNone):
		return doctor.Report{}, &exit{statusUsage, err, "make one: fairtape init"}
	case errors.As(err, &wrong):
		return doctor.Broken(file, t.again("doctor"), wrong), nil
	case err != nil:
		return doctor.Report{}, err
	}
	if isTerminal(t.err) {
		sayNotice(t.err, "trying every connection; this takes up to a minute")
	}
	report := t.doctor(file, conf.Each()[0]).Examine(t.ctx)
	for i, one := range conf.Each()[1:] {
		report = report.And(conf.Inboxes[i].Name, t.doctor(file, one).ExamineInbox(t.ctx))
	}
	return report, nil
}

// doctor examines the settings of one inbox.
func (t *terminal) doctor(file string, conf settings.Settings) *doctor.Doctor {
	return &doctor.Doctor{
		File: file, Again: t.again("doctor"), SignIn: t.again("signin"), Settings: conf,
		Folders: func() (*mailbox.Folders, error) {
			box, err := mailboxConfig(conf.IMAP, nil)
			if err != nil {
				return nil, err
			}
			return mailbox.NewFolders(box), nil
		},
		Sender: func() (smtp.Sender, error) { return smtpSender(conf.SMTP) },
		Chat:   func() (*chat.Poster, error) { return newPoster(conf.Slack, nil, nil) },
		Opener: func() (*opener.Opener, error) { return opener.New("", cacheFolder(conf)) },
		Texts: func() error {
			_, err := reply.LoadTexts(ownTexts(conf))
			return err
		},
		Now: time.Now, Free: doctor.FreeSpace, Getenv: os.Getenv,
	}
}

// cacheFolder is where compiled readers are kept.
func cacheFolder(conf settings.Settings) string {
	return filepath.Join(filepath.Dir(conf.Ledger.Path), "fairtape.cache")
}

// settingsFile is the settings file that is meant.
func (t *terminal) settingsFile() (string, error) {
	if t.config != "" {
		return t.config, nil
	}
	return settings.Path()
}

// again is a command for the same settings file.
func (t *terminal) again(command string) string {
	if t.config == "" {
		return "fairtape " + command
	}
	return "fairtape " + command + " --config " + shellWord(t.config)
}

// printExamination lists what was tried, each fault and warning with what to do.
func printExamination(w io.Writer, r doctor.Report) error {
	faults, warnings := 0, 0
	for _, c := range r.Checks {
		fmt.Fprintf(w, "%-8s %s: %s\n", c.Level, escape(c.Name), escape(c.Message)) //nolint:errcheck // the last write tells
		switch c.Level {
		case doctor.Fault:
			faults++
		case doctor.Warning:
			warnings++
		}
		for _, line := range []struct{ label, text string }{{"fix:", c.Fix}, {"next:", c.Next}} {
			if line.text != "" {
				fmt.Fprintf(w, "         %-5s %s\n", line.label, escape(line.text)) //nolint:errcheck // the last write tells
			}
		}
	}
	if faults == 0 && warnings == 0 {
		_, err := fmt.Fprintln(w, emphasis(w, "all is well"))
		return err
	}
	_, err := fmt.Fprintln(w, emphasis(w, counted(faults, "fault", "faults")+", "+counted(warnings, "warning", "warnings")))
	return err
}
