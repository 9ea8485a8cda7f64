#!/usr/bin/env python3
"""Main Journal's command line."""

import os
import sys


def main() -> None:
    if sys.argv[1:2] == ["judge"]:  # before any setting is read: it needs no environment and no database
        from measurements.judge import main as judge

        sys.exit(judge(sys.argv[2:]))
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "shopfloor.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()
