package desk

import (
	"bytes"
	"context"
	"encoding/base64"
	"errors"
	"image/jpeg"
	"math/rand/v2"
	"strings"
	"testing"

	"fairtape/cmd/internal/ledger"
	"fairtape/cmd/internal/opener"
	"fairtape/ingest"
	"fairtape/parse"
	"fairtape/parse/form"
	"fairtape/parse/photo"
	"fairtape/parse/photo/phototest"
	"fairtape/parse/prose"
	"fairtape/reply"
	"fairtape/validate"
)

// photos reads the photographs that come with a mail, and its body.
type photos struct{}

func (photos) Read(_ context.Context, msg ingest.Message, name string) (opener.Mail, error) {
	m := opener.Mail{Body: prose.Read(name, msg.Text, msg.HTML)}
	reader, err := photo.NewReader()
	for _, a := range msg.Attachments {
		pictures, lost, decodeErr := photo.Decode(a.Data)
		if err != nil || decodeErr != nil {
			return m, errors.Join(err, decodeErr)
		}
		m.Files = append(m.Files, reader.ReadAll(name+"/"+a.Name, pictures, lost))
	}
	return m, err
}

// slipPhoto is a photograph of the slip that went with a letter, filled in by
// hand: both tries of each number.
func slipPhoto(t *testing.T, job int, places []parse.Cell, values map[parse.Cell]parse.Length) string {
	t.Helper()
	rng := rand.New(rand.NewPCG(5, 6))
	layout, err := form.NewSlip(form.SlipSpec{Paper: form.Letter, Unit: parse.Inch, Job: job, Places: places})
	if err != nil {
		t.Fatal(err)
	}
	sheet, err := phototest.Blank(layout, 1)
	if err != nil {
		t.Fatal(err)
	}
	var written []phototest.Value
	for cell, length := range values {
		written = append(written, phototest.Value{Cell: cell, Try: 1, Length: length}, phototest.Value{Cell: cell, Try: 2, Length: length})
	}
	sheet.Fill(phototest.NewHand(nil, rng), written, phototest.Trouble{}, rng)
	camera := phototest.Camera{Width: 1080, Height: 1440, Share: 0.9, Exposure: 0.8, Blur: 0.6, Noise: 0.002, Quality: 85, Tilt: 8}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, sheet.Photograph(camera, rng).Picture, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	encoded := base64.StdEncoding.EncodeToString(b.Bytes())
	var lines strings.Builder
	for ; len(encoded) > 76; encoded = encoded[76:] {
		lines.WriteString(encoded[:76] + "\r\n")
	}
	return lines.String() + encoded + "\r\n"
}

// A photograph of the filled slip joins its job, and its numbers take the place
// of the odd ones.
func TestSlipComesBack(t *testing.T) {
	if testing.Short() {
		t.Skip("a photo takes seconds to render")
	}
	w := newWorld(t)
	var places []parse.Cell
	w.papers = Papers{Slip: func(_ int, asked []parse.Cell, _ parse.Unit, _ string) (*reply.File, error) {
		places = asked
		return &reply.File{Name: "again.pdf", MediaType: "application/pdf", Data: []byte("a page")}, nil
	}}
	s, right := odd(1)
	w.says("my boat", s)
	w.arrive(mail{uid: 1, from: "Ann Tarn <" + ann + ">", subject: "my boat", id: "1@tarn.example"})
	w.send(1)
	if len(places) != 1 {
		t.Fatalf("the slip asks for %v", places)
	}
	asked := parse.Cell{At: s.Stations[6].At, Measure: parse.HullGirth}
	picture := slipPhoto(t, 1, places, map[parse.Cell]parse.Length{asked: right})
	answer := func(uid uint32, from, id, answers string) mail {
		return mail{uid: uid, from: from, subject: "Re: my boat", id: id, answers: answers,
			header: "MIME-Version: 1.0\r\nContent-Type: multipart/mixed; boundary=b\r\n",
			body: "--b\r\nContent-Type: text/plain\r\n\r\nHere it is.\r\n--b\r\nContent-Type: image/jpeg\r\nContent-Transfer-Encoding: base64\r\n" +
				"Content-Disposition: attachment; filename=slip.jpg\r\n\r\n" + picture + "--b--"}
	}
	w.reader = photos{}
	w.arrive(answer(2, "bo@fenn.example", "2@fenn.example", ""))
	if m := w.message(2); m.End != ledger.Held || w.job(m.Job).Perhaps != 1 || !strings.Contains(m.Reason, "a paper of job 1") || hull7(w).Value == right {
		t.Errorf("from a stranger it ended as %s in job %d: %s", m.End, m.Job, m.Reason)
	}
	w.arrive(answer(3, ann, "3@tarn.example", "letter-1@pinfold.example"))
	m := w.message(3)
	got := hull7(w)
	if m.Job != 1 || got.Value != right || got.Source.File != "mail/slip.jpg" {
		t.Fatalf("it ended as %s in job %d (%s); the number is %+v, want %v", m.End, m.Job, m.Reason, got, right)
	}
	if v := w.surveyOf(1); v.Verdict != validate.Clean || !strings.Contains(w.openLetter(1), "post") {
		t.Errorf("the survey is %s; the letter:\n%s", v.Verdict, w.openLetter(1))
	}
}
