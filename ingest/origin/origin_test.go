package origin

import (
	"bytes"
	"context"
	"crypto/ed25519"
	"encoding/base64"
	"errors"
	"net"
	"strings"
	"testing"
	"time"

	"github.com/emersion/go-msgauth/dkim"

	"fairtape/ingest"
)

func from(address string, header ...string) ingest.Message {
	m := ingest.Message{From: ingest.Address{Address: address}, Header: ingest.Header{"From": {address}}}
	for i := 0; i+1 < len(header); i += 2 {
		m.Header[header[i]] = append(m.Header[header[i]], header[i+1])
	}
	return m
}

const ann = "ann@customer.example"

func TestOf(t *testing.T) {
	own := []string{"orders@pinfold.example"}
	answer := func(subject, text string) ingest.Message {
		m := from(ann)
		m.Subject, m.Text, m.InReplyTo = subject, text, []string{"d14-2@pinfold.example"}
		return m
	}
	survey := strings.Repeat("7 ft 47 1/2 61\n", 20)
	received := from(ann)
	for range 120 {
		received.Header["Received"] = append(received.Header["Received"], "from somewhere")
	}
	withFile := answer("Automatic reply: survey", "I am out of the office")
	withFile.Attachments = []ingest.Attachment{{Name: "boat.xlsx"}}

	tests := []struct {
		name string
		m    ingest.Message
		want Kind
	}{
		// RFC 3834 section 5.
		{"auto-replied", from(ann, "Auto-Submitted", "auto-replied"), AutoReply},
		{"auto-generated with a comment", from(ann, "Auto-Submitted", "auto-generated; owner-email=x"), AutoReply},
		{"an autoresponder's own field", from(ann, "X-Autoreply", "yes"), AutoReply},
		{"precedence of an autoresponder", from(ann, "Precedence", "auto_reply"), AutoReply},
		// RFC 3464, RFC 5321 section 4.5.5.
		{"delivery report", from("x@mx.example", "Content-Type", `multipart/report; report-type=delivery-status; boundary=x`), Bounce},
		{"null sender", from(ann, "Return-Path", "<>"), Bounce},
		{"mail server", from("MAILER-DAEMON@mx.example"), Bounce},
		{"failed recipients", from("x@mx.example", "X-Failed-Recipients", ann), Bounce},
		// RFC 8098, RFC 5965.
		{"read receipt", from(ann, "Return-Path", "<>", "Content-Type", `multipart/report; report-type="disposition-notification"; boundary=x`), Receipt},
		{"abuse report", from("fbl@provider.example", "Content-Type", `multipart/report; boundary=x; report-type=feedback-report`), Receipt},
		// RFC 2919, RFC 2369.
		{"list", from(ann, "List-Id", "<boats.example>"), List},
		{"newsletter", from(ann, "List-Unsubscribe", "<mailto:x@boats.example>"), List},
		{"bulk", from(ann, "Precedence", "Bulk"), List},
		{"junk", from(ann, "Precedence", "junk"), List},
		{"no-reply", from("no-reply@boats.example"), Robot},
		{"donotreply with a tag", from("donotreply+17@boats.example"), Robot},
		{"ne pas répondre", from("ne-pas-repondre@bateaux.example"), Robot},
		{"nicht antworten", from("nicht-antworten@boote.example"), Robot},
		{"bounce address", from("bounces+ann@boats.example"), Robot},
		{"our own address", from("Orders@Pinfold.example"), Ours},
		{"our own letter forwarded in a circle", from(ann, "X-Fairtape-Draft", "14-2"), Ours},
		{"120 Received fields", received, Loop},
		{"no sender", from(""), Nobody},
		{"out of office by its subject", answer("Automatic reply: Re: canoe", "Back on 9 March, call +1 902 555 0134."), AutoReply},
		{"absence by its subject, French", answer("Réponse automatique : Re: canoë", "De retour le 9 mars."), AutoReply},
		{"absence by its subject, German", answer("Abwesenheitsnotiz: Re: Kanu", "Bin am 9. März zurück."), AutoReply},
		{"out of office by its text", answer("Re: canoe", "Thank you for your message. I am currently out of the office until 9 March."), AutoReply},
		{"absence by its text, French", answer("Re: canoë", "Bonjour, je suis actuellement en congé jusqu'au 9 mars."), AutoReply},
		{"absence by its text, German", answer("Re: Kanu", "Guten Tag, ich bin bis zum 9. März nicht im Büro."), AutoReply},

		{"Auto-Submitted: no", from(ann, "Auto-Submitted", "no"), Person},
		{"a plain mail", from(ann, "Return-Path", "<ann@customer.example>", "Content-Type", "text/plain"), Person},
		{"norman is no robot", from("noreen@customer.example"), Person},
		{"a domain named like one", from("ann@noreply.example"), Person},
		{"first class mail", from(ann, "Precedence", "first-class"), Person},
		{"a survey sent on holiday", func() ingest.Message {
			m := from(ann)
			m.Subject, m.Text = "my boat", "I'm on vacation, so here is my boat at last:\n"+survey
			return m
		}(), Person},
		{"a correction sent on holiday", answer("Re: canoe", "I'm on vacation this week, but 7 ft is 47 1/2, you were right."), Person},
		{"a correction in French on holiday", answer("Re: canoë", "Je suis en vacances; à 210 c'est 120,5."), Person},
		{"a survey under such a subject", answer("Out of office boat", survey), Person},
		{"a file under such a subject", withFile, Person},
		{"a quotation of such a text", answer("Re: canoe", "thanks!\n> I am out of the office until 9 March\n"), Person},
		{"a holiday without a thread", func() ingest.Message {
			m := from(ann)
			m.Subject, m.Text = "question", "I'm on vacation next week; can you start now?"
			return m
		}(), Person},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Of(tt.m, own)
			if got.Kind != tt.want || (got.Reason == "") != (tt.want == Person) {
				t.Errorf("%+v, want %s", got, tt.want)
			}
		})
	}
}

func TestCheckByResults(t *testing.T) {
	const id = "mx.pinfold.example"
	tests := []struct {
		name   string
		fields []string
		want   Trust
	}{
		{"nothing", nil, Unknown},
		{"a stranger's word", []string{"mx.evil.example; dmarc=pass header.from=customer.example"}, Unknown},
		{"an id that only begins like ours", []string{"mx.pinfold.example.evil.example; dmarc=pass header.from=customer.example"}, Unknown},
		{"nonsense", []string{";;;==="}, Unknown},
		{"another domain's pass", []string{id + "; dmarc=pass header.from=evil.example"}, Unknown},
		{"another domain's signature", []string{id + "; dkim=pass header.d=evil.example"}, Unknown},
		{"dmarc none", []string{id + "; dmarc=none header.from=customer.example"}, Unknown},
		{"dmarc fail", []string{id + "; dmarc=fail header.from=customer.example"}, Fail},
		{"dmarc fail with somebody's dkim", []string{id + "; dkim=pass header.d=evil.example; dmarc=fail header.from=customer.example"}, Fail},
		{"a forged field below ours", []string{id + "; dmarc=fail header.from=customer.example", id + "; dmarc=pass header.from=customer.example"}, Fail},
		{"spf fail alone", []string{id + "; spf=fail smtp.mailfrom=ann@customer.example"}, Fail},
		{"dkim fail alone", []string{id + "; dkim=fail header.d=customer.example"}, Fail},
		{"dmarc pass", []string{id + "; dmarc=pass header.from=customer.example"}, Pass},
		{"version after the id", []string{id + " 1; dmarc=pass header.from=customer.example"}, Pass},
		{"dkim pass of the mail subdomain", []string{id + "; dkim=pass header.i=@mail.customer.example"}, Pass},
		{"spf pass, dkim fail", []string{id + "; dkim=fail header.d=customer.example; spf=pass smtp.mailfrom=ann@customer.example"}, Pass},
		{"second signature passes", []string{id + "; dkim=fail header.d=customer.example; dkim=pass header.d=customer.example"}, Pass},
	}
	a := Authenticator{AuthservID: id}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			m := from(ann)
			m.Header["Authentication-Results"] = tt.fields
			if got, why := a.Check(t.Context(), m, nil); got != tt.want || why == "" {
				t.Errorf("%s (%s), want %s", got, why, tt.want)
			}
		})
	}
	twice := from(ann, "From", "x@evil.example", "Authentication-Results", id+"; dmarc=pass header.from=customer.example")
	if got, _ := a.Check(t.Context(), twice, nil); got != Fail {
		t.Errorf("two From fields: %s, want fail", got)
	}
}

// signed returns a mail signed for a domain, and the DNS record of the key.
func signed(t *testing.T, domain string, signatures int) (raw []byte, record string) {
	t.Helper()
	public, private, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	raw = []byte("From: ann@customer.example\r\nSubject: canoe\r\n\r\n15 ft 9 in\r\n")
	for range signatures {
		var out bytes.Buffer
		err := dkim.Sign(&out, bytes.NewReader(raw), &dkim.SignOptions{Domain: domain, Selector: "s", Signer: private})
		if err != nil {
			t.Fatal(err)
		}
		raw = out.Bytes()
	}
	return raw, "v=DKIM1; k=ed25519; p=" + base64.StdEncoding.EncodeToString(public)
}

func TestCheckBySignature(t *testing.T) {
	good, record := signed(t, "customer.example", 1)
	stranger, strangerRecord := signed(t, "evil.example", 1)
	many, manyRecord := signed(t, "evil.example", 20)
	unsigned := []byte("From: ann@customer.example\r\n\r\n15 ft 9 in\r\n")
	answers := func(record string, err error) func(context.Context, string) ([]string, error) {
		return func(context.Context, string) ([]string, error) { return []string{record}, err }
	}
	tests := []struct {
		name   string
		raw    []byte
		lookup func(context.Context, string) ([]string, error)
		want   Trust
	}{
		{"no signature", unsigned, answers(record, nil), Unknown},
		{"no mail", nil, answers(record, nil), Unknown},
		{"no resolver", good, nil, Unknown},
		{"the DNS is down", good, answers("", &net.DNSError{IsTemporary: true}), Unknown},
		{"a stranger's signature", stranger, answers(strangerRecord, nil), Unknown},
		{"changed on the way", bytes.Replace(good, []byte("15 ft"), []byte("16 ft"), 1), answers(record, nil), Fail},
		{"another key", good, answers(strangerRecord, nil), Fail},
		{"no such key", good, answers("", &net.DNSError{IsNotFound: true}), Fail},
		{"signed", good, answers(record, nil), Pass},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			a := Authenticator{LookupTXT: tt.lookup}
			if got, why := a.Check(t.Context(), from(ann), tt.raw); got != tt.want || why == "" {
				t.Errorf("%s (%s), want %s", got, why, tt.want)
			}
		})
	}
	questions := make(chan struct{}, 100)
	a := Authenticator{LookupTXT: func(context.Context, string) ([]string, error) {
		questions <- struct{}{}
		return []string{manyRecord}, nil
	}}
	a.Check(t.Context(), from(ann), many)
	if n := len(questions); n > maxVerifications {
		t.Errorf("%d questions to the DNS for 20 signatures, want at most %d", n, maxVerifications)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 10*time.Millisecond)
	defer cancel()
	a.LookupTXT = func(ctx context.Context, _ string) ([]string, error) {
		<-ctx.Done()
		return nil, &net.DNSError{IsTimeout: true, Err: errors.New("timeout").Error(), IsTemporary: true}
	}
	if got, _ := a.Check(ctx, from(ann), good); got != Unknown {
		t.Errorf("silent DNS: %s, want unknown", got)
	}
}
