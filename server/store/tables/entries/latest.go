package entries

import (
	"database/sql"
	"fmt"

	"wirewake/server/store"
	"wirewake/server/store/tables/trips"
)

// Latest is the epoch of a device, and the highest number of what it may see.
func (s *Log) Latest(d store.Device) (epoch string, no int64, err error) {
	err = s.db.Snapshot(func(tx *sql.Tx) error {
		if err := tx.QueryRow(`SELECT epoch, last, turn FROM log, device WHERE device.id = ?`, d.ID[:]).Scan(&epoch, &no, &d.Turn); err != nil {
			return err
		}
		epoch = d.Epoch(epoch)
		if d.Only() == nil {
			return nil
		}
		return tx.QueryRow(fmt.Sprintf(`SELECT coalesce(max(no), 0) FROM entry WHERE trip IN (%s)`, trips.Listed("?1")), trips.List(d.Only())).Scan(&no)
	})
	return epoch, no, err
}
