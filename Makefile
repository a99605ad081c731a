# Everything that is done with the source. It needs Go, gcc and Node; what else it gets, it says before it does.

SHELL := bash
.SHELLFLAGS := -eu -o pipefail -c
.DELETE_ON_ERROR:
.DEFAULT_GOAL := help

missing := $(strip $(foreach tool,go gcc node npm,$(if $(shell command -v $(tool)),,$(tool))))
ifneq ($(missing),)
$(error Please install first: $(missing))
endif

RELEASE ?= $(shell git describe --tags 2>/dev/null || echo dev)
COMMIT ?= $(shell git rev-parse --short HEAD 2>/dev/null)

# The calculations for the phone, and the Go toolchain's own loader for them.
wasm := webapp/public/calc.wasm
loader := webapp/public/wasm_exec.js
calc := $(shell find calc tools/lean -name '*.go' ! -name '*_test.go')

# The stations of tide and current, a table for each region.
tides := webapp/public/tides/east.bin webapp/public/tides/west.bin

# The webapp and what it is built from.
app := embed/dist/index.html.gz
packages := webapp/node_modules/.package-lock.json
sources := $(shell find webapp/src webapp/public webapp/tools -type f ! -name '*.test.ts' ! -name '*.test.tsx') \
	$(wildcard webapp/*.html webapp/*.ts webapp/*.json)

.PHONY: help
help:
	@echo 'make run     build what changed and serve the app; ARGS="--listen :9000" for flags'
	@echo 'make test    check and test everything, in a real browser too; CI goes on with the two below'
	@echo 'make engines test the app in WebKit and Firefox too'
	@echo 'make image   test that the Dockerfile builds what is built here'
	@echo 'make sheets  pictures of every screen: a sheet of each palette, of forced colours, and of each pose in each language'
	@echo 'make check   format, vet, lint, types, generated code'
	@echo 'make build   bin/wirewake with the app in it'
	@echo 'make bench   the figures'
	@echo 'make mutate  change the source in many small ways, and see each noticed by a test; ONLY="calc/beat" for some'
	@echo 'make harbour bin/wirewake-harbour, which serves many boats; server/harbour/README.md'
	@echo 'make linux   bin/wirewake-linux-... with all it needs inside, for any Linux of this kind of processor'
	@echo 'make release all that is handed on, in bin/release; make release-check builds it twice and compares'
	@echo 'make arm64-check   the tests of the server against the program for a Raspberry Pi, under qemu'
	@echo 'make soak    for long what the tests do for seconds: kills, healing, fuzzing'
	@echo 'make clean   remove what was built'

.PHONY: run
run: build
	bin/wirewake serve $(ARGS)

# What is not ours is compiled small, a megabyte less, but for what runs all the time or with each note that comes: the
# program must stay under 15 MB.
busy := runtime internal/... slices sync/... bufio bytes strconv unicode/utf8 compress/flate github.com/klauspost/compress/... hash/crc32 encoding/hex \
	encoding/json database/sql github.com/mattn/go-sqlite3 wirewake/...
inline := -gcflags=all=-l $(foreach rooms,$(busy),-gcflags=$(rooms)=)
# The same source makes the same bytes, in whatever folder, and what a test has compiled in one is not compiled anew in another.
override GOFLAGS := $(shell go env GOFLAGS) -trimpath -buildvcs=false
export GOFLAGS
stamp := -s -w -X main.release=$(RELEASE) -X main.commit=$(COMMIT)

# SQLite small rather than fast: a third of a megabyte less, and what it waits for is the disk. Without what nobody here asks
# of it: search in texts and in boxes, an account of its memory, a cache that connections share.
without := $(foreach part,FTS3 FTS3_PARENTHESIS RTREE,-Wp,-USQLITE_ENABLE_$(part)) -DSQLITE_DEFAULT_MEMSTATUS=0 -DSQLITE_OMIT_SHARED_CACHE
export CGO_CFLAGS := -Os $(without)

# Go knows by itself what of the binary is stale.
.PHONY: build
build: $(app)
	go build $(inline) -ldflags '$(stamp)' -o bin/wirewake ./server

# What serves many boats: a program of its own, so that the boat's stays small. But for SQLite it is compiled as Go does
# it by itself.
.PHONY: harbour
harbour: $(app)
	go build -ldflags '$(stamp)' -o bin/wirewake-harbour ./server/harbour

# For other computers. Everything is inside, the C library too, so that it runs on whatever Linux there is. Each has the
# C compiler that Debian has for it. There is none for macOS: Apple's libraries may not be handed on.
systems := linux-amd64 linux-arm64 windows-amd64
linux-amd64 := GOOS=linux GOARCH=amd64 CC=x86_64-linux-gnu-gcc
linux-arm64 := GOOS=linux GOARCH=arm64 CC=aarch64-linux-gnu-gcc
windows-amd64 := GOOS=windows GOARCH=amd64 CC=x86_64-w64-mingw32-gcc
package-linux-amd64 := gcc-x86-64-linux-gnu
package-linux-arm64 := gcc-aarch64-linux-gnu
package-windows-amd64 := gcc-mingw-w64-x86-64
exe-windows-amd64 := .exe
# Names and users are looked up by Go's own code where the C library would do it by parts that cannot go inside.
inside-linux-amd64 := ,netgo,osusergo
inside-linux-arm64 := ,netgo,osusergo

.PHONY: $(systems)
$(systems): $(app)
	$(call needs,$(lastword $(subst =, ,$($@))),$(package-$@))
	CGO_ENABLED=1 $($@) go build $(inline) -tags sqlite_omit_load_extension$(inside-$@) \
		-ldflags '$(stamp) -linkmode external -extldflags -static' -o bin/wirewake-$@$(exe-$@) ./server

.PHONY: linux
linux: linux-$(shell go env GOARCH)

# The same of what serves many boats, for servers.
harbours := harbour-linux-amd64 harbour-linux-arm64
.PHONY: $(harbours) harbour-linux
$(harbours): harbour-%: $(app)
	$(call needs,$(lastword $(subst =, ,$($*))),$(package-$*))
	CGO_ENABLED=1 $($*) go build $(inline) -tags sqlite_omit_load_extension$(inside-$*) \
		-ldflags '$(stamp) -linkmode external -extldflags -static' -o bin/wirewake-$@ ./server/harbour
harbour-linux: harbour-linux-$(shell go env GOARCH)

# All that is handed on: programs, the files of a service, what is inside, and a sum of each.
version := $(RELEASE:v%=%)
.PHONY: release
release: $(systems) $(harbours)
	rm -rf bin/release
	mkdir -p bin/release
	for system in $(systems) $(harbours); do for file in bin/wirewake-$$system{,.exe}; do \
		if [ -e $$file ]; then cp $$file bin/release/wirewake-$(version)-$${file#bin/wirewake-}; fi; done; done
	cp server/service/* server/harbour/service/* bin/release
	go run ./tools/sbom $(version) bin/wirewake-linux-amd64 >bin/release/wirewake-$(version).cdx.json
	go run ./tools/sbom $(version) bin/wirewake-harbour-linux-amd64 >bin/release/wirewake-harbour-$(version).cdx.json
	cd bin/release && sha256sum -- * >SHA256SUMS
	@cat bin/release/SHA256SUMS

.PHONY: release-check
release-check: release
	.ci/test-release

# The tests of the server run here, the server that they start runs as on the box.
.PHONY: arm64-check
arm64-check:
	$(call needs,aarch64-linux-gnu-gcc,gcc-aarch64-linux-gnu)
	$(call needs,qemu-aarch64,qemu-user)
	go test -c -o bin/server.test ./server
	cd server && env CGO_ENABLED=1 $(linux-arm64) WIREWAKE_EMULATOR=qemu-aarch64 WIREWAKE_KILLS=3 ../bin/server.test -test.timeout 20m \
		-test.run 'Serve|Boat|WayIn|Stops|Backup|NothingAcknowledged|Calc|Version'

needs = @command -v $(1) >/dev/null || { echo 'Please install $(2) (a Debian package).'; exit 1; }

$(app): $(sources) $(wasm) $(loader) $(tides) $(packages)
	cd webapp && npm run build

# The collector before Green Tea is 6 KB less over the wire and no slower here. What counts little has its calls not
# copied in: 2 KB less.
small := codec day desk fish formats

$(wasm): $(calc) go.mod go.sum
	GOOS=js GOARCH=wasm GOEXPERIMENT=nogreenteagc go build -ldflags=-w $(small:%=-gcflags=wirewake/calc/%=-l) -o $@ ./calc/wasm
	go run ./tools/lean $@

$(loader): $(shell go env GOROOT)/lib/wasm/wasm_exec.js webapp/tools/loader.mjs $(packages)
	cd webapp && node tools/loader.mjs $< ../$@

webapp/public/tides/%.bin: tools/tides/make.mjs tools/tides/columns.mjs $(packages)
	@mkdir -p $(@D)
	node tools/tides/make.mjs $* $@

$(packages): webapp/package.json webapp/package-lock.json
	@echo 'Installing the packages of the webapp in webapp/node_modules'
	cd webapp && npm ci
	@touch $@

# Two at a time, the longest first: none of it measures time, and much of it waits for a browser, the disk or one core.
# The calculations, which are pure and want no race detector, are tried while the app is built, which takes one core most of
# the time.
.PHONY: test
test:
	.ci/test-tools
	rm -rf $(results) && mkdir -p $(results)
	$(MAKE) -j2 -k $(in-turn) check build calc
	$(MAKE) -j2 -k browser together server histories units fuzz
	go run ./tools/tally $(results)/*.json

.PHONY: browser together server histories calc units fuzz fuzzed
# With build before it, which test has made, it would begin last.
browser:
	PLAYWRIGHT_JSON_OUTPUT_FILE=$(results)/browser.json $(told) npm --prefix webapp run e2e -- --reporter=line,json
calc: $(wasm) $(tides)
	$(told) $(roomy) $(call go-test,calc) ./calc/... ./tools/...
# Where many do something at once the race detector looks on. Nobody else is there in the rooms that do one thing after the
# other (server/layers_test.go), in what tries the program itself, and in what tells long histories, step by step.
alone := . harness/ship http/web instruments/trace log/contract log/entry log/fold reach/placard reach/qr reach/wayin store \
	store/tables/entries
told-alone := TestEverythingIsHealed|TestTheTwoServersBecomeEqual|TestWhateverTurnsInTheFileNothingFalseIsGivenOut|$\
	TestTheWayFromAnEarlierVersionMayBeCutOffAnywhere|TestStrangersWhoAllWaitKeepNobodyOut|TestAGuestsCasesAreTaken
together:
	$(told) $(call go-test,together) -race -skip '^($(told-alone))$$' \
		$(filter-out $(addprefix wirewake/server/,$(alone)) wirewake/server,$(shell go list ./server/...))
server:
	$(told) $(call go-test,server) $(addprefix ./server/,$(alone)) ./embed/...
histories:
	$(told) $(call go-test,histories) -run '^($(told-alone))$$' ./server/sync/exchange ./server/sync/home \
		./server/store/sqlite ./server/trust/enrol
units:
	$(told) npm --prefix webapp test -- --reporter=default --reporter=json --outputFile.json=$(results)/units.json

# What the Dockerfile builds, without a container engine.
.PHONY: image
image: build
	MAKEFLAGS= .ci/test-image

# The app in WebKit and Firefox. A machine on which they cannot be installed says so and goes on; CI does not.
.PHONY: engines
engines: build
	@mkdir -p $(results)
	if .ci/test-tools engines; then PLAYWRIGHT_JSON_OUTPUT_FILE=$(results)/engines.json \
		$(told) npm --prefix webapp run engines -- --reporter=line,json; else $(unless-ci); fi

# What it finds wrong it says, and draws all the same.
.PHONY: sheets
sheets: build
	rm -rf webapp/screens
	cd webapp && { SHEETS=all npx playwright test screens || true; } && node tools/sheets.mjs
	@echo 'The sheets: webapp/screens/sheet-*.jpg'

# What one says is told when it ends; Apple's make is too old to know how.
in-turn := $(if $(filter output-sync,$(.FEATURES)),--output-sync)
unless-ci = [ -z "$${CI:-}" ]

# Each runner's own account of what it did and how long that took.
results := $(CURDIR)/bin/tests
told = .ci/told $(results) $@
# What calculates keeps little at a time: its garbage collected less often takes a quarter to a third less of the processor.
# What writes to a store gains nothing by it, and the program itself is tried as it is handed on.
roomy := env GOGC=800 GOMEMLIMIT=1GiB
# What is linked without what a debugger wants is linked in half the time; vet has looked before.
go-test = go tool gotestsum --format pkgname --format-hide-empty-pkg --jsonfile $(results)/go-$(1).json -- \
	-timeout 20m -vet=off -ldflags=-w

# The decoders of what phones and instruments send, so often each, from the corpus that is kept beside them. Go would spend up to a
# minute on making each input that is new a smaller one, and try nothing else meanwhile.
tries := go test -run '^$$' -fuzzminimizetime 10x
fuzz = $(tries) -fuzz '^FuzzRead$$' -fuzztime $(1) ./server/log/entry && \
	$(tries) -fuzz '^FuzzExchange$$' -fuzztime $(2) ./server/sync/exchange && \
	$(tries) -fuzz '^FuzzParse$$' -fuzztime $(3) ./calc/sentence && \
	$(tries) -fuzz '^FuzzGuest$$' -fuzztime $(4) ./server/sync/exchange
fuzz:
	$(told) $(MAKE) --no-print-directory fuzzed
fuzzed:
	$(call fuzz,20000x,500x,20000x,500x)

.PHONY: soak
soak:
	WIREWAKE_RIGS=5000 go test -count 1 -timeout 30m -run 'Advice|Holds' -v ./calc/towline/steady
	WIREWAKE_KILLS=200 go test -count 1 -timeout 30m -run ByAKill -v ./server
	WIREWAKE_ROUNDS=150 go test -count 1 -timeout 60m -run FiftyPhones -v ./server
	go test -count 1 -timeout 120m -v -run TestEverythingIsHealed ./server/sync/exchange -rapid.checks 7000
	go test -count 1 -timeout 60m -v -run TestTheTwoServersBecomeEqual ./server/sync/home -rapid.checks 4000
	WIREWAKE_KILLS=100 go test -count 1 -timeout 60m -v -run TestNothingTaken ./server/store/postgres
	WIREWAKE_KILLS=60 go test -count 1 -timeout 60m -v -run TestServersAndTheDatabase ./server/harbour
	WIREWAKE_OLDER=$$(git log -2 --format=%H -- server/store/postgres/migrations | tail -1) \
		go test -count 1 -timeout 60m -v -run TestTwoVersions ./server/harbour
	WIREWAKE_BOATS=500 WIREWAKE_PHONES=5 WIREWAKE_KILLS=2 go test -count 1 -timeout 60m -v -run TestServersAndTheDatabase ./server/harbour
	go test -count 1 -timeout 60m -v -run 'TestConformance/AnyOrder|TestNoBoatSees' ./server/store/postgres -rapid.checks 2000
	WIREWAKE_TURNS=20000 go test -count 1 -timeout 60m -v -run TestWhateverTurns ./server/store/sqlite
	WIREWAKE_EXTREMES=all go test -count 1 -timeout 60m ./calc/desk
	WIREWAKE_PLANS=20000 go test -count 1 -timeout 60m -run RulesOfThePlan -v ./calc/plan
	WIREWAKE_BOATS=500 go test -count 1 -timeout 60m -run ManyBoats -v ./calc/calibrate
	$(call fuzz,5m,5m,30m,30m)
	cd webapp && WIREWAKE_ENTRIES=30000 npx vitest run src/hostile.test.ts

.PHONY: check check-go check-webapp
check: check-go check-webapp
check-go:
	@echo 'gofmt -l'; unformatted=$$(gofmt -l calc embed server tools); \
	if [ -n "$$unformatted" ]; then printf 'Not formatted; run gofmt -w on:\n%s\n' "$$unformatted"; exit 1; fi
	go mod tidy -diff
	go run ./tools/codecgen -check
	go run ./tools/contractgen -check
	go vet ./...
	GOOS=js GOARCH=wasm go vet ./calc/wasm
	go tool staticcheck ./...
	lint=$$(go tool -n staticcheck); GOOS=js GOARCH=wasm $$lint ./calc/wasm
check-webapp: $(packages)
	cd webapp && npm run check

.PHONY: mutate
mutate:
	go run ./tools/mutate $(ONLY)

.PHONY: bench
bench: build
	go test -run '^$$' -bench . -benchmem ./...
	cd webapp && npm run figures

.PHONY: clean
clean:
	rm -rf bin $(wasm) $(loader) webapp/public/tides webapp/test-results webapp/playwright-report
	find embed/dist -mindepth 1 ! -name .keep -delete
