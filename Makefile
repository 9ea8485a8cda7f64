PYTHON ?= python3
export PIP_DISABLE_PIP_VERSION_CHECK = 1

.PHONY: setup test
setup: .setup-stamp

.setup-stamp: requirements-dev.lock
	$(PYTHON) -m venv .venv
	.venv/bin/pip install --quiet --require-hashes --only-binary :all: --requirement requirements-dev.lock
	touch $@

test: setup
	.venv/bin/python -m pytest
