package entry

import "strconv"

// JSON is the entry as the server gives it out: what encoding/json makes of it, its fields in another order. A phone that is
// new aboard is given the whole log so: content is the entry's, which whoever has looked at its seal has, and is used up.
func (n Numbered) JSON(content []byte) []byte {
	text := strconv.AppendInt(append(content[:len(content)-1], `,"no":`...), n.No, 10)
	text = AppendID(append(text, `,"by":`...), n.By)
	text = AppendString(append(text, `,"byName":`...), n.ByName)
	if n.Via != nil {
		text = AppendID(append(text, `,"via":`...), *n.Via)
	}
	if n.ViaName != "" {
		text = AppendString(append(text, `,"viaName":`...), n.ViaName)
	}
	if n.Mark != nil {
		text = append(append(append(text, `,"mark":"`...), n.Mark.String()...), '"')
	}
	return append(text, '}')
}
