package doctor

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"fairtape/cmd/internal/ledger"
)

// Room on the disk. A mail with photos is up to 50 MB, and is kept until it is
// worked off; the ledger itself grows by less than 1 MB a job.
const (
	leastRoom = 200 << 20 // bytes; below, one large mail may fill the disk
	goodRoom  = 1 << 30   // bytes; below, a busy week may
)

// disk looks at the ledger and the folder that it lies in.
func (x *examination) disk(ctx context.Context) {
	path := x.Settings.Ledger.Path
	folder := filepath.Dir(path)
	info, err := os.Stat(folder)
	if err != nil || !info.IsDir() {
		x.fault("disk", "folder-missing", fmt.Sprintf("The folder of the ledger is not there: %s.", folder),
			"Make it, for the user that runs the service, or name another in ledger.path.", "mkdir -p -m 700 "+quote(folder))
		return
	}
	if err := tryWriting(folder); err != nil {
		x.fault("disk", "folder-not-writable", fmt.Sprintf("Nothing can be written into the folder of the ledger: %s.", reason(err)),
			"Give the folder to the user that runs the service, or name another in ledger.path.", "chown \"$(id -un)\" "+quote(folder))
		return
	}
	x.room(folder)
	x.ledger(ctx, path)
}

func tryWriting(folder string) error {
	f, err := os.CreateTemp(folder, "fairtape-doctor-*")
	if err != nil {
		return err
	}
	_, err = f.WriteString("a test, removed at once\n")
	return errors.Join(err, f.Close(), os.Remove(f.Name()))
}

func (x *examination) room(folder string) {
	free, err := x.Free(folder)
	switch {
	case err != nil:
		x.skip("disk", "how much room there is cannot be told: "+err.Error())
	case free < leastRoom:
		x.fault("disk", "disk-full", fmt.Sprintf("Only %d MB are free in %s.", free>>20, folder), "Make room, or move the ledger.", "df -h "+quote(folder))
	case free < goodRoom:
		x.warn("disk", "disk-filling", fmt.Sprintf("Only %d MB are free in %s.", free>>20, folder), "Make room before it is full.", "df -h "+quote(folder))
	default:
		x.ok("disk", "%s can be written to and has %d GB free.", folder, free>>30)
	}
}

func (x *examination) ledger(ctx context.Context, path string) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		x.ok("ledger", "There is no ledger yet; the service makes it at its first start.")
		return
	}
	release, err := ledger.Claim(path)
	if errors.Is(err, ledger.ErrInUse) {
		x.warn("ledger", "ledger-in-use", fmt.Sprintf("Another copy of fairtape serves %s.", path),
			"That is right if it is the service; a second one would refuse to start.", "fairtape jobs list")
		return
	}
	if err != nil {
		x.fault("ledger", "ledger-locked", fmt.Sprintf("The ledger cannot be claimed: %s.", reason(err)),
			"Give the ledger and the files beside it to the user that runs the service.", "ls -l "+quote(filepath.Dir(path)))
		return
	}
	defer release() //nolint:errcheck // nothing was written under the claim
	l, err := ledger.Open(ctx, path, x.Now)
	if err == nil {
		err = errors.Join(l.Whole(ctx), l.Close())
	}
	switch {
	case errors.Is(err, ledger.ErrNewer):
		x.fault("ledger", "ledger-newer", "The ledger was written by a newer fairtape.", "Run that version, or a later one.", "fairtape --help")
	case err != nil:
		x.fault("ledger", "ledger-damaged", fmt.Sprintf("The ledger cannot be opened: %v.", err),
			"Restore the last backup of it; what is there now is kept beside it.", "fairtape jobs restore BACKUP")
	default:
		x.ok("ledger", "%s opens.", path)
	}
}
