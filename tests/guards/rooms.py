"""The rooms and their order, as the import contracts in pyproject.toml state it."""

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FLOORS = ("engines", "measurements", "shopfloor")


@dataclass(frozen=True)
class Room:
    name: str
    floor: int
    layer: int

    def may_name(self, other: "Room") -> bool:
        return self == other or (other.floor, other.layer) > (self.floor, self.layer)


@cache
def rooms() -> dict[str, Room]:
    """Every room by its label; a greater floor or layer lies lower."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]["contracts"]
    found = {}
    for contract in contracts:
        for layer, line in enumerate(contract.get("layers", [])):
            for module in line.split("|"):
                floor, _, name = module.strip().partition(".")
                if name:
                    found[name] = Room(name, FLOORS.index(floor), layer)
    return found


def room_of(path: Path) -> Room | None:
    """The room that a file of the tree belongs to, by its folder: engines/visits/views.py, templates/visits/board.html."""
    for part in path.parts[:-1]:
        if part in rooms():
            return rooms()[part]
    return rooms().get(path.stem)
