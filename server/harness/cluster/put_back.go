//go:build unix

package cluster

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"github.com/jackc/pgx/v5"
)

// run runs one of PostgreSQL's programs.
func (c *Cluster) run(name string, args ...string) error {
	if said, err := c.command(name, args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%s: %w\n%s", name, err, said)
	}
	return nil
}

// base copies the cluster as it runs into a directory.
func (c *Cluster) base(dir string, more ...string) error {
	return c.run("pg_basebackup", append([]string{"--pgdata", dir, "--host", c.dir, "--username", "postgres", "--wal-method", "stream", "--checkpoint", "fast", "--no-sync"}, more...)...)
}

// ask reads one value, as PostgreSQL's own user.
func (c *Cluster) ask(question string, into any) error {
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, c.URL("postgres", "postgres"))
	if err != nil {
		return err
	}
	defer conn.Close(ctx)
	return conn.QueryRow(ctx, question).Scan(into)
}

// until asks until it is so.
func (c *Cluster) until(question string) error {
	for so := false; !so; time.Sleep(5 * time.Millisecond) {
		if err := c.ask(question, &so); err != nil {
			return err
		}
	}
	return nil
}

// moment is the name of the one to which a copy is put back.
const moment = "noon"

// Archive has the write-ahead log kept from now on, and makes a base backup. Then mark names a moment, and putBack puts the cluster back
// to it, as https://www.postgresql.org/docs/15/continuous-archiving.html#BACKUP-PITR-RECOVERY says.
func (c *Cluster) Archive() (mark, putBack func() error, err error) {
	wal, base := filepath.Join(c.dir, "wal"), filepath.Join(c.dir, "base")
	if err := errors.Join(os.Mkdir(wal, 0o700), c.own(wal)); err != nil {
		return nil, nil, err
	}
	c.Stop()
	c.settings = append(c.settings, "archive_mode=on", "archive_command=cp %p "+wal+"/%f")
	if err := errors.Join(c.Start(), c.base(base)); err != nil {
		return nil, nil, err
	}
	mark = func() error { return c.Do("postgres", "postgres", `SELECT pg_create_restore_point('`+moment+`')`) }
	return mark, func() error {
		var file string
		err := errors.Join(c.ask(`SELECT pg_walfile_name(pg_switch_wal())`, &file),
			c.until(`SELECT coalesce(last_archived_wal >= '`+file+`', false) FROM pg_stat_archiver`))
		if err != nil {
			return err
		}
		c.Kill()
		signal := filepath.Join(c.data(), "recovery.signal")
		if err := errors.Join(os.RemoveAll(c.data()), os.Rename(base, c.data()), os.WriteFile(signal, nil, 0o600), c.own(signal)); err != nil {
			return err
		}
		c.settings = append(c.settings, "restore_command=cp "+wal+"/%f %p", "recovery_target_name="+moment, "recovery_target_action=promote")
		return errors.Join(c.Start(), c.until(`SELECT NOT pg_is_in_recovery()`))
	}, nil
}

// Snapshot copies what is on its disk, as a snapshot of the volume does: putBack puts that in the place of what is there by then,
// behind PostgreSQL's back.
func (c *Cluster) Snapshot() (putBack func() error, err error) {
	c.Kill()
	copied := filepath.Join(c.dir, "copy")
	if err := exec.Command("cp", "-a", c.data(), copied).Run(); err != nil {
		return nil, err
	}
	return func() error {
		c.Kill()
		return errors.Join(os.RemoveAll(c.data()), os.Rename(copied, c.data()), c.Start())
	}, c.Start()
}
