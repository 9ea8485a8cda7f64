"""Kinds of step by the trade that does them, so that a manager grants a whole trade in one act. Each kind is decided alone."""

from collections.abc import Collection

from engines.steps.registry import STEPS, step_of

OTHER = "other work at operations"
TRADES: dict[str, tuple[str, ...]] = {
    "teardown and records": ("strip-and-tag", "photo", "accessory-fate", "sign-off"),
    "cleaning": ("cleaning",),
    "looking and measuring": ("visual-finding", "reading", "go-no-go", "fit-check", "compression"),
    "hand work at assembly": (
        "install-item",
        "renew-always",
        "not-repairable",
        "keyed-identity",
        "permitted-pairing",
        "hand-seated-joint",
        "torque-group",
        "stretch-group",
        "locking",
        "index-marks",
        "angular-separation",
        "adjust-and-select",
        "lubricate-or-seal",
        "heat-or-chill-fit",
        "closure-count",
    ),
    "crack tests": ("crack-test",),
    "outside work": ("outside-work",),
}


def trades() -> dict[str, tuple[str, ...]]:
    """Every kind of step that there is, in exactly one trade; one that no trade names is other work."""
    found = {trade: tuple(kind for kind in kinds if kind in STEPS) for trade, kinds in TRADES.items()}
    named = {kind for kinds in found.values() for kind in kinds}
    found[OTHER] = tuple(kind for kind in STEPS if kind not in named)
    return {trade: kinds for trade, kinds in found.items() if kinds}


def in_words(kinds: Collection[str]) -> list[str]:
    """A trade where all of it is named, else each kind by its own words."""
    said = []
    for trade, members in trades().items():
        whole = set(members) <= set(kinds)
        said += [trade] if whole else [step_of(kind).words for kind in members if kind in kinds]
    return said
