package ledger

import (
	"database/sql"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"fairtape/reply"
)

// firstRecords is a record in each table that the first schema had.
const firstRecords = `
INSERT INTO cursors VALUES ('orders@mail', 'INBOX', 7, 41);
INSERT INTO messages VALUES (1, 'orders@mail', 'INBOX', 7, 41, '1@tarn.example', 'hash', 'ann@tarn.example', 'Ann', 'my canoe', 1000, 2000, 'answered', 'letter 1-1', 1, 1, '', 1000);
INSERT INTO jobs VALUES ('orders@mail', 1, 'ann@tarn.example', 'Ann', 'Heron', 'en', 'waiting-us', '', 0, '', 'my canoe', '1@tarn.example', '', 1, '{}', 'C1', '1.0', 1000, 2000);
INSERT INTO surveys VALUES ('orders@mail', 1, 1, 'message 1', '{}', '[]', 'clean', 1000);
INSERT INTO drafts VALUES ('orders@mail', 1, 1, 'd1@pinfold.example', 'ann@tarn.example', '1@tarn.example', 'open', 0, '', 'Dear Ann', X'00', '', X'', 1000, 0, '');
INSERT INTO decisions VALUES (1, 'orders@mail', 1, 1, 'hold', 'Ben', 'later', 1000, 0, '');
INSERT INTO intents VALUES (1, 'orders@mail', 1, 1, 'file-draft', '', 'planned', 0, 0, '', 1000, 0);
`

// A ledger of every earlier schema is brought up to date: it ends as a new one
// begins, and what stood in it still stands.
func TestEveryEarlierSchema(t *testing.T) {
	files, err := fs.Glob(migrations, "migrations/*.sql")
	if err != nil || len(files) < 2 {
		t.Fatalf("%d schemas, %v", len(files), err)
	}
	fresh := filepath.Join(t.TempDir(), "fresh.db")
	openAndClose(t, fresh)
	want := schemaOf(t, fresh)
	for version := 1; version <= len(files); version++ {
		t.Run(fmt.Sprintf("version %d", version), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "old.db")
			makeOld(t, path, files, version)
			openAndClose(t, path)
			if got := schemaOf(t, path); !slices.Equal(got, want) {
				t.Errorf("schema\n%q\nwant\n%q", got, want)
			}
			l, err := Open(t.Context(), path, time.Now)
			if err != nil {
				t.Fatal(err)
			}
			defer l.Close() //nolint:errcheck // only read
			err = l.View(t.Context(), func(tx *Tx) error {
				job, err := tx.Job("orders@mail", 1)
				if err != nil || job.Boat != "Heron" || job.State != WaitingUs {
					return fmt.Errorf("job %+v: %w", job, err)
				}
				draft, err := tx.Draft("orders@mail", reply.DraftID{Job: 1, Version: 1})
				if err != nil || draft.Letter != "Dear Ann" || draft.State != DraftOpen {
					return fmt.Errorf("draft %+v: %w", draft, err)
				}
				waiting, err := tx.Decisions("orders@mail")
				if err != nil || len(waiting) != 1 || waiting[0].Words != "later" {
					return fmt.Errorf("decisions %+v: %w", waiting, err)
				}
				cursor, err := tx.Cursor("orders@mail", "INBOX")
				if err != nil || cursor.LastUID != 41 {
					return fmt.Errorf("cursor %+v: %w", cursor, err)
				}
				_, err = tx.Survey("orders@mail", 1)
				return err
			})
			if err != nil {
				t.Error(err)
			}
		})
	}
}

// makeOld makes a ledger as a program of that schema left it.
func makeOld(t *testing.T, path string, files []string, version int) {
	t.Helper()
	db, err := sql.Open("sqlite", dsn(path, ""))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close() //nolint:errcheck // the next open tells
	for n, name := range files[:version] {
		text, err := migrations.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := step(t.Context(), db, n, string(text)); err != nil {
			t.Fatal(err)
		}
		if n == 0 {
			if _, err := db.Exec(firstRecords); err != nil {
				t.Fatal(err)
			}
		}
	}
}

func openAndClose(t *testing.T, path string) {
	t.Helper()
	l, err := Open(t.Context(), path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if err := l.Close(); err != nil {
		t.Fatal(err)
	}
}

// schemaOf lists what SQLite says of each table and index, in order.
func schemaOf(t *testing.T, path string) []string {
	t.Helper()
	db, err := sql.Open("sqlite", dsn(path, ""))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close() //nolint:errcheck // only read
	rows, err := db.Query(`SELECT coalesce(sql, name) FROM sqlite_master ORDER BY type, name`)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close() //nolint:errcheck // only read
	var list []string
	for rows.Next() {
		var text string
		if err := rows.Scan(&text); err != nil {
			t.Fatal(err)
		}
		list = append(list, text)
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return list
}
