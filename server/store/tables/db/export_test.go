package db

// Waits is how many changes wait for the writer.
func (d *DB) Waits() int { return len(d.writer.changes) }

// Closes says that nothing more is read behind what comes next.
func (d *DB) Closes() bool {
	if !d.behind.TryRLock() {
		return true
	}
	d.behind.RUnlock()
	return false
}
