package main

import (
	"cmp"
	"errors"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"fairtape/cmd/internal/desk"
	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
)

// The sheet of an export: one row for each number.
const exportSheet = "Surveys"

var exportColumns = []string{"job", "customer", "boat", "unit", "place", "measure", "value", "written as", "from", "value when exported"}

// Columns that an import reads.
const (
	columnJob, columnPlace, columnMeasure, columnValue, columnWas = 0, 4, 5, 6, 9
)

type jobsExport struct {
	File string `arg:"" help:"The spreadsheet to write, .xlsx; an existing one is left alone." type:"path"`
}

// Run writes the surveys of all jobs, as they are now, to a spreadsheet.
func (c *jobsExport) Run(t *terminal) error {
	if !strings.HasSuffix(strings.ToLower(c.File), ".xlsx") {
		return usage("name it .xlsx", "surveys cannot be written as %q", c.File)
	}
	file := excelize.NewFile()
	defer file.Close() //nolint:errcheck // saveNew tells
	if err := file.SetSheetName(file.GetSheetName(0), exportSheet); err != nil {
		return err
	}
	rows, jobs := 0, 0
	err := withBook(t, func(b book) error {
		return b.View(t.ctx, func(tx *ledger.Tx) error {
			rows, jobs = 1, 0
			if err := writeRow(file, rows, exportColumns); err != nil {
				return err
			}
			list, err := tx.Jobs(b.account)
			if err != nil {
				return err
			}
			for _, j := range list {
				v, err := tx.Survey(b.account, j.ID)
				if errors.Is(err, ledger.ErrNone) {
					continue
				}
				if err != nil {
					return err
				}
				jobs++
				for _, row := range exportRows(j, v.Survey) {
					rows++
					if err := writeRow(file, rows, row); err != nil {
						return err
					}
				}
			}
			return nil
		})
	})
	if err != nil {
		return err
	}
	if err := saveNew(file, c.File); err != nil {
		return fmt.Errorf("write the surveys: %w", err)
	}
	sayNotice(t.err, "%s of %s written to %s", counted(rows-1, "number", "numbers"), counted(jobs, "job", "jobs"), c.File)
	return nil
}

// saveNew writes a workbook to a new file: in an existing one somebody may have
// changed numbers.
func saveNew(book *excelize.File, path string) (err error) {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	defer func() {
		if err = errors.Join(err, f.Close()); err != nil {
			err = errors.Join(err, os.Remove(path))
		}
	}()
	return book.Write(f)
}

// writeRow writes cells of text: no program turns 35 1/2 into a date, and none
// takes a name that begins with = for a formula.
func writeRow(file *excelize.File, row int, values []string) error {
	for i, v := range values {
		cell, err := excelize.CoordinatesToCellName(i+1, row)
		if err == nil {
			err = file.SetCellStr(exportSheet, cell, v)
		}
		if err != nil {
			return fmt.Errorf("write the surveys: %w", err)
		}
	}
	return nil
}

// exportRows lists the numbers of a survey. One that is in doubt has no value.
func exportRows(j ledger.Job, s parse.Survey) (rows [][]string) {
	add := func(place, measure string, r parse.Reading) {
		if r.Absent() {
			return
		}
		value := exportValue(r, s.Unit)
		rows = append(rows, []string{strconv.Itoa(j.ID), j.Customer, j.Boat, string(s.Unit), place, measure, value, r.Source.Raw,
			strings.TrimSpace(r.Source.File + " " + r.Source.Place), value})
	}
	for _, m := range desk.Cells(s) {
		place := "-"
		if m.At > 0 {
			place = number(m.At, s.Unit) + " " + unitName(s.Unit)
		}
		add(place, string(m.Measure), desk.ReadingAt(s, m))
	}
	return rows
}

// exportValue is a number as an export gives it, "" for one in doubt.
func exportValue(r parse.Reading, unit parse.Unit) string {
	if !r.Certain() {
		return ""
	}
	return number(r.Value, unit)
}

type jobsImport struct {
	File string `arg:"" help:"A spreadsheet that jobs export wrote, with numbers changed in it." type:"existingfile"`
}

// Run records each number that was changed in the sheet as a correction. Nothing
// is recorded when a row cannot be understood, or when what it changes has
// become another number on the ledger since: an old sheet does not bring old
// numbers back.
func (c *jobsImport) Run(t *terminal) error {
	file, err := excelize.OpenFile(c.File)
	if err != nil {
		return &exit{statusUsage, fmt.Errorf("read %s: %w", c.File, err), "it has to be a spreadsheet that jobs export wrote"}
	}
	rows, err := file.GetRows(exportSheet)
	if err = errors.Join(err, file.Close()); err != nil {
		return &exit{statusUsage, fmt.Errorf("read %s: %w", c.File, err), "it has to be a spreadsheet that jobs export wrote"}
	}
	if len(rows) == 0 || !slices.Equal(rows[0], exportColumns) {
		return usage("put them back as jobs export wrote them: "+strings.Join(exportColumns, ", "), "the columns of %s are not those of an export", c.File)
	}
	changed := 0
	err = withBook(t, func(b book) error {
		return b.Update(t.ctx, func(tx *ledger.Tx) error {
			changed = 0
			for i, row := range rows {
				if i == 0 || strings.TrimSpace(strings.Join(row, "")) == "" {
					continue
				}
				differs, err := b.importRow(tx, row)
				if err != nil {
					return usage("nothing was taken", "row %d: %v", i+1, err)
				}
				if differs {
					changed++
				}
			}
			return nil
		})
	})
	if err != nil {
		return err
	}
	sayNotice(t.err, "%s recorded; the running service takes them", counted(changed, "changed number", "changed numbers"))
	return nil
}

// importRow records a row's number as a correction when it was changed. A row
// without a value changes nothing.
func (b book) importRow(tx *ledger.Tx, row []string) (changed bool, err error) {
	row = append(row, make([]string, len(exportColumns))...) // empty cells at the end are left out
	was, value := strings.TrimSpace(row[columnWas]), strings.TrimSpace(row[columnValue])
	if value == "" || value == was {
		return false, nil
	}
	id, err := strconv.Atoi(row[columnJob])
	if err != nil {
		return false, fmt.Errorf("%q is no number of a job", row[columnJob])
	}
	version, err := tx.Survey(b.account, id)
	if err != nil {
		return false, fmt.Errorf("job %d has no survey", id)
	}
	v := desk.Value{Place: row[columnPlace], Measure: row[columnMeasure], Value: value}
	if v.Place == "-" {
		v.Place = ""
	}
	cell, length, err := v.In(version.Survey)
	if err != nil {
		return false, err
	}
	r := desk.ReadingAt(version.Survey, cell)
	if r.Certain() && r.Value == length {
		return false, nil
	}
	if now := exportValue(r, version.Survey.Unit); now != was {
		return false, fmt.Errorf("%s of job %d was %s when the sheet was written, and is %s by now: export anew", row[columnMeasure], id,
			cmp.Or(was, "in doubt"), cmp.Or(now, "in doubt"))
	}
	return true, tx.Decide(ledger.Decision{Account: b.account, Draft: reply.DraftID{Job: id}, Choice: ledger.ChooseCorrect,
		Person: whoami(), Words: v.String()})
}
