package desk

import (
	"context"
	"encoding/json"
	"fmt"
	"mime"
	"path"
	"slices"
	"strconv"

	"fairtape/cmd/internal/ledger"
	"fairtape/reply"
	"fairtape/reply/chat"
	"fairtape/reply/cover"
	"fairtape/reply/cover/sheet"
)

// handSheet posts the files of a cut sheet in the job's thread. It is made anew
// from what the ledger keeps of it.
func (d *Desk) handSheet(ctx context.Context, i ledger.Intent) (outcome, error) {
	job, made, s, err := d.sheetOf(ctx, i)
	if err != nil {
		return outcome{state: failed, words: err.Error()}, nil
	}
	if i.Act == ledger.HandSheet && made.Void != "" {
		return outcome{state: notWanted, words: "the sheet is void: " + made.Void}, nil
	}
	paper := sheet.PaperFor(s.Unit)
	var files []sheet.File
	if i.Act == ledger.HandSheet {
		files, err = sheet.Files(&s, sheet.Options{Paper: paper})
	} else {
		var page []byte
		page, err = sheet.Returned(&s, paper)
		files = []sheet.File{{Name: "returned.pdf", Data: page}}
	}
	if err != nil {
		return d.cannot(i, fmt.Sprintf("The files of cut sheet %d could not be made.", made.Number)), nil
	}
	at := chat.Thread{Channel: job.Channel, TS: job.Thread}
	for _, f := range files {
		end := path.Ext(f.Name)
		file := reply.File{
			Name:      fmt.Sprintf("job-%d-sheet-%d-%s", job.ID, made.Number, f.Name),
			MediaType: mime.TypeByExtension(end), Data: f.Data,
		}
		if err := d.Chat.Hand(ctx, at, file, i.Unsure); err != nil {
			o := spoken(err)
			if o.state == later {
				o.state = perhapsDone // the files before it are there
			}
			return o, nil
		}
	}
	return outcome{}, nil
}

// sheetOf is the cut sheet that an intention names.
func (d *Desk) sheetOf(ctx context.Context, i ledger.Intent) (job ledger.Job, made ledger.Sheet, s cover.CutSheet, err error) {
	number, err := strconv.Atoi(i.Words)
	if err != nil {
		return job, made, s, fmt.Errorf("sheet %q: %w", i.Words, err)
	}
	var versions []ledger.Version
	err = d.Ledger.View(ctx, func(tx *ledger.Tx) error {
		if job, err = tx.Job(d.Account, i.Draft.Job); err != nil {
			return err
		}
		sheets, err := tx.Sheets(d.Account, job.ID)
		if err != nil {
			return err
		}
		if number < 1 || number > len(sheets) {
			return fmt.Errorf("sheet %d of job %d: %w", number, job.ID, ledger.ErrNone)
		}
		made = sheets[number-1]
		versions, err = tx.Surveys(d.Account, job.ID)
		return err
	})
	if err != nil {
		return job, made, s, err
	}
	n := slices.IndexFunc(versions, func(v ledger.Version) bool { return v.Version == made.Survey })
	if n < 0 {
		return job, made, s, fmt.Errorf("survey %d of job %d: %w", made.Survey, job.ID, ledger.ErrNone)
	}
	var cloth cover.Cloth
	if err := json.Unmarshal([]byte(made.Cloth), &cloth); err != nil {
		return job, made, s, fmt.Errorf("cloth of sheet %d: %w", number, err)
	}
	s, err = d.design(job, versions[n], made, cloth)
	return job, made, s, err
}
