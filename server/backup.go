package main

import (
	"context"
	"fmt"
	"time"

	"wirewake/server/backup"
	"wirewake/server/terminal"
	"wirewake/server/trust/authority"
)

const backupHelp = `usage: wirewake backup FILE [--data DIR]

Puts the log, the list of phones, the photos and what the instruments said on trips in one new file, a tar
archive, while the server may go on running. The file is on the disk when the command ends well; otherwise there is none. What a backup leaves
that is killed, the next one to the same directory clears away. Whoever has the file can read all of the log.
Keys are not in it: for another computer copy the folder authority of the data directory too, or every phone
has to install a new certificate. A box comes aboard at home again by a new link.

` + dataHelp

func backUp(ctx context.Context, io console, args []string) int {
	dir, file, code, ok := readFile(io, "backup", args)
	if !ok {
		return code
	}
	c, err := backup.Write(ctx, dir, file)
	if err != nil {
		fmt.Fprintf(io.err, "wirewake backup: %v\n", err)
		return failed
	}
	fmt.Fprintf(io.out, "%s holds %s and %s.\n", file, count(c.Entries, "entry", "entries"), count(int64(c.Photos), "photo", "photos"))
	if c.Traces > 0 {
		fmt.Fprintf(io.out, "In it, too: %s of the instruments.\n", count(int64(c.Traces), "trace", "traces"))
	}
	if c.Missing > 0 {
		fmt.Fprintf(io.out, "Not in it: %s that the log names and the disk lacks; %s names them.\n",
			count(int64(c.Missing), "photo", "photos"), sameData("wirewake check", dir))
	}
	return done
}

func count(n int64, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

const restoreHelp = `usage: wirewake restore FILE [--data DIR]

Puts a backup in the place of what the server keeps. Stop the server first. A backup that is not good
changes nothing. The database that was there stays beside the new one under another name, and photos and
traces that were there stay. Phones then bring by themselves what they have and the backup has not. The boat's authority
is in no backup: on another computer put the former folder authority into the data directory, too. What root
puts back belongs to whom the data directory belongs to.

` + dataHelp

func restore(ctx context.Context, io console, args []string) int {
	dir, file, code, ok := readFile(io, "restore", args)
	if !ok {
		return code
	}
	r, err := backup.Restore(ctx, dir, file, time.Now())
	if err != nil {
		fmt.Fprintf(io.err, "wirewake restore: %v\n", err)
		return failed
	}
	fmt.Fprintf(io.out, "%s now has the %s and %s of %s.\n", dir, count(r.Entries, "entry", "entries"), count(int64(r.Photos), "photo", "photos"), file)
	if r.Traces > 0 {
		fmt.Fprintf(io.out, "And %s of the instruments.\n", count(int64(r.Traces), "trace", "traces"))
	}
	if r.Aside != "" {
		fmt.Fprintf(io.out, "What was there before is now %s.\n", r.Aside)
	}
	if r.Missing > 0 {
		fmt.Fprintf(io.out, "Phones will be asked for %s.\n", count(int64(r.Missing), "photo", "photos"))
	}
	fmt.Fprint(io.out, "\n"+terminal.Wrap("Start the server. Phones that came aboard after the backup was made have to be invited again; "+
		"all phones bring what the backup lacks.\n"))
	if authority.FingerprintIn(dir) == "" {
		fmt.Fprint(io.out, "\n"+terminal.Wrap(fmt.Sprintf("The boat's authority is in no backup, and there is none in %s: unless a public name or a certificate of "+
			"yours vouches for the server, phones must install the new certificate. They need not if you copy the former folder authority/ there, "+
			"before the start.\n", dir)))
	}
	if r.Unsummed {
		fmt.Fprint(io.out, "\n"+terminal.Wrap("This backup does not hold its own SHA-256, as those of older programs do not: its entries and photos were "+
			"verified, and the rest of its file could not be.\n"))
	}
	if r.Readmitted {
		fmt.Fprint(io.out, "\n"+terminal.Wrap("Which phones were sent away after the backup was made could not be read from the damaged database: "+
			"they are aboard again. Look through the list of phones.\n"))
	}
	return done
}
