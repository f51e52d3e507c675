# Plain targets; `make help` lists them. Everything made goes into build/.
# GOFLAGS, GOPROXY and the rest of Go's own settings are left as the machine has them.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DELETE_ON_ERROR:
.DEFAULT_GOAL := help
.NOTPARALLEL:

BUILD := build
PACKED := internal/artefact/files
export CGO_ENABLED := 0
export GOAMD64 := v1
# The core, and how records and tables are read: these must say the same on every machine.
PORTABLE ?= ./internal/core/... ./internal/doc/... ./internal/record/... ./internal/tables/...
FUZZTIME ?= 3000x
BENCHTIME ?= 1s
# The invented yard that is shown, and where: build/yard is there until it is removed.
YARD ?= $(BUILD)/yard
LISTEN ?= 127.0.0.1:8765
SYSTEMS := linux darwin windows
PROCESSORS := amd64 arm64

# Files that hold the same bytes wherever they are built from the same source with the same Go.
SAME := -trimpath -buildvcs=false -ldflags "-s -w"

# Where git cannot read the tree (a tarball, a clone of another user's) nothing of it is stamped into the binary.
VCS := $(shell git status --porcelain >/dev/null 2>&1 || echo -buildvcs=false)

## help: this list
help:
	@echo "make run and make test are all it takes; the rest is for work on kernbook itself."
	@sed -n 's/^## \([a-z]*\): \(.*\)/  \1\t\2/p' $(MAKEFILE_LIST) | expand -t 12

## run: build kernbook and show an invented yard, in the folder YARD, to a browser at LISTEN; Ctrl-C ends
run: need-go kernbook
	@scripts/run $(BUILD)/kernbook $(YARD) $(LISTEN)

## examples: build kernbook and let it decide the invented example records
examples: need-go kernbook
	@scripts/example $(BUILD)/kernbook examples

## test: everything: formatting, vet, all tests natively, and the core again in both WebAssembly forms and on arm64
test: need-test format vet kernbook wasm arm64 wazero
	@echo "== tests, native"
	KERNBOOK_BUILD="$(CURDIR)/$(BUILD)" go test -timeout 30m ./...
	go test -tags artefact ./internal/artefact
	@scripts/elsewhere js $(PORTABLE)
	@scripts/elsewhere wasip1 $(PORTABLE)
	@scripts/elsewhere arm64 $(PORTABLE)

## race: all tests under the race detector (needs a C compiler)
race: need-race kernbook wasm arm64 wazero
	KERNBOOK_BUILD="$(CURDIR)/$(BUILD)" CGO_ENABLED=1 go test -race -timeout 45m ./...

## lint: staticcheck over all packages, for the server and for the browser
lint: need-go staticcheck
	$(BUILD)/bin/staticcheck ./...
	GOOS=js GOARCH=wasm $(BUILD)/bin/staticcheck ./cmd/kernbook-wasm/... ./internal/core/...
	GOOS=wasip1 GOARCH=wasm $(BUILD)/bin/staticcheck ./cmd/kernbook-wasm/...

## fuzz: every fuzz target for FUZZTIME (3000x, inputs; or 5s)
fuzz: need-go
	@scripts/fuzz $(FUZZTIME)

## screens: a picture of every sort of page, on a phone and on a desk, into docs/screens
screens: need-test
	rm -rf docs/screens
	go test -count=1 ./internal/browser -run '^TestPages$$' -screens

## bench: every benchmark for BENCHTIME (1s)
bench: need-go
	go test -run '^$$' -bench . -benchmem -benchtime $(BENCHTIME) ./...

## bookbench: the book, the start and the pages, each beside a yardstick in the same run (docs/benchmarks.md)
bookbench: need-go kernbook
	KERNBOOK_BUILD="$(CURDIR)/$(BUILD)" go test -p 1 -run '^$$' -bench 'Durable|Fold250000|Open250000|Page500|Start' -benchtime 10x \
		./internal/book/sqlite ./internal/view ./internal/web ./cmd/kernbook

## wasmbench: how long the core takes for one record as WebAssembly under Node
wasmbench: need-go wasm
	KERNBOOK_JSON="$(CURDIR)/$(BUILD)/record.json" go test -count=1 -run '^TestWriteAsJSON$$' ./internal/record
	node scripts/wasm-bench.mjs $(BUILD)/wasm_exec.js $(BUILD)/kernbook.js.wasm $(BUILD)/record.json

## peer: the engine beside a join-tree engine on a published network, in one run (needs dlib)
peer: need-go
	@scripts/peer $(BUILD)

## scanpeer: the scan along a rope beside its reference script, in one run (needs python3-scipy)
scanpeer: need-go
	@scripts/scanpeer

## dist: the binary for Linux, macOS and Windows on amd64 and arm64, with checksums, in build/dist
dist: need-go artefact
	rm -rf $(BUILD)/dist
	mkdir -p $(BUILD)/dist
	@for system in $(SYSTEMS); do for processor in $(PROCESSORS); do \
		end=; if [ $$system = windows ]; then end=.exe; fi; \
		echo "$(BUILD)/dist/kernbook-$$system-$$processor$$end"; \
		GOOS=$$system GOARCH=$$processor go build $(SAME) -tags artefact \
			-o $(BUILD)/dist/kernbook-$$system-$$processor$$end ./cmd/kernbook || exit 1; \
	done; done
	@cd $(BUILD)/dist && { command -v sha256sum >/dev/null && sha256sum kernbook-* || shasum -a 256 kernbook-*; } > SHA256SUMS
	@cat $(BUILD)/dist/SHA256SUMS

## wasm: the core for the browser (js) and for recomputing (wasip1), with the matching wasm_exec.js
wasm: need-go wasi js

## clean: remove build/
clean:
	rm -rf $(BUILD)

wasi:
	GOOS=wasip1 GOARCH=wasm go build $(SAME) -o $(BUILD)/kernbook.wasi.wasm ./cmd/kernbook-wasm

js:
	GOOS=js GOARCH=wasm go build $(SAME) -o $(BUILD)/kernbook.js.wasm ./cmd/kernbook-wasm
	cp "$$(go env GOROOT)/lib/wasm/wasm_exec.js" $(BUILD)/wasm_exec.js

# The core goes into the binary, so that each decision can name it and the yard keeps it; and its form for a
# browser, for the bench. Only what is
# built here, with the tag, has it: a plain go build never takes one that was left lying from before.
artefact: wasi js
	gzip -9 -n -c $(BUILD)/kernbook.wasi.wasm > $(PACKED)/core.wasm.gz
	{ if command -v sha256sum >/dev/null; then sha256sum; else shasum -a 256; fi; } < $(BUILD)/kernbook.wasi.wasm | cut -c1-64 > $(PACKED)/core.sum
	gzip -9 -n -c $(BUILD)/kernbook.js.wasm > $(PACKED)/core.js.wasm.gz
	cp $(BUILD)/wasm_exec.js $(PACKED)/core.exec.js

kernbook: artefact
	go build $(VCS) -tags artefact -o $(BUILD)/kernbook ./cmd/kernbook

arm64:
	GOOS=linux GOARCH=arm64 go build $(SAME) -o $(BUILD)/kernbook-linux-arm64 ./cmd/kernbook

format:
	@echo "== gofmt"
	@bad=$$("$$(go env GOROOT)/bin/gofmt" -l .); \
	if [ -n "$$bad" ]; then echo "not formatted; run gofmt -w on:"; echo "$$bad"; exit 1; fi

vet:
	@echo "== go vet"
	go vet ./...
	GOOS=js GOARCH=wasm go vet ./cmd/kernbook-wasm/...
	GOOS=wasip1 GOARCH=wasm go vet ./cmd/kernbook-wasm/...

need-go:
	@scripts/need go
need-test:
	@scripts/need go git node qemu-aarch64 postgresql pdftotext chromium
need-race:
	@scripts/need go git node qemu-aarch64 postgresql pdftotext chromium cc

# Tools have their own module, so that nothing they use is ever linked into kernbook.
staticcheck:
	cd tools && go build -o ../$(BUILD)/bin/staticcheck honnef.co/go/tools/cmd/staticcheck
wazero:
	cd tools && go build -o ../$(BUILD)/bin/wazero github.com/tetratelabs/wazero/cmd/wazero

.PHONY: help screens run examples test race lint fuzz bench bookbench wasmbench peer scanpeer dist wasm wasi js artefact clean kernbook arm64 format vet need-go need-test need-race staticcheck wazero
