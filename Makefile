# What can be typed: make demo, make test, make bench, make proofs, make help.

.PHONY: help demo test bench proofs needs

CLEAN := rulesets/grappling.yaml
DRAFT := rulesets/grappling-draft.yaml
RECORDED := ball grappling throws

help:
	@echo "make demo    check an invented rulebook of grappling, then a flawed draft of it"
	@echo "make test    formatting, lints and every test"
	@echo "make bench   measure (takes a few minutes)"
	@echo "make proofs  write the proof records of rulesets/ again, into proofs/"
	@echo "make needs   install the solver library, libz3, where it is missing"

# The draft has faults, and evenhand says so with exit code 1: that is what the demo is to show.
demo: needs
	@echo "Building evenhand (the first time takes some minutes) ..."
	@cargo build --release
	@echo
	@echo "$$ evenhand check $(CLEAN)"
	@target/release/evenhand check $(CLEAN)
	@echo
	@echo "$$ evenhand check $(DRAFT)"
	@target/release/evenhand check $(DRAFT) || test $$? -eq 1

# Random tests are the same every time here; without the seed they look further afield.
test: export PROPTEST_RNG_SEED ?= 20310101
test: needs
	@cargo fmt --version >/dev/null 2>&1 || { echo "rustfmt is missing: rustup component add rustfmt"; exit 1; }
	@cargo clippy --version >/dev/null 2>&1 || { echo "clippy is missing: rustup component add clippy"; exit 1; }
	cargo fmt --check
	cargo clippy --all-targets --quiet -- -D warnings
	cargo test --quiet --doc
	@if cargo nextest --version >/dev/null 2>&1; \
	then echo "cargo nextest run"; cargo nextest run --no-fail-fast; \
	else echo "cargo test"; cargo test --lib --bins --tests; fi

bench: needs
	cargo bench

# To the byte what is there, unless a ruleset or the program was changed.
proofs: needs
	@cargo build --release --quiet
	@for name in $(RECORDED); do \
	target/release/evenhand prove rulesets/$$name.yaml --output proofs/$$name || exit 1; \
	target/release/evenhand recheck proofs/$$name rulesets/$$name.yaml > /dev/null || exit 1; \
	done

needs:
	@sh .ci/needs
