# Everything that is done with the source. It needs Go, gcc and Node; the rest it gets by itself.

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
	@echo 'make test    check and test everything, in a real browser too'
	@echo 'make check   format, vet, lint, types, generated code'
	@echo 'make build   bin/wirewake with the app in it'
	@echo 'make bench   the figures'
	@echo 'make mutate  change the source in many small ways, and see each noticed by a test; ONLY="calc/beat" for some'
	@echo 'make arm64   bin/wirewake-arm64 for a Raspberry Pi and its like; make arm64-check runs it under qemu'
	@echo 'make soak    for long what the tests do for seconds: kills, healing, fuzzing'
	@echo 'make clean   remove what was built'

.PHONY: run
run: build
	bin/wirewake serve $(ARGS)

# Go knows by itself what of the binary is stale.
.PHONY: build
build: $(app)
	go build -trimpath -ldflags '-s -w -X main.release=$(RELEASE) -X main.commit=$(COMMIT)' -o bin/wirewake ./server

# For a boat's box, which has a processor of another kind. Everything is inside, the C library too, so that it
# runs on whatever Linux the box has.
arm64 := CGO_ENABLED=1 GOOS=linux GOARCH=arm64 CC=aarch64-linux-gnu-gcc

.PHONY: arm64
arm64: $(app)
	$(call needs,aarch64-linux-gnu-gcc,gcc-aarch64-linux-gnu)
	$(arm64) go build -trimpath -tags netgo,osusergo,sqlite_omit_load_extension \
		-ldflags '-s -w -linkmode external -extldflags -static -X main.release=$(RELEASE) -X main.commit=$(COMMIT)' \
		-o bin/wirewake-arm64 ./server

# The tests of the server run here, the server that they start runs as on the box.
.PHONY: arm64-check
arm64-check:
	$(call needs,aarch64-linux-gnu-gcc,gcc-aarch64-linux-gnu)
	$(call needs,qemu-aarch64,qemu-user)
	go test -c -o bin/server.test ./server
	cd server && env $(arm64) WIREWAKE_EMULATOR=qemu-aarch64 WIREWAKE_KILLS=3 ../bin/server.test -test.timeout 20m \
		-test.run 'Serve|Boat|WayIn|Stops|Backup|NothingAcknowledged|Calc|Version'

needs = @command -v $(1) >/dev/null || { echo 'Please install $(2) (a Debian package).'; exit 1; }

$(app): $(sources) $(wasm) $(loader) $(tides) $(packages)
	cd webapp && npm run build

# Without inlining in the runtime, and in the calculations but where lines are followed: 43 KB less over the wire.
# The collector before Green Tea is 6 KB less and no slower here.
small := -gcflags=runtime=-l -gcflags=wirewake/calc/...=-l -gcflags=wirewake/calc/towline/line=
$(wasm): $(calc) go.mod go.sum
	GOOS=js GOARCH=wasm GOEXPERIMENT=nogreenteagc go build -trimpath -ldflags=-w $(small) -o $@ ./calc/wasm
	go run ./tools/lean $@

$(loader): $(shell go env GOROOT)/lib/wasm/wasm_exec.js
	cp $< $@

webapp/public/tides/%.bin: tools/tides/make.mjs tools/tides/columns.mjs $(packages)
	@mkdir -p $(@D)
	node tools/tides/make.mjs $* $@

$(packages): webapp/package.json webapp/package-lock.json
	cd webapp && npm ci
	@touch $@

.PHONY: test
test: check build
	.ci/test-tools
	go test -race ./...
	$(call fuzz,5s,5s)
	cd webapp && npm test
	cd webapp && npm run e2e

# The decoders of what phones send, for a while each, from the corpus that is kept beside them. Go would spend up to a
# minute on making each input that is new a smaller one, and try nothing else meanwhile.
tries := go test -run '^$$' -fuzzminimizetime 10x
fuzz = $(tries) -fuzz '^FuzzRead$$' -fuzztime $(1) ./server/sync/entry && \
	$(tries) -fuzz '^FuzzExchange$$' -fuzztime $(1) ./server/sync/exchange && \
	$(tries) -fuzz '^FuzzGuest$$' -fuzztime $(2) ./server/sync/exchange

.PHONY: soak
soak:
	WIREWAKE_RIGS=5000 go test -count 1 -timeout 30m -run 'Advice|Holds' -v ./calc/towline/steady
	WIREWAKE_KILLS=200 go test -count 1 -timeout 30m -run ByAKill -v ./server
	WIREWAKE_ROUNDS=150 go test -count 1 -timeout 60m -run FiftyPhones -v ./server
	go test -count 1 -timeout 120m -v -run TestEverythingIsHealed ./server/sync/exchange -rapid.checks 7000
	go test -count 1 -timeout 60m -v -run TestTheTwoServersBecomeEqual ./server/sync/home -rapid.checks 4000
	WIREWAKE_TURNS=20000 go test -count 1 -timeout 60m -v -run TestWhateverTurns ./server/store
	WIREWAKE_EXTREMES=all go test -count 1 -timeout 60m ./calc/desk
	WIREWAKE_BOATS=500 go test -count 1 -timeout 60m -run ManyBoats -v ./calc/calibrate
	$(call fuzz,5m,30m)
	cd webapp && WIREWAKE_ENTRIES=30000 npx vitest run src/hostile.test.ts

.PHONY: check
check: $(packages)
	@echo 'gofmt -l'; unformatted=$$(gofmt -l calc embed server tools); \
	if [ -n "$$unformatted" ]; then printf 'Not formatted; run gofmt -w on:\n%s\n' "$$unformatted"; exit 1; fi
	go mod tidy -diff
	go run ./tools/codecgen -check
	go run ./tools/contractgen -check
	go vet ./...
	GOOS=js GOARCH=wasm go vet ./calc/wasm
	go tool staticcheck ./...
	lint=$$(go tool -n staticcheck); GOOS=js GOARCH=wasm $$lint ./calc/wasm
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
