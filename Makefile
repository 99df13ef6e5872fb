# make demo: sets everything up and runs the main job. make test: the tests. make check: all that CI asks.
PYTHON ?= python3
PY := .venv/bin/python
# One more than there are cores: tests of the pages wait for a browser half of their time.
WORKERS ?= $(shell $(PYTHON) -c 'import os; print((os.cpu_count() or 1) + 1)')
UV := .venv/bin/uv pip install -q --compile-bytecode --python $(PY) -c constraints.txt

.PHONY: demo test check lint oracle bench approve docs pins pictures clean

demo: .venv/.ready
	@.venv/bin/standfast demo --out out/demo

test: .venv/.dev
	@.ci/needs
	$(PY) -m pytest -n $(WORKERS) --dist loadfile

check: lint test

lint: .venv/.dev
	.venv/bin/lint-imports
	.venv/bin/ruff check .
	.venv/bin/ruff format --check .
	.venv/bin/mypy

oracle: .venv/.dev
	STANDFAST_CASES=10000 $(PY) -m pytest -n auto --dist loadfile -m "oracle or not oracle"

bench: .venv/.dev
	$(PY) -m benchmarks $(ONLY)

approve: .venv/.dev
	STANDFAST_APPROVE=1 $(PY) -m pytest -n auto --dist loadfile tests/jobs tests/vectors tests/house/test_file_formats.py

docs: .venv/.dev
	$(PY) -m mkdocs build --strict --quiet
	@echo "written: out/site/index.html"

pictures: .venv/.dev
	$(PY) docs/make_pictures.py

pins: .venv/.ready
	.venv/bin/uv pip compile -q --universal --no-annotate --no-header --python-version 3.11 pyproject.toml --all-extras --group dev --upgrade -o constraints.txt

.venv/bin/uv:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || { echo "standfast needs python3 3.11 or later: install it, or name one with make PYTHON=…"; exit 1; }
	@$(PYTHON) -c 'import venv, ensurepip' 2>/dev/null || { echo "python3 has no venv here: install the system package python3-venv, then run make again."; exit 1; }
	$(PYTHON) -m venv .venv
	.venv/bin/pip install -q --disable-pip-version-check -c constraints.txt uv

.venv/.ready: pyproject.toml constraints.txt hatch_build.py web/package-lock.json | .venv/bin/uv
	$(UV) -e .
	$(PY) -m compileall -q src
	@touch $@

.venv/.dev: .venv/.ready
	$(UV) -e . --group dev
	@touch $@

clean:
	rm -rf .venv out
