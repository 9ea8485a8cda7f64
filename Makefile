PYTHON ?= python3
export PYTHON
.PHONY: setup setup-test demo test lock

setup: ## a .venv with what the product needs
	@shopfloor/setup/prepare.sh product

setup-test: ## the same, and what the tests need
	@shopfloor/setup/prepare.sh tests

demo: setup ## the product with invented data, on this computer only; make demo PORT=8001 for another port
	@.venv/bin/python manage.py migrate --verbosity 0
	@.venv/bin/python manage.py load_scenario
	@.venv/bin/python manage.py serve

test: setup-test ## the whole suite on SQLite
	@.venv/bin/python -m tests.suite

# Both locks anew from pyproject.toml. They name no registry, hold every platform, and the second one holds the first.
LOCK = uv pip compile --quiet --universal --fork-strategy fewest --generate-hashes --no-header --no-emit-index-url \
	--python-version 3.11 pyproject.toml
lock:
	$(LOCK) --output-file requirements.lock
	$(LOCK) --extra dev --constraint requirements.lock --output-file requirements-dev.lock
