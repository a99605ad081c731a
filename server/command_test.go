package main

import (
	"regexp"
	"strings"
	"testing"
)

func TestEveryCommandHasHelp(t *testing.T) {
	overview, _, code := tell(t, "", "help")
	if code != done {
		t.Errorf("help: exit %d", code)
	}
	for _, c := range commands() {
		if !strings.Contains(overview, c.name) || !strings.Contains(overview, c.summary) {
			t.Errorf("the overview lacks %s", c.name)
		}
		for _, args := range [][]string{{c.name, "--help"}, {c.name, "-h"}, {"help", c.name}} {
			out, err, code := tell(t, "", args...)
			if code != done || err != "" || !strings.HasPrefix(out, "usage: wirewake "+c.name) {
				t.Errorf("%v: exit %d, %q, %q", args, code, out, err)
			}
		}
	}
}

func TestHelpNamesEveryFlagThereIs(t *testing.T) {
	flag := regexp.MustCompile(`--[a-z]+`)
	for name, want := range map[string]string{
		"serve":   "--acme --address --cert --data --domain --home --instruments --keel --key --listen --name --transducer --verbose",
		"invite":  "--address --data --end --hours --list --role --trip --uses",
		"welcome": "--data --role --trip",
		"placard": "--address --boat --data --hidden --language --password --ssid",
		"backup":  "--data",
		"restore": "--data",
		"check":   "--data",
		"calc":    "--example",

		"instruments": "--keel --lines --transducer",
		"healthz":     "--listen",
		"version":     "",
	} {
		c, _ := find(name)
		for _, f := range strings.Fields(want) {
			if !strings.Contains(c.help, "\n  "+f+" ") {
				t.Errorf("the help of %s does not explain %s", name, f)
			}
		}
		for _, f := range flag.FindAllString(c.help, -1) {
			if !strings.Contains(want+" --help", f) {
				t.Errorf("the help of %s speaks of %s, which there is not", name, f)
			}
		}
	}
}

func TestWhatIsNotUnderstood(t *testing.T) {
	for _, c := range []struct {
		args string
		says string
	}{
		{"", "usage: wirewake COMMAND"},
		{"sail", `no command "sail"`},
		{"help sail", `no command "sail"`},
		{"version now", `"now"`},
		{"serve now", `"now"`},
		{"serve --depth 3", "there is no flag --depth\nSee wirewake serve --help"},
		{"serve --listen", "--listen lacks its value: type it after the flag\n"},
		{"serve --listen 8610", `:PORT, such as :8610, not "8610"`},
		{"serve --data=", "--data"},
		{"serve --cert a.pem", "--cert needs --key"},
		{"serve --key a.pem", "--key needs --cert"},
		{"serve --name My-boat", "small letters"},
		{"serve --instruments tcp://mast", "--instruments must be tcp://HOST:PORT"},
		{"serve --instruments serial:/dev/x@fast", "such as 4800"},
		{"serve --transducer deep", "--transducer must be how many metres"},
		{"serve --keel 40", "--keel must be how many metres"},
		{"instruments", "needs a source"},
		{"instruments mast", "a source must be"},
		{"instruments --keel -1 nearby", "--keel must be how many metres"},
		{"serve --domain boat", "such as boat.example"},
		{"serve --domain 192.0.2.7", "such as boat.example"},
		{"serve --domain boat.example --cert a.pem --key b.pem", "choose"},
		{"serve --domain boat.example --acme boat.example", "ACME directory"},
		{"serve --acme https://boat.example", "--acme needs --domain"},
		{"serve --home boat.example", "--home must be the link"},
		{"serve --home http://boat.example", "https"},
		{"serve --home https://boat.example/#leave=x", "--home must be the link"},
		{"serve --address boat.example", "such as https://boat.example:8610"},
		{"serve --address http://127.0.0.1:8610", "phones can reach"},
		{"serve --verbose=perhaps", `--verbose takes no value, such as "perhaps"`},
		{"invite", "--role skipper, mate or guest"},
		{"invite --role captain", `not "captain"`},
		{"invite --role guest", "say which trip the guest sees: --trip TRIP"},
		{"invite --role mate --trip x", "Only a guest"},
		{"invite --role mate --hours 0", "1 to 720"},
		{"invite --role mate --uses 33", "1 to 32"},
		{"invite --role mate --hours soon", `--hours must be a whole number, not "soon"`},
		{"invite --role mate --address boat.example", "such as https://boat.example:8610"},
		{"invite --role mate --data=", "--data"},
		{"invite me --role mate", `"me"`},
		{"welcome limoda", "--role skipper, mate or guest"},
		{"welcome limoda --role king", `--role must be skipper, mate or guest, not "king"`},
		{"welcome limoda --role guest", "say which trip the guest sees: --trip TRIP"},
		{"welcome --role mate", "the word that it shows"},
		{"welcome limoda dofani --role mate", "one word"},
		{"welcome --data=", "--data"},
		{"placard", "--ssid NAME"},
		{"placard --ssid boat --password 1234", "8 to 63"},
		{"placard --ssid boat --address boat.example", "such as https://boat.example:8610"},
		{"placard --ssid boat --data=", "--data"},
		{"placard --ssid boat --language fr", "one or two of en, es"},
		{"placard --ssid boat --language en,en", "one or two of en, es"},
		{"placard boat --ssid boat", `"boat"`},
		{"backup", "name of one file"},
		{"backup a b", "name of one file"},
		{"restore", "name of one file"},
		{"restore a --data=", "--data"},
		{"calc tow -=", `"-=" is no flag`},
		{"check now", `"now"`},
		{"check --data=", "--data"},
		{"healthz --listen 8610", ":PORT"},
		{"healthz now", `"now"`},
		{"calc --example", "name of a calculation"},
		{"calc tow spread", `"spread"`},
		{"calc tow --sample", "there is no flag --sample"},
		{"calc soup", `no calculation "soup"`},
		{"calc soup --example", `no calculation "soup"`},
	} {
		out, err, code := tell(t, "{}", strings.Fields(c.args)...)
		if code != misuse || out != "" || !strings.Contains(err, c.says) {
			t.Errorf("wirewake %s: exit %d, out %q, err %q; want exit %d and %q", c.args, code, out, err, misuse, c.says)
		}
	}
}

func TestVersion(t *testing.T) {
	for _, args := range []string{"version", "--version"} {
		out, _, code := tell(t, "", args)
		if code != done || !regexp.MustCompile(`^wirewake \S+,( commit \S+,)? go\S+ \w+/\w+\n$`).MatchString(out) {
			t.Errorf("%s: exit %d, %q", args, code, out)
		}
	}
}
