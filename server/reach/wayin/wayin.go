// Package wayin knows the ways in: the addresses at which a phone can load the app from this
// computer, which of them is best, and which used to work and no longer do.
package wayin

import "time"

// Reach says from where an address works.
type Reach string

const (
	// ByName: under a name that was given, or that the certificate is for.
	ByName Reach = "name"
	// ByNetwork: for whoever is on a network that this computer is on.
	ByNetwork Reach = "network"
	// ByComputer: on this computer only; no phone can use it.
	ByComputer Reach = "computer"
)

// Way is one address of the app.
type Way struct {
	// URL is the origin: scheme, host and port, no slash at the end.
	URL   string `json:"url"`
	Reach Reach  `json:"reach"`
	// Secure says that a browser at this address has a secure context: it can keep the app for use
	// without signal.
	Secure bool `json:"secure"`
	// Enter is where a phone that was never here goes first: the page where it asks to come aboard, or plain http,
	// where it gets the certificate of the boat's authority and is led on to that.
	Enter string `json:"enter"`
}

// Earlier is an address the app was served under and is no longer: phones that loaded it from there
// keep what was entered on them there.
type Earlier struct {
	URL        string    `json:"url"`
	LastServed time.Time `json:"lastServed"`
	// Keep says how to have the address back, Flags with which flags of serve.
	Keep  string            `json:"keep"`
	Flags map[string]string `json:"-"`
}

// Report is all there is to say about getting in, at one moment.
type Report struct {
	Best    Way       `json:"best"`
	Others  []Way     `json:"others"`
	Earlier []Earlier `json:"earlier"`
	// Notes are whole sentences about what will not work and what to do.
	Notes []string `json:"notes"`
}
