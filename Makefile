# What each target is for stands in CONTRIBUTING.md.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := build
.PHONY: build web test browser bench generate check race vuln cross release clean

# The program is pure Go: a cross-build is a build.
export CGO_ENABLED := 0

# Property tests draw the same cases every time, so that a commit that passed
# passes again; RAPID_SEED=0 draws new ones.
export RAPID_SEED ?= 1

# What the tests call besides Go: command:package, as Debian names them.
TEST_TOOLS := pdftoppm:poppler-utils pdftotext:poppler-utils chromium:chromium glpsol:glpk-utils cbc:coinor-cbc ccx:calculix-ccx
RACE_TOOLS := gcc:gcc
BROWSER    := tests/browser
BROWSER_TOOLS := node:nodejs npm:npm chromium:chromium

SYSTEMS  := linux/amd64 linux/arm64 windows/amd64 windows/arm64 darwin/amd64 darwin/arm64
COMMAND  := ./cmd/bowerwright
VERSION  ?= $(shell git describe --tags --always --dirty 2>/dev/null || echo unknown)
BIN      := .cache/bin
SHARED   := ../shared

TESTFLAGS ?=
BENCH     ?= .

build:
	go build -o $(BIN)/bowerwright $(COMMAND)

# A test that lacks a program or the shared data sets says that it was left out.
# The two variables turn that into a failure where they have to be there.
test:
	@need=; code=0; tools/need.sh $(TEST_TOOLS) $(BROWSER_TOOLS) || code=$$?; \
	case $$code in \
	0) need="BOWERWRIGHT_NEED_TOOLS=1" ;; \
	3) echo "tests that need them are left out" >&2 ;; \
	*) exit $$code ;; \
	esac; \
	if [[ -d $(SHARED)/cutting || "$${CI:-}" = true ]]; then need="$$need BOWERWRIGHT_NEED_SHARED=1"; fi; \
	env $$need go test $(TESTFLAGS) ./...
	go -C tools test -count=1 $(TESTFLAGS) ./...
	@code=0; tools/need.sh $(BROWSER_TOOLS) || code=$$?; \
	if [[ $$code = 3 && "$${CI:-}" != true ]]; then echo "the browser's tests are left out" >&2; exit; fi; \
	[[ $$code = 0 ]] && $(MAKE) --no-print-directory browser

# Pages as a person meets them. What it installs, the lock file names.
browser: $(BROWSER)/node_modules/.package-lock.json
	@tools/need.sh $(BROWSER_TOOLS)
	cd $(BROWSER) && node --test

$(BROWSER)/node_modules/.package-lock.json: $(BROWSER)/package-lock.json
	@tools/need.sh $(BROWSER_TOOLS)
	cd $(BROWSER) && npm ci --no-audit --no-fund --ignore-scripts
	@touch $@

# The pages of serve, built into the program and committed. The same sources give
# the same bytes.
web: web/node_modules/.package-lock.json
	cd web && npm run check && npm test && npm run build

web/node_modules/.package-lock.json: web/package-lock.json
	@tools/need.sh node:nodejs npm:npm
	cd web && npm ci --no-audit --no-fund --ignore-scripts
	@touch $@

bench:
	go test -run '^$$' -bench '$(BENCH)' -benchmem -count 1 ./...

generate:
	go generate ./...
	cd tools/thirdparty && go run .

check: $(BIN)/staticcheck
	@bad=$$(gofmt -l .); if [[ -n "$$bad" ]]; then echo "gofmt:" $$bad; exit 1; fi
	go vet ./...
	go -C tools vet ./...
	$(BIN)/staticcheck ./...
	cd tools && ../$(BIN)/staticcheck ./...

# The pure floors: all but the command and the adapters, and but the packages that
# start nothing beside themselves and take longest (job, jobfile, packet). Tests that take long
# are shortened, as the detector makes them some ten times slower.
race:
	@tools/need.sh $(RACE_TOOLS)
	CGO_ENABLED=1 go test -race -short -timeout 25m $(TESTFLAGS) $$(go list ./... | grep -vE '^bowerwright($$|/cmd/|/internal/|/job$$|/jobfile$$|/packet$$)')

# The database of known vulnerabilities is itself a Go module; its folder of
# reports serves as it is. The newest is taken, so that a gate that was open may
# close with the next report.
vuln: $(BIN)/govulncheck
	@db=$$(cd / && go mod download -json golang.org/x/vulndb@latest | sed -n 's/^\t"Dir": "\(.*\)",$$/\1/p'); \
	[[ -d $$db/data/osv ]] || { echo "no database of vulnerabilities: golang.org/x/vulndb could not be fetched" >&2; exit 1; }; \
	$(BIN)/govulncheck -format json -db "file://$$db/data/osv" ./... >.cache/vuln.json; \
	go -C tools run ./vulngate <.cache/vuln.json

cross:
	@for s in $(SYSTEMS); do echo "$$s"; GOOS=$${s%/*} GOARCH=$${s#*/} go build -o /dev/null ./...; done

# The same source and Go release give the same bytes: no paths, no stamps.
release:
	@rm -rf dist && mkdir -p dist
	@for s in $(SYSTEMS); do \
		os=$${s%/*}; arch=$${s#*/}; ext=; [[ $$os = windows ]] && ext=.exe; \
		out=dist/bowerwright-$(VERSION)-$$os-$$arch$$ext; echo "$$out"; \
		GOOS=$$os GOARCH=$$arch go build -trimpath -buildvcs=false \
			-ldflags '-s -w -buildid= -X main.version=$(VERSION)' -o "$$out" $(COMMAND); \
	done
	@cp LICENSE NOTICE THIRD-PARTY.md dist/
	@cd dist && sha256sum -- * >SHA256SUMS && cat SHA256SUMS

$(BIN)/staticcheck: tools/go.mod tools/go.sum
	go -C tools build -o ../$@ honnef.co/go/tools/cmd/staticcheck

$(BIN)/govulncheck: tools/go.mod tools/go.sum
	go -C tools build -o ../$@ golang.org/x/vuln/cmd/govulncheck

clean:
	rm -rf dist .cache
