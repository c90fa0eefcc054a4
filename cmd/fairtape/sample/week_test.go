package sample

import (
	"bytes"
	"encoding/base64"
	"flag"
	"fmt"
	"math/rand/v2"
	"mime/quotedprintable"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fairtape/parse"
	"fairtape/validate/known"
)

var update = flag.Bool("update", false, "make the mails anew")

// The mails are what their makers make, byte for byte.
func TestMails(t *testing.T) {
	for _, m := range week(t) {
		file := filepath.Join("mails", m.Name+".eml")
		if *update {
			if err := os.WriteFile(file, m.Raw, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		have, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(have, m.Raw) {
			t.Errorf("%s is not what its maker makes; run with -update", file)
		}
	}
	if *update {
		return
	}
	have, err := Mails()
	if err != nil {
		t.Fatal(err)
	}
	var names, want []string
	for _, m := range have {
		names = append(names, m.Name)
	}
	for _, m := range week(t) {
		want = append(want, m.Name)
	}
	if !slices.Equal(names, want) {
		t.Errorf("embedded are %v, want %v", names, want)
	}
}

// letter is a mail to be written.
type letter struct {
	name, from, subject, date string
	id, inReplyTo             string
	language                  string
	header                    string // more lines
	body                      string
	files                     []file
}

type file struct {
	name, mediaType string
	data            []byte
}

// raw writes the mail (RFC 5322, RFC 2045).
func (l letter) raw() []byte {
	var b bytes.Buffer
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\r\n", args...) }
	line("From: %s", l.from)
	line("To: Pinfold Cover Loft <orders@pinfold.example>")
	line("Subject: %s", l.subject)
	line("Date: %s", l.date)
	line("Message-ID: <%s>", l.id)
	if l.inReplyTo != "" {
		line("In-Reply-To: <%s>", l.inReplyTo)
		line("References: <%s>", l.inReplyTo)
	}
	b.WriteString(l.header)
	line("MIME-Version: 1.0")
	text := func() {
		line("Content-Type: text/plain; charset=utf-8")
		line("Content-Transfer-Encoding: quoted-printable")
		line("")
		w := quotedprintable.NewWriter(&b)
		w.Write([]byte(strings.ReplaceAll(l.body, "\n", "\r\n"))) //nolint:errcheck // a buffer takes everything
		w.Close()                                                 //nolint:errcheck // a buffer takes everything
		line("")
	}
	if len(l.files) == 0 {
		text()
		return b.Bytes()
	}
	const boundary = "=_pinfold"
	line("Content-Type: multipart/mixed; boundary=%q", boundary)
	line("")
	line("--%s", boundary)
	text()
	for _, f := range l.files {
		line("--%s", boundary)
		line("Content-Type: %s; name=%q", f.mediaType, f.name)
		line("Content-Disposition: attachment; filename=%q", f.name)
		line("Content-Transfer-Encoding: base64")
		line("")
		for chunk := range slices.Chunk([]byte(base64.StdEncoding.EncodeToString(f.data)), 76) {
			line("%s", chunk)
		}
	}
	line("--%s--", boundary)
	return b.Bytes()
}

const (
	typeXLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
	typeDOCX = "application/vnd.openxmlformats-officedocument.wordprocessingml.document"
	typeCSV  = "text/csv"
	typePDF  = "application/pdf"
)

// boat is an invented boat, measured without an error.
func boat(seed uint64, unit parse.Unit) parse.Survey {
	return known.Simulate(rand.New(rand.NewPCG(seed, 1)), known.Ordinary).Exact(unit)
}

// foot returns the k-th station of a survey.
func foot(s *parse.Survey, k int) *parse.Pair { return &s.Stations[k-1].Pair }

// week is the week's mail.
func week(t *testing.T) []Mail {
	dropped := boat(11, parse.Inch)
	true7 := foot(&dropped, 7).HullGirth.Value
	foot(&dropped, 7).HullGirth.Value -= parse.Inches(10)

	swapped := boat(12, parse.Inch)
	pair := foot(&swapped, 8)
	pair.HullGirth, pair.FullGirth = pair.FullGirth, pair.HullGirth

	skipped := boat(13, parse.Inch)
	for i := 5; i < len(skipped.Stations)-1; i++ {
		skipped.Stations[i].Pair = skipped.Stations[i+1].Pair
	}
	skipped.Stations = skipped.Stations[:len(skipped.Stations)-1]

	two := boat(14, parse.Inch)
	head, rows := two, two
	head.Stations, rows = nil, parse.Survey{Unit: two.Unit, Stations: two.Stations}

	letters := []letter{
		{name: "01-clean-spreadsheet", from: "Ann Tarn <ann@tarn.example>", subject: "Survey of my canoe", date: "Mon, 01 Jun 2026 08:12:00 -0300", id: "mon-0812@tarn.example",
			body:  "Hello,\n\nhere are the numbers of my canoe, in the spreadsheet. A neighbour held\nthe tape.\n\nKind regards\nAnn Tarn\n",
			files: []file{{"heron.xlsx", typeXLSX, spreadsheet(t, boat(10, parse.Inch), "Heron, cedar strip")}}},
		{name: "02-a-ten-dropped", from: "Bo Larch <bo@larch.example>", subject: "Measurements", date: "Mon, 01 Jun 2026 10:40:00 -0300", id: "mon-1040@larch.example",
			body:  "Good morning, the survey is attached. It took me forty minutes!\n\nBo\n",
			files: []file{{"survey.csv", typeCSV, table(dropped, "in")}}},
		{name: "03-swapped-pair", from: "Cass Wren <cass@wren.example>", subject: "Cover for the Dabchick", date: "Mon, 01 Jun 2026 17:05:00 -0300", id: "mon-1705@wren.example",
			body:  "Hi all,\nplease find my measuring sheet attached.\nCass\n",
			files: []file{{"dabchick.xlsx", typeXLSX, spreadsheet(t, swapped, "Dabchick")}}},
		{name: "04-skipped-station", from: "Dov Sedge <dov@sedge.example>", subject: "boat numbers", date: "Tue, 02 Jun 2026 09:00:00 -0300", id: "tue-0900@sedge.example",
			body:  "Attached. Dov\n",
			files: []file{{"numbers.csv", typeCSV, table(skipped, "in")}}},
		{name: "05-filled-form", from: "Edda Reed <edda@reed.example>", subject: "Your form, filled in", date: "Tue, 02 Jun 2026 11:30:00 -0300", id: "tue-1130@reed.example",
			body:  "Hello, I filled in the form on the computer.\n\nEdda Reed\n",
			files: []file{{"form.pdf", typePDF, form(boat(15, parse.Inch), "Edda Reed", "Osprey 15")}}},
		{name: "06-french-centimetres", from: "Fleur Aulne <fleur@aulne.example>", subject: "Mesures de mon bateau", date: "Tue, 02 Jun 2026 14:20:00 +0200", id: "tue-1420@aulne.example", language: "fr",
			header: "Content-Language: fr\r\n",
			body:   "Bonjour,\n\nvoici les mesures de mon bateau, en centimètres. Merci de me dire si\ntout va bien.\n\nCordialement\nFleur Aulne\n",
			files:  []file{{"mesures.csv", typeCSV, tableau(boat(16, parse.Centimetre))}}},
		{name: "07-word-table", from: "Gil Moss <gil@moss.example>", subject: "Survey as a table", date: "Wed, 03 Jun 2026 08:50:00 -0300", id: "wed-0850@moss.example",
			body:  "Dear loft, my daughter typed the table for me.\nGil Moss\n",
			files: []file{{"survey.docx", typeDOCX, document(t, boat(17, parse.Inch))}}},
		{name: "08-typed-in-the-mail", from: "Hebe Rush <hebe@rush.example>", subject: "no spreadsheet here, sorry", date: "Wed, 03 Jun 2026 12:15:00 -0300", id: "wed-1215@rush.example",
			body: "Hello,\n\nI have no spreadsheet, so here it is, all in inches:\n\n" + typed(boat(18, parse.Inch)) + "\nHope that helps!\nHebe\n"},
		{name: "09-two-attachments", from: "Ivo Alder <ivo@alder.example>", subject: "Survey, two pages", date: "Wed, 03 Jun 2026 19:45:00 -0300", id: "wed-1945@alder.example",
			body: "Two files: the first page and the table.\nIvo\n",
			files: []file{
				{"page1.csv", typeCSV, table(head, "in")},
				{"page2.csv", typeCSV, table(rows, "in")},
			}},
		{name: "10-correction", from: "Bo Larch <bo@larch.example>", subject: "Re: Measurements", date: "Thu, 04 Jun 2026 07:55:00 -0300", id: "thu-0755@larch.example", inReplyTo: "mon-1040@larch.example",
			body: fmt.Sprintf("I looked at my sheet again: the hull girth at 7 ft is %s, I wrote it down wrong.\n\nBo\n\nOn Mon, 1 Jun 2026, Bo Larch wrote:\n> Good morning, the survey is attached. It took me forty minutes!\n", inches(true7))},
		{name: "11-a-question", from: "June Fenn <june@fenn.example>", subject: "Covers for a dory?", date: "Thu, 04 Jun 2026 13:10:00 -0300", id: "thu-1310@fenn.example",
			body: "Hello,\n\nDo you make covers for a dory of 14 feet as well? And which colours do you have?\n\nThank you\nJune Fenn\n"},
		{name: "12-out-of-office", from: "Kit Heath <kit@heath.example>", subject: "Out of office: your cover", date: "Fri, 05 Jun 2026 06:00:00 -0300", id: "fri-0600@heath.example",
			header: "Auto-Submitted: auto-replied\r\n",
			body:   "I am away until 15 June and will answer after that.\n\nKit Heath\n"},
		{name: "13-newsletter", from: "Rope and Canvas <news@ropeandcanvas.example>", subject: "This month: eyelets", date: "Fri, 05 Jun 2026 09:00:00 -0300", id: "fri-0900@ropeandcanvas.example",
			header: "List-Id: <news.ropeandcanvas.example>\r\nList-Unsubscribe: <https://ropeandcanvas.example/leave>\r\n",
			body:   "Brass eyelets, 10 mm, 15 % off this month.\n"},
	}
	var all []Mail
	for _, l := range letters {
		all = append(all, Mail{l.name, l.raw()})
	}
	return all
}
