package desk

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"fairtape/cmd/internal/ledger"
	"fairtape/parse"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/chat/chattest"
	"fairtape/reply/cover"
)

// loftCloths are the settings' default cloth, and one that a boat of the tests is
// too large for.
func loftCloths() map[string]cover.Cloth {
	canvas := cover.Cloth{
		Construction: cover.Sides, RollWidth: parse.Inches(60), UsableWidth: parse.Inches(59),
		GirthReduction: 0.02, LengthReduction: 0.01, StretchAcross: 0.06,
		SeamAllowance: parse.Inches(0.5), Hem: parse.Inches(1), Slit: parse.Inches(9),
	}
	narrow := canvas
	narrow.RollWidth, narrow.UsableWidth = parse.Inches(30), parse.Inches(29)
	return map[string]cover.Cloth{"default": canvas, "narrow": narrow}
}

// floor is the shop's channel as the chat's test server keeps it, and a desk
// that posts there.
type floor struct {
	*world
	server *chattest.Server
	poster *chat.Poster
}

// newFloor begins with job 1, whose boat has one odd number.
func newFloor(t *testing.T) (*floor, parse.Length) {
	t.Helper()
	f := &floor{world: newWorld(t), server: chattest.New()}
	t.Cleanup(f.server.Close)
	f.poster = chat.New(chat.Config{Channel: chattest.Channel, BotToken: chattest.BotToken, APIURL: f.server.URL(),
		Sleep: func(ctx context.Context, _ time.Duration) error { return ctx.Err() }})
	s, right := odd(1)
	f.says("my boat", s)
	d := f.clerk()
	if err := d.Receive(t.Context(), mail{uid: 1, from: "Ann Tarn <" + ann + ">", subject: "my boat", id: "1@tarn.example"}.delivery()); err != nil {
		t.Fatal(err)
	}
	f.work(d)
	return f, right
}

func (f *floor) clerk() *Desk {
	d := f.desk()
	d.Chat, d.Cloths = f.poster, loftCloths()
	return d
}

// says a person in the thread of job 1 or, with the job's number, anywhere.
func (f *floor) says1(words string) {
	f.t.Helper()
	job := f.job(1)
	d := f.clerk()
	d.Hear(f.t.Context(), f.poster, nil, chat.Event{Kind: chat.Said, ID: words, Text: words, InThread: true, At: f.now,
		User: chat.Person{ID: chattest.Ann, Name: "Ann"}, Thread: chat.Thread{Channel: job.Channel, TS: job.Thread}})
	f.work(d)
}

// thread is what stands in the thread of job 1: words, and the names of files.
func (f *floor) thread() (words string, files []string) {
	for _, m := range f.server.Thread(f.job(1).Thread) {
		words += m.Text + "\n"
		for _, file := range m.Files {
			files = append(files, file.Name)
			if strings.HasSuffix(file.Name, ".pdf") && !strings.HasPrefix(string(file.Data), "%PDF") {
				f.t.Errorf("%s is no PDF", file.Name)
			}
		}
	}
	return words, files
}

// expect fails unless the words stand in the thread so many times.
func (f *floor) expect(times int, words string) {
	f.t.Helper()
	all, _ := f.thread()
	if n := strings.Count(all, words); n != times {
		f.t.Errorf("%q stands %d times in the thread, want %d:\n%s", words, n, times, all)
	}
}

func (f *floor) sheetFiles(sheet int) (files []string) {
	_, all := f.thread()
	for _, name := range all {
		if strings.HasPrefix(name, fmt.Sprintf("job-1-sheet-%d-", sheet)) {
			files = append(files, strings.TrimPrefix(name, fmt.Sprintf("job-1-sheet-%d-", sheet)))
		}
	}
	return files
}

// A sheet is posted once the survey is settled and the cloth is said; it is void
// when either changes, and frozen when it was cut.
func TestCoverInThread(t *testing.T) {
	f, right := newFloor(t)
	f.says1("cut")
	f.expect(1, "job 1 has no cut sheet yet")
	f.says1("1 cloth silk green")
	f.expect(1, "there is no cloth \"silk\"; the settings have: default, narrow")
	f.says1("1 cloth default")
	f.expect(1, "say the colour too")
	f.says1("cloth comes with the van") // talk
	f.expect(0, "with the van")
	f.says1("cloth default sea green")
	f.expect(1, "The cut sheet follows when the survey is settled")
	if got := f.sheetFiles(1); got != nil {
		t.Fatalf("a survey that is not settled has the sheet %v", got)
	}

	value := written(right, parse.Inch)
	f.says1("correct 7 ft hull " + value)
	f.expect(1, "Cut sheet 1 is ready: default, sea green. Buy ")
	f.expect(1, "Girth: 2 % SMALLER than measured")
	all := []string{"cut-sheet.pdf", "cut-sheet.xlsx", "panels.svg", "panels.dxf"}
	if got := f.sheetFiles(1); !slices.Equal(got, all) {
		t.Errorf("the thread has %v", got)
	}
	f.says1("tracings in") // changes nothing of the sheet
	f.says1("1 cloth narrow grey")
	f.expect(1, "Cut sheet 1 is void: destroy it (the cloth or its settings have changed). No cut sheet: usable_width")
	f.says1("1 cloth default grey")
	f.expect(1, "Cut sheet 2 is ready")

	f.says1("1 cut")
	f.expect(1, "Sheet 2 is marked as cut")
	f.says1("correct 6 ft full 60")
	f.expect(1, "ALARM: job 1 was cut from sheet 2, and since then 6 ft full girth is 60 in, not ")
	f.expect(0, "Cut sheet 3")

	f.says1("fit tight at 7 ft")
	f.says1("fit returned")
	f.expect(1, "The fit is recorded: tight 7 ft")
	f.expect(1, "Sheet 2 as it was cut follows")
	if got := f.sheetFiles(2); !slices.Equal(got, append(all, "returned.pdf")) {
		t.Errorf("of sheet 2 the thread has %v", got)
	}
}

// A number that changes and comes back leaves the sheet as it is only if it was
// not void in between: what has been destroyed is made anew.
func TestSheetNumbers(t *testing.T) {
	f, right := newFloor(t)
	value := written(right, parse.Inch)
	f.says1("1 cloth default green")
	f.says1("correct 7 ft hull " + value)
	f.says1("correct 7 ft hull " + written(right+parse.Inches(0.5), parse.Inch))
	f.expect(1, "Cut sheet 1 is void: destroy it (7 ft hull girth is ")
	f.expect(1, "Cut sheet 2 is ready")
	var sheets []ledger.Sheet
	err := f.ledger.View(t.Context(), func(tx *ledger.Tx) (err error) {
		sheets, err = tx.Sheets(account, 1)
		return err
	})
	if err != nil || len(sheets) != 2 || sheets[0].Void == "" || sheets[1].Void != "" || sheets[1].Replaces != 1 {
		t.Errorf("sheets %+v, %v", sheets, err)
	}
}

// Shut out of the channel, and then killed while the files are handed over, the
// service hands over each once.
func TestSheetAfterTrouble(t *testing.T) {
	f, right := newFloor(t)
	f.says1("1 cloth default green")
	f.server.Fail(chattest.Fault{Method: "files.completeUploadExternal", Code: "not_in_channel"})
	f.says1("correct 7 ft hull " + written(right, parse.Inch))
	if got := f.sheetFiles(1); got != nil {
		t.Fatalf("files were posted that were refused: %v", got)
	}
	f.now = f.now.Add(time.Hour)
	f.work(f.clerk())
	err := f.ledger.Update(t.Context(), func(tx *ledger.Tx) error {
		err := tx.Plan(ledger.Intent{Account: account, Draft: reply.DraftID{Job: 1}, Act: ledger.HandSheet, Words: "1"})
		if err != nil {
			return err
		}
		waiting, err := tx.Waiting(account)
		if err != nil || len(waiting) == 0 {
			return err
		}
		_, err = tx.Begin(waiting[len(waiting)-1].ID)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	f.work(f.clerk())
	if got := f.sheetFiles(1); len(got) != 4 {
		t.Errorf("the thread has %v, want each of four files once", got)
	}
}

func TestCoverOrder(t *testing.T) {
	for _, talk := range []string{"cut it tomorrow", "fit", "fit for purpose", "cloth", "fit tight", "fit tight here"} {
		if o, ok := parseOrder(talk); ok && o.choice != ledger.ChooseReceived {
			t.Errorf("%q was taken for %+v", talk, o)
		}
	}
	for words, want := range map[string]order{
		"14 cloth default sea green": {14, ledger.ChooseCloth, "default sea green"},
		"14 Cut!":                    {14, ledger.ChooseCut, ""},
		"14 fit good":                {14, ledger.ChooseFit, "good"},
		"fit Tight at 7 ft":          {0, ledger.ChooseFit, "tight 7 ft"},
		"14 fit loose 210 cm":        {14, ledger.ChooseFit, "loose 210 cm"},
		"fit returned.":              {0, ledger.ChooseFit, "returned"},
	} {
		if o, ok := parseOrder(words); !ok || o != want {
			t.Errorf("%q is %+v, %v; want %+v", words, o, ok, want)
		}
	}
}
