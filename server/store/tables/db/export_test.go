package db

// Waits is how many changes wait for the writer.
func (d *DB) Waits() int { return len(d.writer.changes) }
