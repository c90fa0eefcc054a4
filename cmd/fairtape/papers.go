package main

import (
	"fmt"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/settings"
	"fairtape/parse"
	layout "fairtape/parse/form"
	"fairtape/reply"
	"fairtape/reply/cover"
	"fairtape/reply/form"
)

// papers makes what the service attaches to letters.
func papers(conf settings.Settings) desk.Papers {
	words := func(language string) form.Words { return form.Words{Language: language, Post: conf.Shop.Post} }
	return desk.Papers{
		Form: func(job int, length parse.Length, unit parse.Unit, language string) (*reply.File, error) {
			rows := layout.Rows(length, unit)
			if rows < 1 || rows > layout.MostRows {
				rows = layout.RowsUnknown // no boat that a form is made for: the length was read wrong
			}
			pdf, _, err := form.PDF(layout.Spec{Unit: unit, Paper: formPaper(unit), Rows: rows, Job: job}, words(language))
			return attachment(fmt.Sprintf("form-%d.pdf", job), pdf, err)
		},
		Slip: func(job int, places []parse.Cell, unit parse.Unit, language string) (*reply.File, error) {
			pdf, _, err := form.Slip(layout.SlipSpec{Unit: unit, Paper: formPaper(unit), Job: job, Places: places}, words(language))
			return attachment(fmt.Sprintf("again-%d.pdf", job), pdf, err)
		},
	}
}

// cloths are the cloths that covers are made of.
func cloths(conf settings.Settings) map[string]cover.Cloth {
	all := map[string]cover.Cloth{}
	for name, c := range conf.Cloth {
		all[name] = coverCloth(c)
	}
	return all
}

// formPaper is the paper that people who measure in this unit have at home.
func formPaper(unit parse.Unit) layout.Paper {
	if unit == parse.Centimetre {
		return layout.A4
	}
	return layout.Letter
}

func attachment(name string, pdf []byte, err error) (*reply.File, error) {
	if err != nil {
		return nil, err
	}
	return &reply.File{Name: name, MediaType: "application/pdf", Data: pdf}, nil
}
