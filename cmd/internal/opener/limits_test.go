package opener

import (
	"path/filepath"
	"runtime"
	"testing"
)

func TestLimits(t *testing.T) {
	o, err := New("", t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	limits := o.Limits()
	if len(limits) != 4 || !limits[0].Here {
		t.Fatalf("limits: %+v", limits)
	}
	for _, l := range limits {
		if l.Here != (l.Need == "") {
			t.Errorf("%s: here %v, needs %q", l.Name, l.Here, l.Need)
		}
	}
	// What cannot be started has no network of its own.
	o.executable = filepath.Join(t.TempDir(), "not there")
	if limits := o.Limits(); runtime.GOOS == "linux" && limits[3].Here {
		t.Errorf("a program that is not there: %+v", limits[3])
	}
}
