package opener

import (
	"os"
	"testing"
)

func TestMain(m *testing.M) {
	if IsChild() {
		os.Exit(Serve())
	}
	os.Exit(m.Run())
}

func newOpener(t testing.TB) *Opener {
	t.Helper()
	o, err := New("", t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func TestPicture(t *testing.T) {
	o := newOpener(t)
	data, err := os.ReadFile("/root/go/pkg/mod/modernc.org/memory@v1.12.1/logo.png")
	if err != nil {
		t.Skip(err)
	}
	got, err := o.open(t.Context(), "x.png", data)
	t.Logf("%+v %v", got, err)
}

func BenchmarkChild(b *testing.B) {
	o := newOpener(b)
	for b.Loop() {
		if _, err := o.open(b.Context(), "x.png", []byte("\x89PNG\r\n\x1a\n")); err != nil {
			b.Fatal(err)
		}
	}
}
