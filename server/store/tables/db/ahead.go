package db

// Question is a statement that reads, with its arguments.
type Question struct {
	Query string
	Args  []any
}

// foresees is a connection for which each question is a way there and back: many are asked at once.
type foresees interface {
	// Ahead asks at once what will be read in the transaction: whatever is read by the same statement and arguments is answered by
	// that, the first time.
	Ahead(all []Question) error
	// Forget lets go of what was answered and not read yet.
	Forget()
}

// Foresees says that it is worth while to ask ahead.
func (t *Tx) Foresees() bool { return t.ahead }

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
