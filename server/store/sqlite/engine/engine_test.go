package engine

import "testing"

func TestACommitIsOnTheDiskBeforeItIsReported(t *testing.T) {
	f, err := Open(t.Context(), t.TempDir(), Large)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	// The values SQLite gives for these settings: https://www.sqlite.org/pragma.html
	for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2"} {
		var got string
		if err := f.writer.conn.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&got); err != nil || got != want {
			t.Errorf("%s = %q, %v; want %q", pragma, got, err, want)
		}
	}
}
