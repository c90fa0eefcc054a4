package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fairtape/cmd/internal/settings"
	"fairtape/parse"
	layout "fairtape/parse/form"
	"fairtape/reply/form"
)

type formCommand struct {
	Length  string `help:"Length overall of the boat; 20 rows when it is not known." placeholder:"LENGTH"`
	Unit    string `help:"Unit of the form, in or cm; the shop's when not given." placeholder:"UNIT"`
	Paper   string `help:"Paper, letter or a4; letter for inches and a4 for centimetres when not given." placeholder:"PAPER"`
	Out     string `help:"Write the form to this file, .pdf or .xlsx." placeholder:"FILE" type:"path"`
	Layout  string `help:"Write where every box lies, in millimetres, to this file." placeholder:"FILE.json" type:"path"`
	Tracing bool   `help:"Make the sheet for tracing the ends instead."`
}

// leastBare is the least length that is believed without a unit: 15.9 means
// feet more likely than inches.
const leastBare = 1800 // mm

// Run makes an empty form.
func (c *formCommand) Run(t *terminal) error {
	conf, err := t.optionalSettings()
	if err != nil {
		return err
	}
	kind := strings.ToLower(filepath.Ext(c.Out))
	switch {
	case c.Out == "":
		return usage("see: fairtape form --help", "name the file to write with --out")
	case kind != ".pdf" && kind != ".xlsx":
		return usage("name it .pdf or .xlsx", "a form cannot be written as %q", kind)
	case c.Layout != "" && (kind == ".xlsx" || c.Tracing):
		return usage("", "only a form on paper has a layout")
	case c.Tracing && kind == ".xlsx":
		return usage("", "the tracing sheet is for paper: name it .pdf")
	}
	spec, err := c.spec(conf.Survey)
	if err != nil {
		return err
	}
	words := form.Words{Language: conf.Shop.Language, Post: conf.Shop.Post}
	var file []byte
	var l layout.Layout
	switch {
	case c.Tracing:
		file, err = form.Tracing(spec.Paper, spec.Unit, words)
	case kind == ".xlsx":
		file, err = form.XLSX(spec, words)
	default:
		file, l, err = form.PDF(spec, words)
	}
	if err != nil {
		return formError(err, spec)
	}
	if err := os.WriteFile(c.Out, file, 0o644); err != nil {
		return fmt.Errorf("write the form: %w", err)
	}
	if c.Layout == "" {
		return nil
	}
	return writeLayout(c.Layout, l)
}

// formError says what of the request or the settings makes no form.
func formError(err error, spec layout.Spec) error {
	switch {
	case errors.Is(err, layout.ErrRows):
		return usage("", "a form has 1 to %d rows of stations, this boat needs %d", layout.MostRows, spec.Rows)
	case errors.Is(err, layout.ErrSpacing):
		return &exit{statusUsage, err, "set survey.spacing in the settings"}
	case errors.Is(err, form.ErrNoRoom):
		return &exit{statusUsage, err, "shorten shop.post in the settings"}
	case errors.Is(err, form.ErrLetter):
		return &exit{statusUsage, err, "write shop.post in the settings with letters of Latin, Greek or Cyrillic"}
	}
	return err
}

// writeLayout writes where every box lies.
func writeLayout(path string, l layout.Layout) error {
	data, err := json.Marshal(l)
	if err != nil {
		return err
	}
	if err := os.WriteFile(path, append(data, '\n'), 0o644); err != nil {
		return fmt.Errorf("write the layout: %w", err)
	}
	return nil
}

// spec is the form that the flags ask for. A length with a unit says which form
// is meant where --unit does not.
func (c *formCommand) spec(usual settings.Survey) (layout.Spec, error) {
	unit := usual.Unit
	var amount parse.Amount
	if c.Length != "" {
		var fault parse.Fault
		if amount, fault = parse.ParseLength(c.Length); fault.Some() {
			return layout.Spec{}, usage(`write it as "15 ft 9 in", 189 or "480 cm"`, "length %q is not clear: %s", c.Length, fault.Message)
		}
		if named := amount.Scale.Unit(); named != parse.UnknownUnit {
			unit = named
		}
	}
	switch c.Unit {
	case "":
	case string(parse.Inch), string(parse.Centimetre):
		unit = parse.Unit(c.Unit)
	default:
		return layout.Spec{}, usage("units are in and cm", "there is no unit %q", c.Unit)
	}
	spec := layout.Spec{Unit: unit, Paper: layout.Letter, Spacing: layout.Spacing(unit), Rows: layout.RowsUnknown}
	if unit == usual.Unit {
		spec.Spacing = usual.Spacing.Length
	}
	if unit == parse.Centimetre {
		spec.Paper = layout.A4
	}
	switch layout.Paper(c.Paper) {
	case "":
	case layout.Letter, layout.A4:
		spec.Paper = layout.Paper(c.Paper)
	default:
		return layout.Spec{}, usage("papers are letter and a4", "there is no paper %q", c.Paper)
	}
	if c.Length != "" {
		length, _ := amount.Length(parse.ScaleOf(unit))
		if amount.Scale == parse.Bare && length < leastBare {
			return layout.Spec{}, usage(`write "15 ft 9 in" or "4.8 m"`, "length %s needs its unit", c.Length)
		}
		spec.Rows = layout.RowsEvery(length, spec.Spacing)
	}
	return spec, nil
}
