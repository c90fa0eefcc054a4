package pdf

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"slices"
	"time"

	"github.com/klippa-app/go-pdfium"
	"github.com/klippa-app/go-pdfium/enums"
	pdfiumerrors "github.com/klippa-app/go-pdfium/errors"
	"github.com/klippa-app/go-pdfium/references"
	"github.com/klippa-app/go-pdfium/requests"
	"github.com/klippa-app/go-pdfium/structs"
	"github.com/klippa-app/go-pdfium/webassembly"
	"github.com/tetratelabs/wazero"
	"github.com/tetratelabs/wazero/api"
	"github.com/tetratelabs/wazero/experimental"
)

const (
	// memoryPages is what the module may use, in WebAssembly pages of 64 KB:
	// 128 MB. A page at 300 dpi needs 35 MB; a bomb gets no further.
	memoryPages = 2048
	startWithin = 12 * time.Second // the first start compiles the module
)

var errPassword = errors.New("the file needs a password")

// document is a file opened by the first reader.
type document struct {
	pdf     pdfium.Pdfium
	ref     references.FPDF_DOCUMENT
	form    references.FPDF_FORMHANDLE
	pages   int
	figures int // on the pages read so far
	xfa     bool
	close   func()
}

// open starts a fresh copy of the first reader, which sees no file system, and
// gives it the file. The error wraps errPassword for a locked file, and
// errStart when the reader itself did not start.
func (r *Reader) open(ctx context.Context, data []byte) (*document, error) {
	config := wazero.NewRuntimeConfig().
		WithCoreFeatures(api.CoreFeaturesV2 | experimental.CoreFeaturesExceptionHandling).
		WithCloseOnContextDone(ctx.Done() != nil). // to listen costs more than most calls
		WithMemoryLimitPages(memoryPages)
	if r.Cache != "" {
		cache, err := wazero.NewCompilationCacheWithDir(r.Cache)
		if err == nil { // without it the start is only slower
			config = config.WithCompilationCache(cache)
		}
	}
	pool, err := webassembly.Init(webassembly.Config{
		Context: ctx, MinIdle: 0, MaxIdle: 1, MaxTotal: 1,
		FSConfig:      wazero.NewFSConfig(),
		RuntimeConfig: config,
		Stdout:        io.Discard,
		Stderr:        io.Discard,
	})
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errStart, err)
	}
	instance, err := pool.GetInstance(startWithin)
	if err != nil {
		pool.Close()
		return nil, fmt.Errorf("%w: %w", errStart, err)
	}
	d := &document{pdf: instance, close: func() { instance.Close(); pool.Close() }}
	if err := d.load(data); err != nil {
		d.close()
		return nil, err
	}
	return d, nil
}

var errStart = errors.New("the PDF reader did not start")

func (d *document) load(data []byte) error {
	opened, err := d.pdf.OpenDocument(&requests.OpenDocument{File: &data})
	if errors.Is(err, pdfiumerrors.ErrPassword) || errors.Is(err, pdfiumerrors.ErrSecurity) {
		return errPassword
	}
	if err != nil {
		return fmt.Errorf("open the file: %w", err)
	}
	d.ref = opened.Document
	count, err := d.pdf.FPDF_GetPageCount(&requests.FPDF_GetPageCount{Document: d.ref})
	if err != nil {
		return fmt.Errorf("count pages: %w", err)
	}
	d.pages = count.PageCount
	if kind, err := d.pdf.FPDF_GetFormType(&requests.FPDF_GetFormType{Document: d.ref}); err == nil {
		d.xfa = kind.FormType == enums.FPDF_FORMTYPE_XFA_FULL
	}
	form, err := d.pdf.FPDFDOC_InitFormFillEnvironment(&requests.FPDFDOC_InitFormFillEnvironment{
		Document: d.ref, FormFillInfo: passiveForm(),
	})
	if err != nil {
		return fmt.Errorf("open the form: %w", err)
	}
	d.form = form.FormHandle
	return nil
}

// passiveForm answers whatever a form may ask of a viewer by doing nothing:
// no script of a form ever runs.
func passiveForm() structs.FPDF_FORMFILLINFO {
	return structs.FPDF_FORMFILLINFO{
		FFI_Invalidate:         func(references.FPDF_PAGE, float64, float64, float64, float64) {},
		FFI_SetCursor:          func(enums.FXCT) {},
		FFI_SetTimer:           func(int, func(int)) int { return 0 },
		FFI_KillTimer:          func(int) {},
		FFI_GetLocalTime:       func() structs.FPDF_SYSTEMTIME { return structs.FPDF_SYSTEMTIME{} },
		FFI_GetPage:            func(references.FPDF_DOCUMENT, int) *references.FPDF_PAGE { return nil },
		FFI_GetRotation:        func(references.FPDF_PAGE) enums.FPDF_PAGE_ROTATION { return enums.FPDF_PAGE_ROTATION_NONE },
		FFI_ExecuteNamedAction: func(string) {},
	}
}

// pixelsMost is the largest picture made of a page: A3 at 200 dpi.
const pixelsMost = 8 << 20

// draw renders a page with its fields, in grey.
func (d *document) draw(page references.FPDF_PAGE, dpi int) (*image.Gray, error) {
	rendered, err := d.pdf.RenderPageInDPI(&requests.RenderPageInDPI{
		Page:        requests.Page{ByReference: &page},
		DPI:         dpi,
		RenderFlags: enums.FPDF_RENDER_FLAG_ANNOT,
		ImageFormat: requests.RenderImageFormatGrayscale,
	})
	if err != nil {
		return nil, fmt.Errorf("draw the page: %w", err)
	}
	defer rendered.Cleanup()
	inside, ok := rendered.Result.RenderedImage.(*image.Gray)
	if !ok {
		return nil, errors.New("draw the page: not a grey picture")
	}
	// The picture lies in the module's memory until the clean-up.
	return &image.Gray{Pix: slices.Clone(inside.Pix), Stride: inside.Stride, Rect: inside.Rect}, nil
}

// Pages draws pages, numbered from 1, at the given resolution in dots per inch,
// for a person or a reader of pictures. One that is too large to draw is nil.
func (r *Reader) Pages(ctx context.Context, data []byte, dpi int, numbers []int) ([]image.Image, error) {
	d, err := r.open(ctx, data)
	if err != nil {
		return nil, err
	}
	defer d.close()
	drawn := make([]image.Image, len(numbers))
	for i, number := range numbers {
		rendered, err := d.pdf.RenderPageInDPI(&requests.RenderPageInDPI{
			Page:        requests.Page{ByIndex: &requests.PageByIndex{Document: d.ref, Index: number - 1}},
			DPI:         dpi,
			RenderForm:  true,
			Document:    &d.ref,
			RenderFlags: enums.FPDF_RENDER_FLAG_ANNOT,
		})
		if err != nil {
			continue
		}
		inside, ok := rendered.Result.RenderedImage.(*image.RGBA)
		if ok {
			drawn[i] = &image.RGBA{Pix: slices.Clone(inside.Pix), Stride: inside.Stride, Rect: inside.Rect}
		}
		rendered.Cleanup()
	}
	return drawn, nil
}
