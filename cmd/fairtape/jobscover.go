package main

import (
	"strings"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
)

type jobsCloth struct {
	Job    int      `arg:"" help:"Number of the job."`
	Name   string   `arg:"" help:"Cloth of the settings, as in default."`
	Colour []string `arg:"" help:"Its colour, as it stands on the sheet."`
}

// Run records what a job's cover is made of.
func (c *jobsCloth) Run(t *terminal) error {
	conf, err := t.settings()
	if err != nil {
		return err
	}
	if _, known := conf.Cloth[c.Name]; !known {
		return noCloth(c.Name, conf)
	}
	return decideJob(t, c.Job, ledger.ChooseCloth, c.Name+" "+strings.Join(c.Colour, " "))
}

type jobsCut struct {
	Job int `arg:"" help:"Number of the job."`
}

// Run records that the cloth of a job has been cut.
func (c *jobsCut) Run(t *terminal) error { return decideJob(t, c.Job, ledger.ChooseCut, "") }

type jobsFit struct {
	Job int      `arg:"" help:"Number of the job."`
	How []string `arg:"" help:"good, tight 7 ft, loose 7 ft, returned."`
}

// Run records how a cover fitted.
func (c *jobsFit) Run(t *terminal) error {
	fit, ok := desk.ParseFit(strings.Join(c.How, " "))
	if !ok {
		return usage("fairtape jobs fit 14 good, fit 14 tight 7 ft, fit 14 loose 7 ft or fit 14 returned", "%q says nothing about the fit", strings.Join(c.How, " "))
	}
	return decideJob(t, c.Job, ledger.ChooseFit, fit)
}
