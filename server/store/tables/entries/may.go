package entries

import (
	"encoding/json"
	"slices"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/aboard"
)

// mayBring says why the device may not bring an entry into the log, nil if it may, and where it counts once it is in. begun
// says that the log has something of its record.
func (b *Book) mayBring(n entry.Numbered, size int, begun bool) (on heap, refusal *entry.Refusal, err error) {
	// What is there already asks for no room, nor for leave.
	if begun {
		if there, err := b.isThere(n.ID); err != nil || there {
			return heap{}, nil, err
		}
	}
	on, refusal, err = b.judge(n, size)
	if err != nil || refusal == nil || begun {
		return on, refusal, err
	}
	// Of a record that nobody has begun nothing is there, unless the disk has spoilt what the row says of its record.
	if there, err := b.isThere(n.ID); err != nil || there {
		return heap{}, nil, err
	}
	return on, refusal, nil
}

func (b *Book) isThere(id uuid.UUID) (bool, error) {
	if b.absent[id] {
		return false, nil
	}
	there, err := b.tx.Read(`SELECT 1 FROM entry WHERE id = ?`, []any{id[:]}, new(int))
	b.absent[id] = err == nil && !there
	return there, err
}

// judge is mayBring for an entry that is not there.
func (b *Book) judge(n entry.Numbered, size int) (on heap, refusal *entry.Refusal, err error) {
	writer, err := b.writer(n)
	if right, ok := contract.The.Needs[n.Kind]; err == nil && ok && !writer.May(right) {
		return on, entry.Crews, nil
	}
	if err != nil {
		return on, nil, err
	}
	if refusal, err := b.mayAmend(n, writer); err != nil || refusal != nil {
		return on, refusal, err
	}
	if refusal, err := b.mayPropose(n); err != nil || refusal != nil {
		return on, refusal, err
	}
	// Whoever has more rights than the bringer wrote it for certain: the others' word alone makes nothing theirs.
	on = heap{n.Trip, n.Via != nil && (b.device.Only() == nil || writer.May(contract.Trips))}
	room, err := b.room(on, size)
	if err != nil || !room {
		return on, entry.Enough, err
	}
	return on, nil, nil
}

// mayAmend says why the writer of an entry, with that role, may not say this of its record, nil if it may. What is the
// crew's of a trip is the crew's; a record that somebody else began a guest only proposes to change. What one of the crew
// brings was in a log already, perhaps from before there was this rule: none of it is lost by it.
func (b *Book) mayAmend(n entry.Numbered, writer store.Role) (*entry.Refusal, error) {
	if b.device.Only() == nil {
		return nil, nil
	}
	for field, right := range contract.The.Guarded[n.Kind] {
		if n.Sets(field) && !writer.May(right) {
			return entry.Ends, nil
		}
	}
	if writer.May(contract.Crew) || slices.Contains(contract.The.Anybodys, n.Kind) {
		return nil, nil
	}
	var first Row
	var sound bool
	found, err := readRow(b.tx, &first, &sound, `SELECT `+Columns+` FROM entry WHERE record = ? ORDER BY no LIMIT 1`, n.Record[:])
	if err != nil || !found || !sound || first.By == n.By {
		return nil, err
	}
	// Whoever was shut out, or came aboard anew as another, is the author all the same: what is said of it then is proposed. A phone
	// whose key is new has its berth still; and whom a restored server does not know nobody can ask.
	author, known, err := aboard.AuthorOf(b.tx, first.By)
	if err != nil || !known {
		return nil, err
	}
	if own, same, err := aboard.AuthorOf(b.tx, n.By); err != nil || same && own.Berth == author.Berth {
		return nil, err
	}
	return entry.Others, nil
}

// mayPropose says why a guest may not propose this, nil if it may: whoever takes it writes it in the record that it is of,
// which must be able to hold it. What of it this entry does not tell an earlier one has. Of a record that is not here nobody
// knows the kind.
func (b *Book) mayPropose(n entry.Numbered) (*entry.Refusal, error) {
	if b.device.Only() == nil || n.Kind != "proposal" || n.Strike {
		return nil, nil
	}
	of, ok := n.Of()
	if !ok {
		var told string
		if err := b.toldBefore(n.Record, "of", &told); err != nil {
			return nil, err
		}
		if of, ok = contract.ID(told); !ok {
			return nil, nil
		}
	}
	says := n.Says()
	if says == nil {
		if err := b.toldBefore(n.Record, "says", &says); err != nil || says == nil {
			return nil, err
		}
	}
	var kind string
	if known, err := b.tx.Read(`SELECT kind FROM entry WHERE record = ? LIMIT 1`, []any{of[:]}, &kind); err != nil || !known {
		return nil, err
	}
	return entry.Unfit(kind, says), nil
}

// toldBefore reads what a field of a record was last set to; nothing if it was not, or to null.
func (b *Book) toldBefore(record uuid.UUID, field string, into any) error {
	statement, err := b.tx.Statement(`SELECT fields FROM entry WHERE record = ? AND fields IS NOT NULL ORDER BY no DESC`)
	if err != nil {
		return err
	}
	rows, err := statement.Query(record[:])
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var text []byte
		if err := rows.Scan(&text); err != nil {
			return err
		}
		var said map[string]json.RawMessage
		if json.Unmarshal(text, &said) != nil {
			continue // the disk has spoilt it
		}
		if value, ok := said[field]; ok {
			// What is of another type is none.
			_ = json.Unmarshal(value, into)
			return nil
		}
	}
	return rows.Err()
}

// writer is the role with which an entry counts: that of the phone whose mark it bears, if that phone is aboard here,
// else that of the phone that brings it. The mark of a phone that was shut out counts for nothing: it may have signed
// whatever it liked.
func (b *Book) writer(n entry.Numbered) (role store.Role, err error) {
	if n.By == b.device.ID {
		return b.device.Role, nil
	}
	role, known, err := aboard.RoleNow(b.tx, n.By, b.now)
	if err != nil || !known {
		return b.device.Role, err
	}
	return role, nil
}
