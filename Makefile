# bermwright: what a person types. Every goal makes .venv when it is missing.
#
#   make demo      check the example house and make its site book
#   make open      open a copy of the example in the workbench (FILE=... for another house)
#   make test      everything the program promises, as tests
#   make check     style, types, layers
#   make mutate    does the evidence notice a wrong coefficient?
#   make bench     how fast it is, against what it is compared with
#   make docs      write the generated reference again
#   make pictures  make the pictures of the README again (needs pdftoppm)
#   make clean     remove what can be made again

PYTHON ?= $(shell for p in python3.11 python3.12 python3.13 python3; do \
	command -v $$p >/dev/null 2>&1 && $$p -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null \
	&& { echo $$p; break; }; done)
RUN := .venv/bin/python
SAY := @printf '==> %s\n'
EXAMPLE := examples/larch-bank.toml
SECOND := examples/kettle-hill.toml

.DEFAULT_GOAL := help
.PHONY: help demo open test check mutate bench docs pictures clean

help:
	@sed -n 's/^#   //p' Makefile

# The stamp is newer than the lock and the project file, or the environment is made again.
.venv/ready: constraints.txt pyproject.toml
	@test -n "$(PYTHON)" || { echo 'bermwright needs Python 3.11 or newer; none was found. Try PYTHON=/path/to/python3.11 make ...'; exit 1; }
	$(SAY) "Making .venv with $(PYTHON) from constraints.txt (once; about half a minute)"
	@if command -v uv >/dev/null 2>&1 && uv --version >/dev/null 2>&1; then \
		{ test -x $(RUN) || uv venv --quiet --seed --python "$$(command -v $(PYTHON))" .venv; } && \
		uv pip install --quiet --python $(RUN) -c constraints.txt -e '.[test]'; \
	else \
		{ test -x $(RUN) || $(PYTHON) -m venv .venv; } && \
		$(RUN) -m pip install --quiet --disable-pip-version-check -c constraints.txt -e '.[test]'; \
	fi
	@touch .venv/ready
	$(SAY) "Ready"

demo: .venv/ready
	@mkdir -p out
	$(SAY) "Checking $(EXAMPLE): a low vault on walls (the first run of all prepares fast kernels, once)"
	@$(RUN) -m bermwright check $(EXAMPLE)
	$(SAY) "Making its site book"
	@$(RUN) -m bermwright book $(EXAMPLE) --out out/larch-bank-book.pdf
	$(SAY) "The book: $(CURDIR)/out/larch-bank-book.pdf"
	$(SAY) "The second example, $(SECOND), does not hold, and is there to teach why:"
	@echo '    a tall catenary carries itself without bending, but not the earth that is heaped round it.'
	@echo '    See which stage fails first:  $(RUN) -m bermwright check $(SECOND)'

open: .venv/ready
	@mkdir -p out
	@test -n "$(FILE)" || test -e out/larch-bank.toml || cp $(EXAMPLE) out/larch-bank.toml
	@$(RUN) -m bermwright open $(or $(FILE),out/larch-bank.toml)

test: .venv/ready
	$(SAY) "Style, types and layers first, then every test (some minutes)"
	@$(MAKE) --no-print-directory check
	@$(RUN) -m pytest -n auto --dist loadfile --no-loadscope-reorder

check: .venv/ready
	$(SAY) "ruff"
	@$(RUN) -m ruff format --check --quiet .
	@$(RUN) -m ruff check .
	$(SAY) "mypy"
	@$(RUN) -m mypy
	$(SAY) "import-linter"
	@.venv/bin/lint-imports

mutate: .venv/ready
	$(SAY) "Planting wrong coefficients in the handbook; the evidence must notice (up to ten minutes)"
	@$(RUN) tools/mutate.py

bench: .venv/ready
	$(SAY) "Measuring (close other programs; the figures depend on the machine)"
	@$(RUN) bench/frames.py
	@$(RUN) bench/check.py
	@$(RUN) bench/shape.py
	@$(RUN) bench/mend.py
	@$(RUN) bench/cutting.py
	@$(RUN) bench/making.py
	@$(RUN) bench/drag.py
	@$(RUN) bench/heat.py
	@$(RUN) bench/winter.py

docs: .venv/ready
	$(SAY) "Writing docs/reference again"
	@$(RUN) tools/make_docs.py

pictures: .venv/ready
	$(SAY) "Making the pictures of the README again"
	@$(RUN) tools/make_pictures.py

clean:
	rm -rf .venv out dist build .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
