package rehearsal

import (
	"context"
	"fmt"
	"io"
	"os/exec"
	"path/filepath"
)

// Build builds the program into a folder and returns its path. What the
// compiler says goes to out.
func Build(ctx context.Context, dir string, out io.Writer) (string, error) {
	program := filepath.Join(dir, "fairtape")
	build := exec.CommandContext(ctx, "go", "build", "-tags", "nodynamic", "-o", program, "fairtape/cmd/fairtape")
	build.Stdout, build.Stderr = out, out
	if err := build.Run(); err != nil {
		return "", fmt.Errorf("build the program: %w", err)
	}
	return program, nil
}
