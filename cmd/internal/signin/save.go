package signin

import (
	"encoding/json"
	"errors"
	"os"
	"path/filepath"

	"golang.org/x/oauth2"
)

// save puts a token into a file that only its owner can read. The file holds
// the old token or the new one whole, whatever happens in between.
func save(file string, t *oauth2.Token) (err error) {
	data, err := json.Marshal(t)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(file), filepath.Base(file)+".*") // made with mode 0600
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(f.Name()))
		}
	}()
	_, err = f.Write(append(data, '\n'))
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return err
	}
	if err = os.Rename(f.Name(), file); err != nil {
		return err
	}
	syncFolder(filepath.Dir(file))
	return nil
}

// syncFolder makes the new name last through a power cut, where the system lets
// folders be synced.
func syncFolder(folder string) {
	d, err := os.Open(folder)
	if err != nil {
		return
	}
	defer d.Close() //nolint:errcheck // nothing was written to it
	d.Sync()        //nolint:errcheck // some systems cannot; the name is written soon anyway
}
