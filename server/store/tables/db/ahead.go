package db

// Question is a statement that reads, with one argument, a list of bytes. Of is this question's part of that: what several ask is
// asked as one, and each finds its own in the answer ([Tx.Listed]).
type Question struct {
	Query string
	Of    [][]byte
}

// foresees is a connection for which each question is a way there and back: many are asked at once.
type foresees interface {
	// Ahead asks at once what will be read in the transaction: whatever is read by the same statement and list is answered by that,
	// the first time.
	Ahead(all []Question) error
	// Forget lets go of what was answered and not read yet.
	Forget()
}

// Foresees says that it is worth while to ask ahead.
func (t *Tx) Foresees() bool { return t.ahead }

// foresee asks at once all that changes will read from one on that share something; end is the first that does not.
func (t *Tx) foresee(changes []change, from int) (end int, err error) {
	if err := t.settle(); err != nil {
		return from, err
	}
	t.lists = map[string][][]byte{}
	for end = from; end < len(changes) && changes[end].shares; end++ {
		for _, q := range changes[end].ahead() {
			t.lists[q.Query] = append(t.lists[q.Query], q.Of...)
		}
	}
	var all []Question
	for query, list := range t.lists {
		all = append(all, Question{query, list})
	}
	return end, t.conn.Raw(func(c any) error { return c.(foresees).Ahead(all) })
}

// Listed is the list of which something was asked for all changes together; ok is false if nothing was.
func (t *Tx) Listed(query string) (list [][]byte, ok bool) {
	list, ok = t.lists[query]
	return list, ok
}

// Forget has asked anew what was asked ahead: something has changed that it may hang on.
func (t *Tx) Forget() error {
	if !t.ahead {
		return nil
	}
	return t.conn.Raw(func(c any) error { c.(foresees).Forget(); return nil })
}

// bounded is a connection that knows how many entries the log may have.
type bounded interface{ Most() int64 }

// Most is how many entries the log may have; 0 where there is no bound. It is known once anything was read in the transaction.
func (t *Tx) Most() (most int64, err error) {
	if t.ahead {
		err = t.conn.Raw(func(c any) error { most = c.(bounded).Most(); return nil })
	}
	return most, err
}
