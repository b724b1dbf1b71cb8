# Ellwand: `make run` opens the window, `make test` passes the tests.
# Both do all set-up a bare machine needs.

BIN := build/ellwand

.PHONY: run test check race bench build setup e2e fuzz clean

run: setup build
	@scripts/run.sh $(BIN)

build:
	@mkdir -p build
	go build -trimpath -o $(BIN) .

setup:
	@scripts/setup.sh

test: setup check build
	go test ./...
	@scripts/e2e.sh $(BIN)

# gofmt, vet and staticcheck, all clean or it stops.
check: setup
	@bad=$$(gofmt -l $$(git ls-files '*.go')); if [ -n "$$bad" ]; then echo "not gofmt-clean:"; echo "$$bad"; exit 1; fi
	go vet ./...
	go tool staticcheck ./...

race: setup
	go test -race ./geometry/... ./garment/... ./layout/... ./cloth/... ./plan/... ./ui/...

e2e: setup build
	@scripts/e2e.sh $(BIN)

# Packing instances in one table, kept with date and machine in
# layout/testdata/results; make bench SECONDS_EACH=60 SEEDS=1 for other runs.
SECONDS_EACH := 10
SEEDS := 3
THREADS := 2
bench: setup
	go run ./layout/packbench --seconds $(SECONDS_EACH) --seeds $(SEEDS) --threads $(THREADS) \
		--results layout/testdata/results $(wildcard layout/testdata/*.json)
	go test -run '^$$' -bench . -benchtime 2x ./geometry/... ./layout/...

fuzz: setup
	go test -run '^$$' -fuzz FuzzParse -fuzztime 60s ./plan
	go test -run '^$$' -fuzz FuzzNew -fuzztime 60s ./geometry

clean:
	rm -rf build cutting.png
