package source

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"maps"
	"net"
	"net/netip"
	"os"
	"time"
)

// Pauses of keeping a source. A connection without a word for Silence is let go, and what broke off is begun anew after
// First, then twice as long each time, up to Longest. What broke off in a way that was told of less than Again ago, and was heard for
// less than Steady, is not told of.
type Pauses struct{ Dial, Silence, First, Longest, Steady, Again time.Duration }

// Usual are the pauses on a boat: who steps on a plug has the depth back a few seconds after.
var Usual = Pauses{
	Dial: 5 * time.Second, Silence: 30 * time.Second, First: time.Second, Longest: 15 * time.Second,
	Steady: time.Minute, Again: time.Hour,
}

// Keeper keeps sources going.
type Keeper struct {
	Log    *slog.Logger
	Pauses Pauses
	// Hear takes a line; it must not wait. Tell is told when a source begins to be listened to, and why it is not.
	Hear func(source, line string)
	Tell func(source string, on bool)
}

// Keep listens to a source until ctx is done. What fails is logged when it is another failure than of late: one that speaks, breaks
// off and comes back all the time, in one way or in several by turns, does not fill the log.
func (k *Keeper) Keep(ctx context.Context, s Source) {
	name, said, told, pause := s.String(), "", false, k.Pauses.First
	at := map[string]time.Time{} // when each failure was logged last
	listening := func() {
		if !told {
			told = true
			k.Log.Info("listening to instruments", "source", name)
		}
	}
	for ctx.Err() == nil {
		var since time.Time
		err := k.listen(ctx, s, func() {
			k.Tell(name, true)
			if said == "" {
				listening()
			}
		}, func(line string) {
			if since.IsZero() {
				since = time.Now()
				// One that is reached and says nothing is no better than before.
				listening()
			}
			k.Hear(name, line)
		})
		k.Tell(name, false)
		if ctx.Err() != nil {
			return
		}
		heard := !since.IsZero()
		if heard {
			pause = k.Pauses.First
		}
		steady := heard && time.Since(since) >= k.Pauses.Steady
		maps.DeleteFunc(at, func(_ string, t time.Time) bool { return time.Since(t) >= k.Pauses.Again })
		text := failure(err)
		if _, late := at[text]; told && steady || !late && (told || text != said) {
			said, told, at[text] = text, false, time.Now()
			k.Log.Warn("instruments are not heard; it is tried again and again", "source", name, "error", err)
		}
		if !rest(ctx, pause) {
			return
		}
		pause = min(2*pause, k.Pauses.Longest)
	}
}

// failure is what failed, without the port of this end, which is another each time.
func failure(err error) string {
	var op *net.OpError
	if errors.As(err, &op) {
		return fmt.Sprintf("%s: %v", op.Op, op.Err)
	}
	return fmt.Sprint(err)
}

func rest(ctx context.Context, pause time.Duration) bool {
	timer := time.NewTimer(pause)
	defer timer.Stop()
	select {
	case <-ctx.Done():
		return false
	case <-timer.C:
		return true
	}
}

// listen listens once, until it breaks off.
func (k *Keeper) listen(ctx context.Context, s Source, begun func(), hear func(string)) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	switch s.Scheme {
	case TCP:
		conn, err := (&net.Dialer{Timeout: k.Pauses.Dial}).DialContext(ctx, "tcp", s.Address)
		if err != nil {
			return err
		}
		defer closing(ctx, conn)()
		begun()
		return lines(&patient{conn, k.Pauses.Silence}, hear)
	case UDP:
		return k.datagrams(ctx, s.Address, begun, hear)
	case Serial:
		port, err := openSerial(s.Address, s.Baud)
		if err != nil {
			return err
		}
		defer closing(ctx, port)()
		begun()
		return lines(port, hear)
	case File:
		file, err := os.Open(s.Address)
		if err != nil {
			return err
		}
		defer file.Close()
		begun()
		return replay(ctx, file, hear)
	}
	return fmt.Errorf("nothing is known of %v", s)
}

// closing closes a connection when ctx is done; what it returns waits for that.
func closing(ctx context.Context, c io.Closer) (wait func()) {
	ctx, cancel := context.WithCancel(ctx)
	done := make(chan struct{})
	go func() {
		<-ctx.Done()
		c.Close()
		close(done)
	}()
	return func() { cancel(); <-done }
}

// patient is a connection that fails when nothing comes for so long: a cable that was cut says nothing.
type patient struct {
	net.Conn
	silence time.Duration
}

func (p *patient) Read(b []byte) (int, error) {
	if err := p.SetReadDeadline(time.Now().Add(p.silence)); err != nil {
		return 0, err
	}
	return p.Conn.Read(b)
}

// datagrams hears what comes to a port, of one sender where the address names one.
func (k *Keeper) datagrams(ctx context.Context, address string, begun func(), hear func(string)) error {
	host, port, err := net.SplitHostPort(address)
	if err != nil {
		return err
	}
	var from netip.Addr
	if host != "" {
		if from, err = netip.ParseAddr(host); err != nil {
			return err
		}
	}
	conn, err := (&net.ListenConfig{}).ListenPacket(ctx, "udp", ":"+port)
	if err != nil {
		return err
	}
	defer closing(ctx, conn)()
	begun()
	content := make([]byte, 2048)
	for {
		n, sender, err := conn.ReadFrom(content)
		if err != nil {
			return err
		}
		if from.IsValid() && sender.(*net.UDPAddr).AddrPort().Addr().Unmap() != from.Unmap() {
			continue
		}
		// A datagram is whole: its last line needs no end.
		if err := lines(io.MultiReader(bytesOf(content[:n]), bytesOf([]byte{'\n'})), hear); !errors.Is(err, io.EOF) {
			return err
		}
	}
}
