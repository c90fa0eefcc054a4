package ledger

import (
	"bytes"
	"errors"
	"os"
	"testing"

	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/reply"
)

// Forgotten, nothing of a customer is in the file, but a mail that comes again
// is still known.
func TestForget(t *testing.T) {
	l := open(t)
	m := Message{At: ingest.Location{Account: account, Mailbox: "INBOX", UIDValidity: 1, UID: 1}, MailID: "id-1", Hash: "hash-1",
		From: ingest.Address{Name: "Secretname", Address: "secret@x.example"}, Subject: "Secretsubject"}
	update(t, l, func(tx *Tx) error {
		job, err := tx.AddJob(Job{Account: account, Customer: "Secret@x.example", CustomerName: "Secretname", Boat: "Secretboat", State: WaitingUs})
		id, err2 := tx.AddMessage(m)
		return errors.Join(err, err2, tx.EndMessage(id, Answered, "secretreason", job.ID),
			tx.AddSurvey(account, 1, Version{Survey: parse.Survey{Customer: "Secretname"}}),
			tx.SaveCover(account, 1, Cover{Cloth: "secretcloth", Fit: "secretly good"}), addSheet(tx, Sheet{Cloth: "secretcloth"}),
			tx.Decide(Decision{Account: account, Draft: reply.DraftID{Job: 1}, Choice: ChooseNote, Words: "secretwords"}),
			tx.Plan(Intent{Account: account, Draft: reply.DraftID{Job: 1}, Act: Say, Words: "secretwords"}),
			tx.AddDraft(Draft{Account: account, ID: reply.DraftID{Job: 1, Version: 1}, MailID: "d", Recipient: "secret@x.example", Letter: "Secretletter", MIME: []byte("Secretletter")}))
	})
	forget := func(who string) (n int, err error) {
		err = l.Update(t.Context(), func(tx *Tx) error {
			n, err = tx.Forget(account, who)
			return err
		})
		return n, err
	}
	if _, err := forget("nobody@x.example"); !errors.Is(err, ErrNone) {
		t.Errorf("a stranger: %v, want ErrNone", err)
	}
	if _, err := forget("secret@x.example"); !errors.Is(err, ErrBusy) {
		t.Errorf("with a letter open: %v, want ErrBusy", err)
	}
	update(t, l, func(tx *Tx) error {
		return tx.SetDraft(account, reply.DraftID{Job: 1, Version: 1}, DraftHeld, "Ann")
	})
	if n, err := forget("SECRET@x.example"); n != 1 || err != nil {
		t.Fatalf("%d jobs forgotten, %v", n, err)
	}
	update(t, l, func(tx *Tx) error {
		twins, err := tx.Twins(Message{At: m.At, MailID: "id-1", Hash: "hash-1"})
		if len(twins) != 1 {
			t.Error("the mail would be answered again")
		}
		return err
	})
	if err := l.Settle(t.Context()); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(l.path)
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Contains(bytes.ToLower(data), []byte("secret")) {
		t.Error("something of the customer is still on the ledger")
	}
}

func addSheet(tx *Tx, s Sheet) error {
	_, err := tx.AddSheet(account, 1, s)
	return err
}

// Sheets are numbered from 1, and each says why it is void.
func TestSheets(t *testing.T) {
	l := open(t)
	update(t, l, func(tx *Tx) error {
		if c, err := tx.Cover(account, 1); err != nil || c != (Cover{}) {
			t.Errorf("nothing is known of the cover, but %+v, %v", c, err)
		}
		_, err := tx.AddJob(Job{Account: account, Customer: "a@x.example", State: Ready})
		return errors.Join(err, addSheet(tx, Sheet{Survey: 1}), tx.VoidSheet(account, 1, 1, "7 ft"),
			addSheet(tx, Sheet{Survey: 2, Replaces: 1}), tx.SaveCover(account, 1, Cover{Cloth: "default"}), tx.SaveCover(account, 1, Cover{Cut: 2}))
	})
	update(t, l, func(tx *Tx) error {
		all, err := tx.Sheets(account, 1)
		if len(all) != 2 || all[0].Void != "7 ft" || all[1].Number != 2 || all[1].Replaces != 1 || all[1].Made != noon() {
			t.Errorf("sheets %+v", all)
		}
		c, err2 := tx.Cover(account, 1)
		if c != (Cover{Cut: 2}) {
			t.Errorf("the cover is %+v", c)
		}
		return errors.Join(err, err2)
	})
}

// One event of the chat is one decision, however often it is told.
func TestEventOnce(t *testing.T) {
	l := open(t)
	update(t, l, func(tx *Tx) error {
		var errs []error
		for _, event := range []string{"", "", "a", "a", "b"} {
			errs = append(errs, tx.Decide(Decision{Account: account, Draft: reply.DraftID{Job: 1}, Choice: ChooseNote, Event: event}))
		}
		all, err := tx.Decisions(account)
		if len(all) != 4 {
			t.Errorf("%d decisions, want 4", len(all))
		}
		return errors.Join(append(errs, err)...)
	})
}

// A damaged ledger is not served, and not written over.
func TestDamaged(t *testing.T) {
	path := t.TempDir() + "/fairtape.db"
	garbage := bytes.Repeat([]byte("this was a ledger once. "), 500)
	if err := os.WriteFile(path, garbage, 0o600); err != nil {
		t.Fatal(err)
	}
	if l, err := Open(t.Context(), path, noon); err == nil {
		l.Close() //nolint:errcheck // it should not be open
		t.Error("a file that is no ledger was opened")
	}
	if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, garbage) {
		t.Errorf("the file was written over, %v", err)
	}
}
