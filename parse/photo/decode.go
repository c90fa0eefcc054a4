package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/webp"

	"fairtape/parse"
)

// Problems of picture files. Each message can be passed on as it is.
const (
	CodeTooLarge parse.Code = "picture-too-large" // more pixels than are read
	CodeBroken   parse.Code = "picture-broken"    // cut short, damaged or empty
	CodeMoving   parse.Code = "picture-moving"    // an animation
	CodeKind     parse.Code = "picture-kind"      // a kind of picture that is not read
	CodePages    parse.Code = "picture-pages"     // pages of a scan that were left out
)

// pixelsMost is the largest picture that is opened. Phones make pictures of up
// to 64 megapixels that fit a child's memory; the largest sensors, binned off,
// go beyond and are asked for smaller.
const pixelsMost = 64 << 20

// Fault is why a file gives no picture, in words for the shop.
type Fault struct {
	Code    parse.Code
	Message string
}

func (f *Fault) Error() string { return string(f.Code) + ": " + f.Message }

func broken() *Fault {
	return &Fault{CodeBroken, "The picture is damaged or cut short. Please send it again."}
}

func moving() *Fault {
	return &Fault{CodeMoving, "This is a moving picture. Please send a single photo of each page."}
}

func tooLarge(width, height int64) *Fault {
	return &Fault{CodeTooLarge, fmt.Sprintf("The picture has %d megapixels; up to %d are read. Please send it smaller.",
		width*height/1_000_000, pixelsMost>>20)}
}

// Decode opens a picture file, told by its content: JPEG, PNG, HEIC, TIFF or
// WebP. A TIFF of several pages gives several pictures, up to pagesMost; lost
// is how many more there were. Pictures are the right way up by what the camera
// noted. An error is always a *Fault: it is the file's.
func Decode(data []byte) (pictures []*Picture, lost int, err error) {
	defer func() {
		if recover() != nil { // decoders are known to panic on broken files
			pictures, err = nil, broken()
		}
	}()
	switch {
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		return single(decodeJPEG(data))
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return single(decodePNG(data))
	case len(data) > 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP":
		return single(decodeWebP(data))
	case bytes.HasPrefix(data, []byte("II*\x00")), bytes.HasPrefix(data, []byte("MM\x00*")):
		return decodeTIFF(data)
	case len(data) > 12 && string(data[4:8]) == "ftyp":
		return single(decodeHEIC(data))
	}
	return nil, 0, &Fault{CodeKind, "This kind of picture is not read. Please send it as a JPEG."}
}

func single(p *Picture, err error) ([]*Picture, int, error) {
	if err != nil {
		return nil, 0, err
	}
	return []*Picture{p}, 0, nil
}

// checkSize looks at what a header says before anything is decoded.
func checkSize(config image.Config, err error) error {
	switch {
	case err != nil || config.Width <= 0 || config.Height <= 0:
		return broken()
	case int64(config.Width)*int64(config.Height) > pixelsMost:
		return tooLarge(int64(config.Width), int64(config.Height))
	}
	return nil
}

func decodeJPEG(data []byte) (*Picture, error) {
	if err := checkSize(jpeg.DecodeConfig(bytes.NewReader(data))); err != nil {
		return nil, err
	}
	picture, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, broken()
	}
	return newPicture(picture, jpegOrientation(data)), nil
}

func decodePNG(data []byte) (*Picture, error) {
	config, err := png.DecodeConfig(bytes.NewReader(data))
	if err := checkSize(config, err); err != nil {
		return nil, err
	}
	header, rest := pngChunks(data)
	if header.animated {
		return nil, moving()
	}
	if header.depth == 16 && !header.interlaced {
		return decodeDeepPNG(header, rest)
	}
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, broken()
	}
	return newPicture(picture, upright), nil
}

func decodeWebP(data []byte) (*Picture, error) {
	if webpMoves(data) {
		return nil, moving()
	}
	if err := checkSize(webp.DecodeConfig(bytes.NewReader(data))); err != nil {
		return nil, err
	}
	picture, err := webp.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, broken()
	}
	return newPicture(picture, upright), nil
}

// webpMoves reports an extended WebP file with its animation flag set (RFC
// 9649, 2.7.1).
func webpMoves(data []byte) bool {
	return len(data) > 20 && string(data[12:16]) == "VP8X" && data[20]&0x02 != 0
}
