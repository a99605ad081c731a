package entry

import "strconv"

// AppendJSON appends the entry as the server gives it out: what encoding/json makes of it, its fields in another order. A
// phone that is new aboard is given the whole log so. content is the entry's, which whoever has looked at its seal has.
func (n Numbered) AppendJSON(to, content []byte) []byte {
	to = strconv.AppendInt(append(to, `{"no":`...), n.No, 10)
	to = appendID(append(to, `,"by":`...), n.By)
	to = appendString(append(to, `,"byName":`...), n.ByName)
	if n.Via != nil {
		to = appendID(append(to, `,"via":`...), *n.Via)
	}
	if n.ViaName != "" {
		to = appendString(append(to, `,"viaName":`...), n.ViaName)
	}
	if n.Mark != nil {
		to = append(append(append(to, `,"mark":"`...), n.Mark.String()...), '"')
	}
	return append(append(to, ','), content[1:]...)
}
