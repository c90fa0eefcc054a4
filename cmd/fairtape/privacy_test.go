package main

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fairtape/reply/chat/chattest"
	"fairtape/reply/smtp/smtptest"
)

// What may never be told: words that stand nowhere else.
const (
	secretWords  = "quetzal marmalade"
	secretNumber = "71 13/16"
	secretPlace  = "GPS 44.6488 N 63.5752 W"
)

// located is a photograph that knows where it was taken: a JPEG with an Exif
// segment (CIPA DC-008, section 4.5) whose GPS data hold a marker.
func located(t *testing.T) []byte {
	t.Helper()
	picture := image.NewRGBA(image.Rect(0, 0, 800, 600))
	for y := range 600 {
		for x := range 800 {
			picture.Set(x, y, color.RGBA{uint8(x), uint8(y), 120, 255})
		}
	}
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, picture, nil); err != nil {
		t.Fatal(err)
	}
	le := binary.LittleEndian
	exif := []byte("Exif\x00\x00II*\x00\x08\x00\x00\x00")
	entry := func(tag, kind uint16, count, value uint32) {
		exif = le.AppendUint16(exif, tag)
		exif = le.AppendUint16(exif, kind)
		exif = le.AppendUint32(exif, count)
		exif = le.AppendUint32(exif, value)
	}
	exif = le.AppendUint16(exif, 1)
	entry(0x8825, 4, 1, 26) // the GPS directory lies at 26
	exif = le.AppendUint32(exif, 0)
	exif = le.AppendUint16(exif, 1)
	entry(0x001B, 7, uint32(len(secretPlace)), 44) // GPSProcessingMethod
	exif = le.AppendUint32(exif, 0)
	exif = append(exif, secretPlace...)
	segment := binary.BigEndian.AppendUint16([]byte{0xFF, 0xE1}, uint16(len(exif)+2))
	raw := plain.Bytes()
	return bytes.Join([][]byte{raw[:2], segment, exif, raw[2:]}, nil)
}

// The words of a mail and its numbers never reach the log, not even when all
// goes wrong; and where a picture was taken reaches nobody.
func TestPrivacy(t *testing.T) {
	t.Parallel()
	f := inMemory(t)
	survey := "unit,in\nlength overall,15 ft\nstation,hull girth,full girth\n1 ft,35,42\n2 ft,38,52\n3 ft," + secretNumber + ",60\n4 ft,43,66\n5 ft,45,70\n"
	attach := func(kind, name string, data []byte) string {
		return fmt.Sprintf("--b\r\nContent-Type: %s\r\nContent-Disposition: attachment; filename=%s\r\nContent-Transfer-Encoding: base64\r\n\r\n%s\r\n",
			kind, name, base64.StdEncoding.EncodeToString(data))
	}
	mail := func(id, more string) []byte {
		return []byte("From: Ann Tarn <ann@tarn.example>\r\nTo: orders@pinfold.example\r\nSubject: our boat\r\nMessage-ID: <" + id + "@tarn.example>\r\n" +
			"Date: " + time.Now().Format(time.RFC1123Z) + "\r\nMIME-Version: 1.0\r\nContent-Type: multipart/mixed; boundary=b\r\n\r\n" +
			"--b\r\nContent-Type: text/plain\r\n\r\nHello, the password of our shed is " + secretWords + ". 6 ft: " + secretNumber + " / 73\r\n" + more + "--b--\r\n")
	}
	mails := [][]byte{
		mail("1", attach("text/csv", "survey.csv", []byte(survey))+attach("image/jpeg", "boat.jpg", located(t))),
		mail("2", attach("application/pdf", "broken.pdf", []byte("%PDF-1.4 "+secretWords+" "+secretNumber))),
		mail("3", attach("application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", "broken.xlsx", []byte("PK\x03\x04"+secretWords+secretNumber))),
		mail("4", strings.Repeat("Content-Type: "+secretWords+"\r\n--b\r\n", 200)),
	}
	for _, raw := range mails {
		if _, err := f.box.Append("INBOX", raw, time.Now()); err != nil {
			t.Fatal(err)
		}
	}
	f.server.Fail(smtptest.Faults{Data: 451})
	log, err := os.Create(filepath.Join(f.dir, "log")) // read while it is written
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { log.Close() }) //nolint:errcheck // the test is over
	told := func() string {
		data, err := os.ReadFile(log.Name())
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	cmd := f.command("watch")
	cmd.Stdout, cmd.Stderr = log, log
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	f.await("the mails are worked off", f.settled(len(mails)))
	if !f.chat.WaitConnected(patience) {
		t.Fatal("the service does not listen to the chat")
	}
	pressed := false
	f.await("a letter can be sent", func() bool {
		for _, m := range f.chat.Messages() {
			if _, err := f.chat.Press(chattest.Ann, m.TS, "send"); err == nil {
				pressed = true
			}
		}
		return pressed
	})
	f.await("the mail server puts it off", func() bool { return strings.Contains(told(), "an act has to wait") })
	f.end(cmd)

	for _, secret := range []string{secretWords, secretNumber, "71.8125", "our boat"} {
		if at := strings.Index(told(), secret); at >= 0 {
			t.Errorf("the log tells %q: %.200s", secret, told()[max(0, at-80):])
		}
	}
	said := 0
	leaks := func(where string, data []byte) {
		said++
		for _, secret := range []string{secretPlace, "Exif\x00"} {
			if bytes.Contains(data, []byte(secret)) {
				t.Errorf("%s tells %q", where, secret)
			}
		}
	}
	for _, m := range f.chat.Messages() {
		leaks("a post", []byte(m.Text))
		for _, file := range m.Files {
			leaks("a file in chat", file.Data)
		}
	}
	for _, m := range f.in("Drafts") {
		for _, part := range decoded(m.Raw) {
			leaks("a letter", part)
		}
	}
	if said < 4 {
		t.Errorf("only %d things were said", said)
	}
}

// decoded returns a mail, and each of its base64 parts decoded.
func decoded(raw []byte) [][]byte {
	parts := [][]byte{raw}
	for block := range strings.SplitSeq(strings.ReplaceAll(string(raw), "\r\n", "\n"), "\n\n") {
		if data, err := base64.StdEncoding.DecodeString(strings.ReplaceAll(block, "\n", "")); err == nil {
			parts = append(parts, data)
		}
	}
	return parts
}
