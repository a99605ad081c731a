package main

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"wirewake/server/store/postgres"
)

// quota says how much a boat may have from now on, where something of that was said, and tells what it is.
func (f *boatFlags) quota(ctx context.Context, io console, h *postgres.Harbour, name string) error {
	if f.most != (postgres.Quota{}) {
		if _, err := h.SetQuota(ctx, name, f.most); err != nil {
			return err
		}
	}
	all, err := h.List(ctx, name)
	if err == nil && len(all) == 0 {
		return none(name)
	}
	for _, b := range all {
		fmt.Fprintf(io.out, "%s: %s\n", name, told(b))
	}
	return err
}

// asUsual is the word for as much as is usual.
const asUsual = "usual"

// checkQuota says what is wrong with the flags of a quota, and reads them. What else is done has none of them.
func (f *boatFlags) checkQuota(words []string) string {
	for _, one := range []struct {
		flag, text string
		into       *int64
		most       int64
		read       func(string) (int64, error)
		form       string
	}{
		{"entries", f.entries, &f.most.Entries, 1 << 40, whole, "a number from 1 on"},
		{"bytes", f.bytes, &f.most.Bytes, 1 << 50, sized, "a size such as 500M or 20G"},
		{"requests", f.requests, &f.most.Requests, 1 << 20, whole, "a number from 1 on"},
	} {
		if one.text == "" {
			continue
		}
		if len(words) == 0 || words[0] != "quota" {
			return fmt.Sprintf("--%s goes with quota: boat quota NAME --%s %s", one.flag, one.flag, one.text)
		}
		if one.text == asUsual {
			*one.into = postgres.AsUsual
			continue
		}
		n, err := one.read(one.text)
		if err != nil || n < 1 || n > one.most {
			return fmt.Sprintf("--%s must be %s, or %s, not %q", one.flag, one.form, asUsual, one.text)
		}
		*one.into = n
	}
	return ""
}

func whole(text string) (int64, error) { return strconv.ParseInt(text, 10, 64) }

// units are those in which bytes are told.
const units = "KMGT"

// sized reads bytes with a unit, such as 20G, which is 20·2³⁰.
func sized(text string) (int64, error) {
	number, times := text, 0
	if text != "" {
		if unit := strings.IndexByte(units, text[len(text)-1]); unit >= 0 {
			number, times = text[:len(text)-1], unit+1
		}
	}
	n, err := whole(number)
	if n<<(10*times)>>(10*times) != n {
		return 0, strconv.ErrRange
	}
	return n << (10 * times), err
}

// size tells bytes in the largest unit of which there are ten: of fewer too much would be left out.
func size(bytes int64) string {
	unit := 0
	for ; bytes >= 10<<10 && unit < len(units); unit++ {
		bytes >>= 10
	}
	return fmt.Sprintf("%d %sB", bytes, strings.TrimSpace((" " + units)[unit:unit+1]))
}

// told is what a boat has of what it may.
func told(b postgres.Boat) string {
	return fmt.Sprintf("%d of %d entries, %s of %s of photos and traces, %d requests a second at each server",
		b.Has.Entries, b.Most.Entries, size(b.Has.Bytes), size(b.Most.Bytes), b.Most.Requests)
}
