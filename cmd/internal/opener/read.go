package opener

import (
	"bytes"
	"context"
	"image"
	_ "image/gif" // the sizes of pictures, told by their headers
	_ "image/jpeg"
	_ "image/png"

	_ "golang.org/x/image/bmp"
	_ "golang.org/x/image/tiff"
	_ "golang.org/x/image/webp"

	"fairtape/parse"
	"fairtape/parse/pdf"
	"fairtape/parse/prose"
)

// read opens a file of a kind that a reader is for. Tables and plain text come
// here in the parent too; all else only in a child.
func read(ctx context.Context, o order, data []byte) opened {
	switch {
	case o.Kind == kindPDF:
		return opened{Document: readPDF(ctx, o, data)}
	case o.Kind.picture():
		return readPicture(o, data)
	case o.Kind == kindMail:
		mail := prose.Read(o.Name, string(data[:len(data)-o.HTML]), string(data[len(data)-o.HTML:]))
		return opened{Document: mail.Document, Mail: &mail}
	case o.Kind == kindHTML:
		mail := prose.Read(o.Name, "", string(data))
		return opened{Document: mail.Document}
	case o.Kind == kindText:
		mail := prose.Read(o.Name, string(data), "")
		return opened{Document: mail.Document}
	}
	return opened{Document: problem(o.Name, CodeNotOpened, "There is no reader for this kind of file.")}
}

func readPDF(ctx context.Context, o order, data []byte) parse.Document {
	reader := pdf.Reader{Cache: o.Cache}
	doc, err := reader.Read(ctx, o.Name, data)
	if err != nil {
		return problem(o.Name, CodeNotOpened, "The program that reads PDF files could not be started.")
	}
	return doc
}

func readPicture(o order, data []byte) opened {
	answer := opened{Document: problem(o.Name, CodePictureNotRead, "The numbers are in a picture. A person has to read it.")}
	if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil {
		answer.Width, answer.Height = config.Width, config.Height
	}
	return answer
}
