# The verbs of the house; `make` alone lists them. Each can be called by hand, and .ci/run calls `make test`.
# Paths are relative, so that a clone may lie in a folder with spaces in its name.

SHELL := bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := help
.PHONY: help run test check lint types floors contracts warm suite validate browser bench docs lock

BASE_PYTHON ?= $(shell command -v python3.11 || command -v python3)
PYTHON := .venv/bin/python
UV ?= uv
WORKERS ?= 2
# "--editable" for people; .ci/run empties it, so that what is tested there is the installed package.
INSTALL_MODE ?= --editable

# The stamps are named for what they stand for: this lock, this place, this pyproject. A clone that was moved or updated
# sets itself up again; otherwise nothing is done.
LOCK_KEY := $(shell { cat requirements.lock; pwd; echo "$(BASE_PYTHON)"; } | cksum | cut -d' ' -f1)
PACKAGE_KEY := $(LOCK_KEY)-$(shell { cat pyproject.toml; echo "$(INSTALL_MODE)"; } | cksum | cut -d' ' -f1)
LOCKED := .venv/locked-$(LOCK_KEY)
READY := .venv/ready-$(PACKAGE_KEY)

# Every test process works alone on its core: libraries that start threads of their own would fight over two cores.
ONE_THREAD := OMP_NUM_THREADS=1 OPENBLAS_NUM_THREADS=1 MKL_NUM_THREADS=1 NUMBA_NUM_THREADS=1
PARTS := unit properties golden validation

# By module and not by script: the scripts of a moved .venv point to where it was.
LINT_IMPORTS := $(PYTHON) -c 'from importlinter.cli import lint_imports_command as floors; floors()' --no-cache --no-logo

# $(call stage,name,command): says the name, does it, says how long it took.
define stage
@started=$$SECONDS; printf '\n== %s\n' '$(1)'; $(2); printf '== %s: %d s\n' '$(1)' $$((SECONDS - started))
endef

help:
	@printf '%s\n' \
	  'make run       set up, shoot the example gun, judge its case, plan the job of another; pictures and sheets in out/' \
	  'make test      everything that this machine allows; says what it left out' \
	  'make check     lint, types, floors, contracts' \
	  'make validate  the published checks with the slow statistical suites' \
	  'make browser   the screen in a browser' \
	  'make bench     speed, as ratios to peers' \
	  'make docs      remake docs/validation.md and docs/cli.md' \
	  'make lock      remake requirements.lock (needs uv)'

# --- setting up

$(LOCKED):
	@[ -n "$(BASE_PYTHON)" ] || { echo 'Python 3.11 or newer is missing. On Debian: apt-get install python3 python3-venv' >&2; exit 1; }
	@"$(BASE_PYTHON)" -c 'import sys; sys.exit(sys.version_info < (3, 11))' \
	  || { echo '$(BASE_PYTHON) is older than Python 3.11. Name another with: make BASE_PYTHON=/path/to/python3.11 …' >&2; exit 1; }
	@"$(BASE_PYTHON)" -c 'import ensurepip, venv' 2>/dev/null \
	  || { echo 'Python cannot make environments here. On Debian: apt-get install python3-venv' >&2; exit 1; }
	@echo 'Setting up .venv: once, a minute or two, about 1 GB.'
	@"$(BASE_PYTHON)" -m venv .venv
	@rm -f .venv/locked-* .venv/ready-*
	$(call stage,install,$(PYTHON) -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.lock)
	@touch $@

$(READY): $(LOCKED)
	@rm -f .venv/ready-*
	@$(PYTHON) -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation $(INSTALL_MODE) .
	@touch $@

# --- the job

run: $(READY)
	@.venv/bin/stripdown shot examples/brackenmoor-07-healthy.toml examples/brackenmoor-07-as-found.toml --pictures out
	@printf '\n%s\n\n' '== The case: readings before and after, what explains them, and the limit'
	@.venv/bin/stripdown case examples/brackenmoor-07 --pdf out/brackenmoor-07.pdf --pictures out/brackenmoor-07
	@printf '\n%s\n\n' '== A gun on the bench: which checks still hold, and what to do next'
	@.venv/bin/stripdown standing examples/brackenmoor-12/job.toml --pictures out/brackenmoor-12
	@printf '\n'
	@.venv/bin/stripdown plan examples/brackenmoor-12/job.toml --pdf out/brackenmoor-12.pdf

# --- showing that it is right

test: check warm suite

check: lint types floors contracts

lint: $(READY)
	$(call stage,lint,$(PYTHON) -m ruff check --quiet; $(PYTHON) -m ruff format --check --quiet)

types: $(READY)
	$(call stage,types,$(PYTHON) -m mypy --no-error-summary)

floors: $(READY)
	$(call stage,floors,$(LINT_IMPORTS))

contracts: $(READY)
	$(call stage,contracts,$(PYTHON) -m pytest -q tests/contracts)

# One process compiles every kernel, so that two test processes do not both do it.
warm: $(READY)
	$(call stage,compile the kernels,$(PYTHON) -m tests.warm)

# The last stage prints no line of its own: pytest's count and seconds stay last.
suite: $(READY)
	@printf '\n== %s\nleft out on purpose: the slow statistical suites, see make validate\n' '$(PARTS)'
	@$(ONE_THREAD) $(PYTHON) -m pytest -q -n $(WORKERS) $(wildcard $(PARTS:%=tests/%))

validate: warm
	@$(ONE_THREAD) $(PYTHON) -m pytest -q -n $(WORKERS) -m 'slow or not slow' --hypothesis-profile search \
	  $(wildcard tests/properties tests/validation)
	@$(ONE_THREAD) $(PYTHON) -m pytest -q -m slow tests/unit

browser: $(READY)
	@[ -d tests/browser ] || { echo 'There is no screen yet, so nothing to show in a browser.'; exit 0; }; \
	  $(PYTHON) -m pytest -q tests/browser

bench: $(READY)
	@$(PYTHON) -m benchmarks.shot
	@$(PYTHON) -m benchmarks.flight
	@$(PYTHON) -m benchmarks.drive

# --- what is generated

docs: warm
	@$(ONE_THREAD) $(PYTHON) -m pytest -q -n $(WORKERS) --records build/validation tests/validation
	@$(PYTHON) -m tests.documents.validation_table build/validation docs/validation.md
	@$(PYTHON) -m tests.documents.command_reference docs/cli.md
	@$(PYTHON) -m tests.documents.gun_file_tables docs/gun-file.md
	@$(PYTHON) -m tests.documents.visit_file_tables docs/visit-folder.md
	@$(PYTHON) -m tests.documents.typed_characters docs/visit-folder.md

lock:
	@UV_CUSTOM_COMPILE_COMMAND='make lock' $(UV) pip compile pyproject.toml --all-extras --generate-hashes --universal \
	  --python-version 3.11 --output-file requirements.lock --quiet
