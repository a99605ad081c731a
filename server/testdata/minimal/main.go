// Command minimal is the least server that keeps what phones note: net/http and one statement of SQLite, the same rows with
// the same indexes, all that wait in one transaction, on the disk before it is answered. It knows nobody, asks nothing and
// gives nothing out. What the figures of the real one are held against. Usage: minimal DIR --listen ADDR
package main

import (
	"database/sql"
	"encoding/json"
	"log"
	"net/http"
	"os"
	"path/filepath"

	"github.com/google/uuid"
	_ "github.com/mattn/go-sqlite3"
)

const tables = `
CREATE TABLE entry (
	no INTEGER PRIMARY KEY, id BLOB NOT NULL UNIQUE, record BLOB NOT NULL, kind TEXT NOT NULL, trip BLOB NOT NULL, prev BLOB NOT NULL,
	fields TEXT, at INTEGER NOT NULL, n INTEGER NOT NULL, by BLOB NOT NULL, by_name TEXT NOT NULL, via BLOB, via_name TEXT,
	chain BLOB NOT NULL, taken INTEGER NOT NULL, seal BLOB, mark BLOB
) STRICT;
CREATE INDEX entry_record ON entry (record);
CREATE INDEX entry_trip ON entry (trip, no);
CREATE INDEX entry_by ON entry (by, n);`

const insertion = `INSERT INTO entry (id, record, kind, trip, prev, fields, at, n, by, by_name, chain, taken, seal)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, 'phone', ?, ?, ?)`

type entry struct {
	ID, Record, Trip uuid.UUID
	Kind             string
	Set              json.RawMessage
	At, N            int64
}

type row struct {
	entry
	no   int64
	done chan error
}

func main() {
	db, err := sql.Open("sqlite3", "file:"+filepath.Join(os.Args[1], "minimal.db")+"?_journal_mode=WAL&_synchronous=FULL&_txlock=immediate&_cache_size=-1000")
	if err != nil {
		log.Fatal(err)
	}
	if _, err := db.Exec(tables); err != nil {
		log.Fatal(err)
	}
	insert, err := db.Prepare(insertion)
	if err != nil {
		log.Fatal(err)
	}
	rows := make(chan *row, 256)
	go func() {
		for first := range rows {
			write(db, insert, append(waiting(rows), first))
		}
	}()
	http.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) {})
	http.HandleFunc("POST /api/exchange", func(w http.ResponseWriter, r *http.Request) {
		var request struct{ Entries []entry }
		if err := json.NewDecoder(r.Body).Decode(&request); err != nil || len(request.Entries) != 1 {
			http.Error(w, "one entry", http.StatusBadRequest)
			return
		}
		one := &row{entry: request.Entries[0], done: make(chan error, 1)}
		rows <- one
		if err := <-one.done; err != nil {
			http.Error(w, err.Error(), http.StatusInternalServerError)
			return
		}
		w.Header().Set("Content-Type", "application/json")
		_ = json.NewEncoder(w).Encode(map[string]any{"taken": []map[string]any{{"id": one.ID, "no": one.no}}})
	})
	log.Fatal(http.ListenAndServe(os.Args[3], nil))
}

func waiting(rows chan *row) (all []*row) {
	for {
		select {
		case next := <-rows:
			all = append(all, next)
		default:
			return all
		}
	}
}

func write(db *sql.DB, insert *sql.Stmt, all []*row) {
	tx, err := db.Begin()
	if err == nil {
		in := tx.Stmt(insert)
		for _, one := range all {
			var result sql.Result
			if result, err = in.Exec(one.ID[:], one.Record[:], one.Kind, one.Trip[:], []byte{}, string(one.Set), one.At, one.N, one.Trip[:],
				make([]byte, 32), one.At, make([]byte, 48)); err != nil {
				break
			}
			one.no, _ = result.LastInsertId()
		}
		if err == nil {
			err = tx.Commit()
		} else {
			_ = tx.Rollback()
		}
	}
	for _, one := range all {
		one.done <- err
	}
}
