// Package fuzz helps the fuzz tests of the calculations: it turns bytes into requests within their ranges, so that a
// fuzzer gets past the checks, and walks the numbers of an answer.
package fuzz

import (
	"encoding/binary"
	"math"
	"reflect"
	"testing"
)

// Dice throws values made of bytes; when these run out, zeros and lower ends.
type Dice struct{ Raw []byte }

// Byte is the next byte.
func (d *Dice) Byte() byte {
	if len(d.Raw) == 0 {
		return 0
	}
	b := d.Raw[0]
	d.Raw = d.Raw[1:]
	return b
}

// share is from 0 to 1, often an end or a coarse step, so that values meet.
func (d *Dice) share() float64 {
	a, b := d.Byte(), d.Byte()
	if a%4 == 0 {
		return float64(b%9) / 8
	}
	return float64(binary.BigEndian.Uint16([]byte{a, b})) / math.MaxUint16
}

// In is a value from lo to hi.
func (d *Dice) In(lo, hi float64) float64 { return lo + (hi-lo)*d.share() }

// Scale is a value from lo to hi, both above 0, each power of ten as likely as the next.
func (d *Dice) Scale(lo, hi float64) float64 {
	return math.Min(lo*math.Pow(hi/lo, d.share()), hi)
}

// Finite fails the test if some number of an answer is none.
func Finite(t *testing.T, answer any) {
	t.Helper()
	finite(t, reflect.ValueOf(answer), "answer")
}

func finite(t *testing.T, v reflect.Value, path string) {
	t.Helper()
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			t.Fatalf("%s is %v", path, f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i), path+"."+v.Type().Field(i).Name)
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, v.Index(i), path+"[]")
		}
	case reflect.Pointer:
		if !v.IsNil() {
			finite(t, v.Elem(), path)
		}
	}
}
