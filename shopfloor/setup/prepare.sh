#!/bin/sh
# Leaves a .venv with the packages of one lock. What the machine itself lacks is installed from Debian when run as root;
# anybody else is told the one command to run, before anything is changed.
# Usage: prepare.sh product|tests      PYTHON: the Python to build on (3.11 or later)
set -eu
cd "$(dirname "$0")/../.."
kind=$1
python=${PYTHON:-python3}
case $kind in
    product) lock=requirements.lock ;;
    tests) lock=requirements-dev.lock ;;
    *) echo "usage: $0 product|tests" >&2; exit 2 ;;
esac

say() { echo "setup: $*" >&2; }

install_packages() { # one apt-get at a time, patient with a lock that another one holds
    say "installing from Debian: $*"
    apt-get -qq -o DPkg::Lock::Timeout=120 update &&
        DEBIAN_FRONTEND=noninteractive apt-get -qq -y -o DPkg::Lock::Timeout=120 install --no-install-recommends "$@" >/dev/null
}

check_python() {
    "$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' && return
    say "$python is not Python 3.11 or later. Install one, or name one: make setup PYTHON=/path/to/python3"
    exit 1
}

need() { # packages without which nothing goes on
    [ $# -eq 0 ] && return
    if ! command -v apt-get >/dev/null; then
        say "this machine lacks what Debian calls: $*. Install the like of it, then run this again."
        exit 1
    elif [ "$(id -u)" -eq 0 ]; then
        install_packages "$@" && [ -z "$("$python" shopfloor/setup/missing.py product)" ] && return
        say "still missing: $("$python" shopfloor/setup/missing.py product). Is $python Debian's own? See the lines above."
        exit 1
    fi
    say "something is missing, and nothing was changed. Run this, then try again:"
    echo "sudo apt-get install $*"
    exit 1
}

want() { # packages without which a part of the tests is left out
    if [ $# -gt 0 ] && [ "$(id -u)" -eq 0 ] && command -v apt-get >/dev/null; then
        install_packages "$@" || say "could not install $*."
    elif [ $# -gt 0 ]; then
        say "without $* the browser tests are left out (sudo apt-get install $*)."
    fi
}

sound() { # whether .venv can be built upon: whole, and of the Python asked for
    [ ! -e .venv/unfinished ] && .venv/bin/python -c 'import pip' 2>/dev/null &&
        [ "$(version .venv/bin/python)" = "$(version "$python")" ]
}

version() { "$1" -c 'import sys; print(sys.version_info[:2], sys.base_prefix)'; }

fill() { # the packages of the lock; a run that is cut short leaves the mark, and the next one begins afresh
    if ! sound; then
        rm -rf .venv
        "$python" -m venv .venv
    fi
    touch .venv/unfinished
    say "installing the packages of $lock (the first time takes a minute or two)"
    .venv/bin/python -m pip install -qq --disable-pip-version-check --no-input --retries 8 --timeout 30 \
        --require-hashes --only-binary :all: --requirement "$lock"
    [ "$kind" = product ] || stamp product requirements.lock # the lock for tests holds the other whole
    stamp "$kind" "$lock"
    rm .venv/unfinished
}

stamp() { sha256sum <"$2" >".venv/installed-$1"; }

stamped() { sound && [ "$(sha256sum <"$lock")" = "$(cat ".venv/installed-$kind" 2>/dev/null)" ]; }

[ -w "${HOME:-/nonexistent}" ] || export XDG_CACHE_HOME="$PWD/var/cache" # pip keeps its downloads there then
check_python
need $("$python" shopfloor/setup/missing.py product)
[ "$kind" != tests ] || want $("$python" shopfloor/setup/missing.py tests)
stamped || fill
