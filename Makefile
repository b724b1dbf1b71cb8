# Ellwand: `make run` opens the window, `make test` passes the tests.
# Both do all set-up a bare machine needs.

BIN := build/ellwand
VERSION := 0.5.0
PREFIX := /usr/local

.PHONY: run test check race bench build setup e2e fuzz clean \
	install uninstall deb deb-test bare-test windows reproducible vulncheck licences soak

run: setup build
	@scripts/run.sh $(BIN)

build:
	@mkdir -p build
	go build -trimpath -buildmode=pie -buildvcs=false -ldflags "-X main.release=$(VERSION) -buildid=" -o $(BIN) .

setup:
	@scripts/setup.sh

test: setup check build
	FYNE_CACHE=5s ELLWAND_SOAK=1m go test ./...
	@# The window waits for mouse and keys most of the time: the rest goes beside it.
	@(nice -n 5 scripts/fuzz.sh 5s && nice -n 5 scripts/reproducible.sh $(VERSION)) & beside=$$!; \
		ELLWAND_SOAK=1m scripts/e2e.sh $(BIN) 'TestWindow|TestSoakOfTheRealWindow'; ended=$$?; \
		wait $$beside && exit $$ended

# gofmt, go.mod, vet and staticcheck, all clean or it stops.
check: setup
	@bad=$$(gofmt -l $$(git ls-files '*.go')); if [ -n "$$bad" ]; then echo "not gofmt-clean:"; echo "$$bad"; exit 1; fi
	go mod tidy -diff
	go vet ./...
	go tool staticcheck ./...

race: setup
	go test -race -timeout 30m ./geometry/... ./garment/... ./layout/... ./cloth/... ./plan/... ./ui/...

e2e: setup build
	@scripts/e2e.sh $(BIN)

# Packing instances in one table, kept with date and machine in
# layout/testdata/results; make bench SECONDS_EACH=60 SEEDS=1 for other runs.
SECONDS_EACH := 10
SEEDS := 3
THREADS := 2
# What searches of 60 s found is kept; without the file they are made anew.
ALONE := layout/testdata/results/alone-60s.json
bench: setup
	go run ./layout/packbench --seconds $(SECONDS_EACH) --seeds $(SEEDS) --threads $(THREADS) \
		--results layout/testdata/results $(wildcard layout/testdata/*.json)
	go run ./layout/packbench --seconds 1 --against 60 --known $(ALONE) --threads $(THREADS) \
		--results layout/testdata/results $(wildcard layout/testdata/garments/*.json)
	go run ./layout/packbench --seconds 10 --study 40 --against 60 --known $(ALONE) --threads $(THREADS) \
		--results layout/testdata/results $(wildcard layout/testdata/garments/*-20.json layout/testdata/garments/*-many.json)
	go test -run '^$$' -bench . -benchtime 2x ./geometry/... ./layout/...

# Every fuzz target; make fuzz FUZZ_TIME=1h for longer.
FUZZ_TIME := 60s
fuzz: setup
	@scripts/fuzz.sh $(FUZZ_TIME)

# The program with its desktop entry, icon, file type and manual page, under
# PREFIX, staged below DESTDIR: make build && sudo make install PREFIX=/usr
install:
	@[ -x $(BIN) ] || $(MAKE) build
	@DESTDIR="$(DESTDIR)" PREFIX="$(PREFIX)" scripts/install.sh install $(BIN)

uninstall:
	@DESTDIR="$(DESTDIR)" PREFIX="$(PREFIX)" scripts/install.sh uninstall

# A Debian package, and its trial in a clean Debian (root and debootstrap).
DEB := build/ellwand_$(VERSION)_$(shell dpkg --print-architecture 2>/dev/null || echo amd64).deb
deb: setup build
	@scripts/deb.sh $(BIN) $(VERSION) $(DEB)

deb-test: deb
	@[ "$$(id -u)" != 0 ] || scripts/setup.sh debootstrap
	@scripts/deb-test.sh $(DEB)

# The README's commands on a bare machine: a clean Debian with git, make and Go.
# make bare-test BARE=test runs `make test` there too.
BARE :=
bare-test:
	@[ "$$(id -u)" != 0 ] || scripts/setup.sh debootstrap
	@scripts/bare-test.sh $(BARE)

# The Windows program, cross-compiled, run under Wine where there is one.
windows:
	@scripts/setup.sh gcc-mingw-w64-x86-64
	@mkdir -p build
	@scripts/windows.sh $(VERSION) build/ellwand.exe

# Two builds in different folders, from empty caches, are the same file.
reproducible:
	@scripts/reproducible.sh $(VERSION) fresh

vulncheck:
	@scripts/vulncheck.sh

licences:
	@scripts/licences.sh

clean:
	rm -rf build cutting.png

# Random use of the window, real and without a display, as long as is wanted:
# make soak SOAK=8h. Under the race detector with RACE=-race.
SOAK := 1m
soak: setup build
	@scripts/soak.sh $(BIN) $(SOAK) $(RACE)
