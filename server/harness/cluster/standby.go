//go:build unix

package cluster

import (
	"errors"
	"fmt"
	"os"

	"wirewake/server/harness/memory"
)

// Standby makes and starts one that follows: from then on what this one says is kept is there, too
// (https://www.postgresql.org/docs/15/warm-standby.html#SYNCHRONOUS-REPLICATION).
func (c *Cluster) Standby() (*Cluster, error) {
	dir, err := memory.Make("wwpg")
	if err != nil {
		return nil, err
	}
	s := &Cluster{dir: dir, bin: c.bin, as: c.as}
	if err := errors.Join(s.own(dir), c.base(s.data(), "--write-recovery-conf"), s.Start()); err != nil {
		s.Remove()
		return nil, err
	}
	err = errors.Join(
		c.Do("postgres", "postgres", `ALTER SYSTEM SET synchronous_standby_names = '*'`, `SELECT pg_reload_conf()`),
		c.until(`SELECT EXISTS (SELECT 1 FROM pg_stat_replication WHERE sync_state = 'sync')`))
	if err != nil {
		s.Remove()
		os.RemoveAll(dir)
		return nil, err
	}
	return s, nil
}

// Promote has a standby take over, whatever has become of the one that it followed.
func (c *Cluster) Promote() error { return c.Do("postgres", "postgres", `SELECT pg_promote()`) }

// Either is where a database is for a user, at whichever of two takes changes.
func (c *Cluster) Either(other *Cluster, user, database string) string {
	return fmt.Sprintf("postgres://%s@/%s?host=%s,%s&port=5432,5432&target_session_attrs=read-write", user, database, c.dir, other.dir)
}
