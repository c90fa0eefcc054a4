package eml

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"mime"
	"strconv"
	"strings"

	"github.com/emersion/go-message"

	"fairtape/reply"
)

// part is a piece of MIME: a leaf with data or a container with parts.
type part struct {
	mediaType string
	params    map[string]string
	fields    []field // beside Content-Type
	data      []byte
	parts     []*part
}

func container(mediaType string, params map[string]string, parts []*part) *part {
	return &part{mediaType: mediaType, params: params, parts: parts}
}

func textPart(mediaType, text string) *part {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return &part{
		mediaType: mediaType,
		params:    map[string]string{"charset": "utf-8"},
		fields:    []field{{"Content-Transfer-Encoding", "quoted-printable"}},
		data:      []byte(strings.ReplaceAll(text, "\n", "\r\n")),
	}
}

func picturePart(p reply.Picture) *part {
	return &part{
		mediaType: "image/png",
		fields: []field{
			{"Content-Transfer-Encoding", "base64"},
			{"Content-ID", ids(p.ContentID)},
			{"Content-Disposition", disposition("inline", p.Name)},
			{"Content-Description", encoded(p.Alt)},
		},
		data: p.PNG,
	}
}

func filePart(f reply.File) *part {
	mediaType, _, err := mime.ParseMediaType(f.MediaType)
	if err != nil || mime.FormatMediaType(mediaType, nil) == "" || !strings.Contains(mediaType, "/") ||
		strings.HasPrefix(mediaType, "multipart/") || strings.HasPrefix(mediaType, "message/") {
		mediaType = "application/octet-stream"
	}
	return &part{
		mediaType: mediaType,
		fields: []field{
			{"Content-Transfer-Encoding", "base64"},
			{"Content-Disposition", disposition("attachment", f.Name)},
		},
		data: f.Data,
	}
}

func disposition(word, name string) string {
	if name = fileName(name); name == "" {
		return word
	}
	return mime.FormatMediaType(word, map[string]string{"filename": name})
}

// fileName makes a text fit to name a file on any system: one line, no path,
// and nothing that cannot be seen; "" when nothing is left.
func fileName(name string) string {
	name = strings.NewReplacer("/", "_", `\`, "_", ":", "_").Replace(clean(reply.Line(name)))
	return strings.Trim(cut(name, maxName), ". ")
}

// write writes the part, its own header first.
func (p *part) write(out *bytes.Buffer, b *boundaries) error {
	w, err := message.CreateWriter(out, p.header(b))
	if err != nil {
		return err
	}
	if err := p.fill(w, b); err != nil {
		return err
	}
	return w.Close()
}

func (p *part) fill(w *message.Writer, b *boundaries) error {
	if p.parts == nil {
		_, err := w.Write(p.data)
		return err
	}
	for _, child := range p.parts {
		cw, err := w.CreatePart(child.header(b))
		if err != nil {
			return err
		}
		if err := child.fill(cw, b); err != nil {
			return err
		}
		if err := cw.Close(); err != nil {
			return err
		}
	}
	return nil
}

// header is the part's header for go-message, which puts a new field before
// the others.
func (p *part) header(b *boundaries) message.Header {
	params := p.params
	if p.parts != nil {
		params = map[string]string{"boundary": b.next()}
		for k, v := range p.params {
			params[k] = v
		}
	}
	fields := append([]field{}, p.fields...)
	fields = append(fields, field{"Content-Type", mime.FormatMediaType(p.mediaType, params)})
	var h message.Header
	for i := len(fields) - 1; i >= 0; i-- {
		if fields[i].value != "" {
			h.Add(fields[i].name, fields[i].value)
		}
	}
	return h
}

// boundaries makes the delimiters of one letter. Each begins with "=_", which
// quoted-printable and base64 never put at the beginning of a line behind "--".
type boundaries struct {
	seed string
	n    int
}

func (b *boundaries) next() string {
	b.n++
	sum := sha256.Sum256([]byte(b.seed + "/" + strconv.Itoa(b.n)))
	return "=_" + hex.EncodeToString(sum[:12])
}
