package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// What a person decides in the terminal, as in chat: numbers, tracings, closing
// and opening again; a spreadsheet of all surveys out and in; the ledger against
// the mailbox; a customer forgotten.
func TestJobsVerbs(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	text, err := os.ReadFile(filepath.Join(f.dir, "fairtape.toml"))
	if err != nil {
		t.Fatal(err)
	}
	withoutChat, _, _ := strings.Cut(string(text), "[slack]")
	f.write("fairtape.toml", withoutChat)
	if _, err := f.box.Append("INBOX", mailOf(t, "02-a-ten-dropped"), time.Now()); err != nil {
		t.Fatal(err)
	}
	cmd := f.watch("")
	f.await("the mail is worked off", f.settled(1))

	for _, wrong := range [][]string{
		{"correct", "9", "7 ft", "hull_girth", "40"},
		{"correct", "1", "7 ft", "beam", "40"},
		{"correct", "1", "7 ft", "hull_girth", "about 40"},
		{"correct", "1", "70 ft", "hull_girth", "40"},
		{"own", "1", "7 ft", "bow_height"},
		{"received", "1", "parcels"},
		{"received", "1", "tracings", "middle"},
		{"received", "1", "tracings", "--height", "18"},
		{"received", "1", "tracings", "bow", "--height", "tall"},
		{"join", "1", "1"}, {"join", "1", "7"}, {"split", "7"}, {"reopen", "7"}, {"tape", "7", "nothing"},
		{"hold", "1-1", "--until", "Tuesday"}, {"hold", "1-1", "--until", "2020-01-01"}, {"tape", "1", " "}, {"note", "1", ""},
		{"forget", "nobody@larch.example"},
		{"forget", "bo@larch.example"}, // a letter waits
		{"export", filepath.Join(f.dir, "surveys.ods")},
		{"import", filepath.Join(f.dir, "fairtape.toml")},
	} {
		f.output(statusUsage, append([]string{"jobs"}, wrong...)...)
	}

	sheet := filepath.Join(f.dir, "surveys.xlsx")
	f.output(0, "jobs", "export", sheet)
	f.output(0, "jobs", "import", sheet) // nothing was changed in it
	f.output(statusFailure, "jobs", "export", sheet)
	if show := f.output(0, "jobs", "show", "1"); strings.Contains(show, "correct by") {
		t.Errorf("an unchanged sheet changed something: %s", show)
	}
	change(t, sheet, "length_overall", "16 ft")
	f.output(0, "jobs", "import", sheet)
	f.await("the imported number is taken", f.settled(1))
	f.output(statusUsage, "jobs", "import", withoutValues(t, sheet))
	f.output(0, "jobs", "correct", "1", "-", "length_overall", "16 ft 1 in")
	f.await("the later number is taken", f.settled(1))
	f.output(statusUsage, "jobs", "import", sheet) // what it says of the length is old
	f.output(0, "jobs", "correct", "1", "-", "length_overall", "16 ft")
	f.output(0, "jobs", "correct", "1", "-", "carry_point", "19")
	f.output(0, "jobs", "received", "1", "tracings", "bow")
	f.output(0, "jobs", "received", "1", "tracings", "stern", "--refused", "it is torn")
	f.output(statusUsage, "jobs", "received", "1", "tracings", "stern", "--refused", "it is torn", "--height", "18")
	f.await("all is worked off", f.settled(1))
	show := f.output(0, "jobs", "show", "1")
	for _, want := range []string{"length overall is now 192 in", "carry point is now 19 in", "tracing of the stern is refused: it is torn"} {
		if !strings.Contains(show, want) {
			t.Errorf("jobs show has no %q:\n%s", want, show)
		}
	}
	f.output(0, "jobs", "verify")
	f.output(0, "jobs", "close", "1")
	f.await("the job is closed", f.settled(1))
	if list := f.output(0, "jobs", "list", "--json"); !strings.Contains(list, `"state":"closed","draft":null`) {
		t.Errorf("closed, jobs list says %s", list)
	}
	f.output(0, "jobs", "reopen", "1")
	f.await("the job is open again", f.settled(1))
	if list := f.output(0, "jobs", "list", "--json"); !strings.Contains(list, `"state":"waiting-us","draft":"1-`) {
		t.Errorf("opened again, jobs list says %s", list)
	}
	f.output(0, "jobs", "close", "1")
	f.await("the job is closed again", f.settled(1))
	f.output(0, "jobs", "forget", "bo@larch.example")
	if list := f.output(0, "jobs", "list", "--json"); strings.Contains(list, "larch") {
		t.Errorf("forgotten, jobs list says %s", list)
	}
	if _, err := f.box.Append("Drafts", []byte("X-Fairtape-Draft: 1-77\r\nMessage-ID: <x@pinfold.example>\r\nSubject: stray\r\n\r\nx\r\n"), time.Now()); err != nil {
		t.Fatal(err)
	}
	if out := f.output(statusOpen, "jobs", "verify"); !strings.Contains(out, "letter 1-77 lies in Drafts") {
		t.Errorf("verify says %q", out)
	}
	f.end(cmd)
}

// withoutValues is an exported spreadsheet without its column of values: the
// next one, of what was written, stands in its place.
func withoutValues(t *testing.T, path string) string {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	moved := filepath.Join(t.TempDir(), "moved.xlsx")
	column, err := excelize.ColumnNumberToName(columnValue + 1)
	if err == nil {
		err = file.RemoveCol(exportSheet, column)
	}
	if err = errors.Join(err, file.SaveAs(moved), file.Close()); err != nil {
		t.Fatal(err)
	}
	return moved
}

// change gives a measure of an exported spreadsheet another value.
func change(t *testing.T, path, measure, value string) {
	t.Helper()
	file, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := file.GetRows(exportSheet)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range rows {
		if len(row) > columnValue && row[columnMeasure] == measure {
			cell, err := excelize.CoordinatesToCellName(columnValue+1, i+1)
			if err == nil {
				err = file.SetCellStr(exportSheet, cell, value)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := file.Save(); err != nil {
		t.Fatal(err)
	}
}
