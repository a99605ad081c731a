// Older makes all requests to come aboard that a server keeps older, as if so much time had gone by: for the tests of the
// program itself, whose clock is the machine's.
package main

import (
	"database/sql"
	"log"
	"os"
	"path/filepath"
	"time"

	"wirewake/server/store/sqlite/folder"
)

func main() {
	if len(os.Args) != 3 {
		log.Fatal("usage: older DIR DURATION")
	}
	by, err := time.ParseDuration(os.Args[2])
	if err != nil {
		log.Fatal(err)
	}
	db, err := sql.Open("sqlite3", "file:"+filepath.Join(os.Args[1], folder.FileName)+"?_busy_timeout=5000")
	if err != nil {
		log.Fatal(err)
	}
	defer db.Close()
	done, err := db.Exec(`UPDATE ask SET asked = asked - ?1, ends = ends - ?1`, by.Milliseconds())
	if err != nil {
		log.Fatal(err)
	}
	if n, _ := done.RowsAffected(); n == 0 {
		log.Fatal("nobody asks")
	}
}
