package deploy

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The unit is checked by systemd itself where that is installed. The worst
// score is 10; under 2 is called "OK" to "safe" by its own measure.
func TestUnit(t *testing.T) {
	analyze, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("systemd is not installed")
	}
	file := filepath.Join(t.TempDir(), "fairtape.service")
	// The program need not be installed to check the unit.
	text := strings.Replace(string(Unit()), "/usr/local/bin/fairtape", "/bin/true", 1)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(analyze, "verify", "--man=no", "--recursive-errors=no", file).CombinedOutput()
	if err != nil || strings.Contains(string(out), file) {
		t.Errorf("systemd does not take the unit: %v\n%s", err, out)
	}
	out, err = exec.Command(analyze, "security", "--offline=yes", "--threshold=20", "--no-pager", file).CombinedOutput()
	if err != nil {
		t.Errorf("more exposed than 2.0 of 10: %v\n%s", err, out)
	}
}

// The container's program, settings and health command are those that the
// recipe names.
func TestContainerfile(t *testing.T) {
	text := string(Containerfile())
	for _, want := range []string{"USER 65532", `"/fairtape", "health"`, "CGO_ENABLED=0", "-tags nodynamic", "--read-only"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing", want)
		}
	}
}
