"""What was found when a run ended, as plain texts that stay with it for ever."""

import hashlib
from typing import Any

from engines.testbench.quantities import figure_text
from engines.testbench.standing import Line, Standing
from shopfloor.ledger.canonical import canonical


def findings(standing: Standing) -> dict[str, Any]:
    """Every step with its minutes, lines and answers, the derived figures with what they rest on, what was outside."""
    steps = [
        {
            "step": step.code,
            "title": step.title,
            "minutes": figure_text(standing.minutes_at(step), 2),
            "least": step.minutes,
            "lines": [_line(line) for line in standing.lines_at(step.code)],
            "answers": {
                check.words: {True: "yes", False: "no", None: "none"}[standing.answer_to(check)]
                for check in standing.schedule.checks_at(step.code)
            },
            "derived": _derived(standing, step.code),
        }
        for step in standing.schedule.steps
    ]
    whole = {"lines": [_line(line) for line in standing.lines_at("")], "derived": _derived(standing, "")}
    told = {"outside": standing.outside, "missing": standing.missing, "beyond": standing.beyond, "warnings": standing.warnings}
    return {"steps": steps, "whole run": whole, **told}


def findings_text(standing: Standing) -> str:
    return canonical(findings(standing)).decode()


def sha256_of(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()


def _line(line: Line) -> dict[str, str]:
    return {
        "what": str(line.spot),
        "read": line.value,
        "limit": line.limit_words,
        "source": str(line.limit.source) if line.limit else "",
        "verdict": line.verdict,
        "why": line.why,
    }


def _derived(standing: Standing, step: str) -> list[dict[str, Any]]:
    figures, _ = standing.derived_at(step)
    return [
        {"what": each.channel, "value": f"{figure_text(each.value)} {each.unit}", "facts": dict(each.facts)}
        for each in figures.values()
    ]
