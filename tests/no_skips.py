"""`pytest -p tests.no_skips`: a skipped test counts as a failure, because something was left undone."""

import pytest


def pytest_sessionfinish(session, exitstatus):
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")  # only the main process has one
    skipped = reporter.stats.get("skipped", []) if reporter else []
    if skipped and session.exitstatus in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter):
    for report in terminalreporter.stats.get("skipped", []):
        terminalreporter.write_line(f"A skip is a failure here: {report.nodeid}")
