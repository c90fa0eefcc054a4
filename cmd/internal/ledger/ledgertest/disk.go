// Package ledgertest has a disk that fails when it is told to, for tests of
// what stands on it.
package ledgertest

import (
	"errors"
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"unsafe"

	"modernc.org/libc"
	sqlite3 "modernc.org/sqlite/lib"
)

// Failure is how a write, a sync or a truncation fails.
type Failure int32

// The failures, as SQLite knows them (sqlite.org/rescode.html).
const (
	Full     Failure = sqlite3.SQLITE_FULL
	Broken   Failure = sqlite3.SQLITE_IOERR_WRITE
	Unsynced Failure = sqlite3.SQLITE_IOERR_FSYNC
	ReadOnly Failure = sqlite3.SQLITE_READONLY
)

// Disk is what every database of this process lies on, until it is closed. It
// knows which bytes have been synced, and which a loss of power would take.
type Disk struct {
	name   uintptr             // the C string
	vfs    uintptr             // ours
	tables map[uintptr]uintptr // of a file's methods, by the system's own; a log has others than a database
	keep   []any               // what C code points at

	mu      sync.Mutex
	done    int // writes, syncs and truncations so far
	at      int // the one that fails, 0 for none
	lasting bool
	failure Failure
	failed  bool               // since Fail
	files   map[uintptr]string // open files by their handle
	synced  map[string][]byte  // what is safe, by path
	pending map[string][]change
}

// change is a write, or a truncation when data is nil.
type change struct {
	offset int64
	data   []byte
}

// methods of a file that matter here, as SQLite's VFS wants them.
type (
	writeFunc    = func(tls *libc.TLS, file, data uintptr, n int32, offset int64) int32
	syncFunc     = func(tls *libc.TLS, file uintptr, flags int32) int32
	truncateFunc = func(tls *libc.TLS, file uintptr, size int64) int32
	closeFunc    = func(tls *libc.TLS, file uintptr) int32
	deleteFunc   = func(tls *libc.TLS, vfs, path uintptr, syncFolder int32) int32
	openFunc     = func(tls *libc.TLS, vfs, path, file uintptr, flags int32, out uintptr) int32
)

// NewDisk puts a disk under every database that is opened from now on. Close
// it once they are closed. There is one disk at a time.
func NewDisk() (*Disk, error) {
	tls := libc.NewTLS()
	defer tls.Close()
	d := &Disk{tables: map[uintptr]uintptr{}, files: map[uintptr]string{}, synced: map[string][]byte{}, pending: map[string][]change{}}
	system := sqlite3.Xsqlite3_vfs_find(tls, 0)
	var err error
	if d.name, err = libc.CString("ledgertest"); err != nil {
		return nil, err
	}
	d.vfs = libc.Xmalloc(tls, libc.Tsize_t(unsafe.Sizeof(sqlite3.Tsqlite3_vfs{})))
	if system == 0 || d.vfs == 0 {
		return nil, errors.New("there is no memory for a disk")
	}
	v := at[sqlite3.Tsqlite3_vfs](d.vfs)
	*v = *at[sqlite3.Tsqlite3_vfs](system)
	v.FpNext, v.FzName = 0, d.name
	v.FxOpen = pointer(d, d.open(function[openFunc](v.FxOpen)))
	remove := function[deleteFunc](v.FxDelete)
	v.FxDelete = pointer(d, deleteFunc(func(tls *libc.TLS, vfs, path uintptr, syncFolder int32) int32 {
		d.mu.Lock()
		defer d.mu.Unlock()
		delete(d.synced, libc.GoString(path))
		delete(d.pending, libc.GoString(path))
		return remove(tls, vfs, path, syncFolder)
	}))
	if rc := sqlite3.Xsqlite3_vfs_register(tls, d.vfs, 1); rc != sqlite3.SQLITE_OK {
		return nil, fmt.Errorf("put in a disk: %d", rc)
	}
	return d, nil
}

// Close takes the disk out.
func (d *Disk) Close() error {
	tls := libc.NewTLS()
	defer tls.Close()
	if rc := sqlite3.Xsqlite3_vfs_unregister(tls, d.vfs); rc != sqlite3.SQLITE_OK {
		return fmt.Errorf("take out the disk: %d", rc)
	}
	for _, p := range append(slices.Collect(maps.Values(d.tables)), d.name, d.vfs) {
		libc.Xfree(tls, p)
	}
	return nil
}

// Fail lets the n-th write, sync or truncation from now on fail, counted from
// 1, and all after it when that lasts.
func (d *Disk) Fail(n int, lasting bool, how Failure) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.done, d.at, d.lasting, d.failure, d.failed = 0, n, lasting, how, false
}

// Mend lets nothing fail any more, and reports whether anything has since Fail.
func (d *Disk) Mend() (failed bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.at = 0
	return d.failed
}

// Copy writes the files of a folder into another as they would be found after a
// loss of power at this moment: what was synced is there, of the rest any part.
func (d *Disk) Copy(from, to string, random *rand.Rand) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	var errs []error
	for _, path := range slices.Sorted(maps.Keys(d.synced)) {
		if filepath.Dir(path) != from {
			continue
		}
		data := slices.Clone(d.synced[path])
		for _, c := range d.pending[path] {
			if random.IntN(2) == 0 {
				data = c.apply(data)
			}
		}
		errs = append(errs, os.WriteFile(filepath.Join(to, filepath.Base(path)), data, 0o600))
	}
	return errors.Join(errs...)
}

func (c change) apply(data []byte) []byte {
	if c.data == nil {
		if int64(len(data)) > c.offset {
			data = data[:c.offset]
		}
		return data
	}
	if end := c.offset + int64(len(c.data)); int64(len(data)) < end {
		data = append(data, make([]byte, end-int64(len(data)))...)
	}
	copy(data[c.offset:], c.data)
	return data
}

// step counts one act, and returns the failure that it meets, 0 for none.
func (d *Disk) step() int32 {
	d.done++
	if d.at > 0 && (d.done == d.at || d.lasting && d.done > d.at) {
		d.failed = true
		return int32(d.failure)
	}
	return 0
}

// open opens a file and puts our methods in the place of the system's.
func (d *Disk) open(system openFunc) openFunc {
	return func(tls *libc.TLS, vfs, path, file uintptr, flags int32, out uintptr) int32 {
		rc := system(tls, vfs, path, file, flags, out)
		if rc != sqlite3.SQLITE_OK || path == 0 {
			return rc
		}
		d.mu.Lock()
		defer d.mu.Unlock()
		f := at[sqlite3.Tsqlite3_file](file)
		table, known := d.tables[f.FpMethods]
		if !known {
			if table = libc.Xmalloc(tls, libc.Tsize_t(unsafe.Sizeof(sqlite3.Tsqlite3_io_methods{}))); table == 0 {
				return sqlite3.SQLITE_NOMEM
			}
			d.tables[f.FpMethods] = table
			*at[sqlite3.Tsqlite3_io_methods](table) = *at[sqlite3.Tsqlite3_io_methods](f.FpMethods)
			d.wrap(at[sqlite3.Tsqlite3_io_methods](table))
		}
		f.FpMethods = table
		name := libc.GoString(path)
		d.files[file] = name
		if _, known := d.synced[name]; !known {
			data, err := os.ReadFile(name)
			if err != nil {
				return sqlite3.SQLITE_CANTOPEN
			}
			d.synced[name] = data
		}
		return rc
	}
}

// wrap puts ours in the place of the methods that change a file.
func (d *Disk) wrap(m *sqlite3.Tsqlite3_io_methods) {
	write, sync := function[writeFunc](m.FxWrite), function[syncFunc](m.FxSync)
	truncate, done := function[truncateFunc](m.FxTruncate), function[closeFunc](m.FxClose)
	m.FxWrite = pointer(d, writeFunc(func(tls *libc.TLS, file, data uintptr, n int32, offset int64) int32 {
		d.mu.Lock()
		defer d.mu.Unlock()
		if rc := d.step(); rc != 0 {
			return rc
		}
		name := d.files[file]
		d.pending[name] = append(d.pending[name], change{offset, slices.Clone(unsafe.Slice(at[byte](data), n))})
		return write(tls, file, data, n, offset)
	}))
	m.FxTruncate = pointer(d, truncateFunc(func(tls *libc.TLS, file uintptr, size int64) int32 {
		d.mu.Lock()
		defer d.mu.Unlock()
		if rc := d.step(); rc != 0 {
			return rc
		}
		name := d.files[file]
		d.pending[name] = append(d.pending[name], change{offset: size})
		return truncate(tls, file, size)
	}))
	m.FxSync = pointer(d, syncFunc(func(tls *libc.TLS, file uintptr, flags int32) int32 {
		d.mu.Lock()
		defer d.mu.Unlock()
		if rc := d.step(); rc != 0 {
			return rc
		}
		name := d.files[file]
		for _, c := range d.pending[name] {
			d.synced[name] = c.apply(d.synced[name])
		}
		delete(d.pending, name)
		return sync(tls, file, flags)
	}))
	m.FxClose = pointer(d, closeFunc(func(tls *libc.TLS, file uintptr) int32 {
		d.mu.Lock()
		delete(d.files, file)
		d.mu.Unlock()
		return done(tls, file)
	}))
}

// at is what lies at an address of C memory.
func at[T any](address uintptr) *T { return *(**T)(unsafe.Pointer(&address)) }

// function is the function behind an address, as the translated C code calls
// it.
func function[F any](address uintptr) F {
	return *(*F)(unsafe.Pointer(&struct{ uintptr }{address}))
}

// pointer is the address of a function for the translated C code. The disk
// keeps the function alive.
func pointer[F any](d *Disk, f F) uintptr {
	held := &f
	d.keep = append(d.keep, held)
	return *(*uintptr)(unsafe.Pointer(held))
}
