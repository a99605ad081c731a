// Package fault names the places where a machine may stop, or its disk fail, between two steps that belong
// together. Nothing happens there unless a test says so.
package fault

import "sync/atomic"

// The places, in the order in which a photo comes by them.
const (
	PhotoBegun    = "photo begun"    // it counts, and nothing of it is there
	PhotoCame     = "photo came"     // a part is written
	PhotoComplete = "photo complete" // all of it is written, and it is not looked at yet
	PhotoProved   = "photo proved"   // its hash is right, and it is in no place of its own
	PhotoPlaced   = "photo placed"   // it is in its place, and the log does not know
	PhotoNoted    = "photo noted"    // the log knows, and the phone does not
)

// BackupWritten is where a backup is written and has not got its name.
const BackupWritten = "backup written"

// Photo are all places on the way of a photo.
var Photo = []string{PhotoBegun, PhotoCame, PhotoComplete, PhotoProved, PhotoPlaced, PhotoNoted}

var decide atomic.Pointer[func(place string) error]

// Decide lets a test say what happens at a place: it may end the process, or give the error that the disk is
// to have said. Nil ends that.
func Decide(what func(place string) error) {
	if what == nil {
		decide.Store(nil)
		return
	}
	decide.Store(&what)
}

// At is a place.
func At(place string) error {
	what := decide.Load()
	if what == nil {
		return nil
	}
	return (*what)(place)
}
