package web

import (
	"wirewake/embed"
	"wirewake/server/answer/content"
)

// negotiate picks the form that the client likes best, by its Accept-Encoding header fields; of those it
// likes the same, the first, which is the smallest. ok is false when the client rules out every form.
func negotiate(fields []string, forms []embed.Form) (best embed.Form, ok bool) {
	weights := content.Accepted(fields)
	most := 0
	for _, form := range forms {
		if w := weights.Of(form.Coding); w > most {
			best, most = form, w
		}
	}
	return best, most > 0
}
