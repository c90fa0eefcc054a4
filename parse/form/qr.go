package form

import (
	"errors"
	"fmt"
	"image"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"
)

// ErrNoCode is the error of a picture in which no QR code is found.
var ErrNoCode = errors.New("no code found in the picture")

// Modules returns the QR code of a text at error correction Q, row by row, true
// for black, without the bare paper around it.
func Modules(text string) ([][]bool, error) {
	code, err := encoder.Encoder_encode(text, decoder.ErrorCorrectionLevel_Q, nil)
	if err != nil {
		return nil, fmt.Errorf("make a QR code of %q: %w", text, err)
	}
	matrix := code.GetMatrix()
	rows := make([][]bool, matrix.GetHeight())
	for y := range rows {
		rows[y] = make([]bool, matrix.GetWidth())
		for x := range rows[y] {
			rows[y][x] = matrix.Get(x, y) == 1
		}
	}
	return rows, nil
}

// FindCode reads the code of one page in a picture that shows it upright or
// turned, sharp enough for about 3 pixels a module. Errors wrap ErrNoCode,
// ErrNotOurs or ErrVersion.
func FindCode(picture image.Image) (Code, error) {
	text, err := decode(picture)
	if err != nil {
		return Code{}, err
	}
	return ParseCode(text)
}

func decode(picture image.Image) (text string, err error) {
	defer func() {
		if p := recover(); p != nil { // the decoder is known to panic on odd pictures
			err = fmt.Errorf("%w: %v", ErrNoCode, p)
		}
	}()
	light := gozxing.NewLuminanceSourceFromImage(picture)
	hints := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true}
	err = ErrNoCode
	for _, binarizer := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(light), gozxing.NewGlobalHistgramBinarizer(light)} {
		bitmap, failed := gozxing.NewBinaryBitmap(binarizer)
		if failed != nil {
			continue
		}
		if result, failed := qrcode.NewQRCodeReader().Decode(bitmap, hints); failed == nil {
			return result.GetText(), nil
		}
	}
	return "", err
}
