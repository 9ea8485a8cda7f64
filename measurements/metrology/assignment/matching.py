"""Which places can be filled at once, and, where they cannot, the few places that too few parts fit."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import maximum_bipartite_matching

from measurements.metrology.checked import Checked
from measurements.metrology.errors import MixedDimensions, NothingGiven

Allowed = Sequence[Sequence[bool]]


@dataclass(frozen=True)
class Shortage(Checked):
    """Why no assignment exists: these places, by index, are fitted by no more than these parts, which are fewer."""

    places: tuple[int, ...]
    parts: tuple[int, ...]


def matching(allowed: Allowed) -> tuple[int, ...] | None:
    """A part for every place, by index, where all can be filled at once; None where they cannot.

    Units: none. Shape: places by parts, all rows of one length. Raises: NothingGiven, MixedDimensions. Source: maximum matching
    (Hopcroft and Karp, 1973), by SciPy; it only looks at which pairs are allowed, never at a figure.
    """
    found = _most(allowed)
    return None if -1 in found else found


def shortage(allowed: Allowed) -> Shortage | None:
    """A set of places with too few parts, such that leaving out any one of them it would do; None when all can be filled.

    Units: none. Shape: places by parts, all rows of one length. Raises: as `matching`. Source: Hall's theorem, 1935.
    """
    found = _most(allowed)
    if -1 not in found:
        return None
    owner = {part: place for place, part in enumerate(found) if part >= 0}
    places, waiting = {found.index(-1)}, [found.index(-1)]
    while waiting:
        for part in _parts(allowed, [waiting.pop()]):
            if owner[part] not in places:  # an unowned part would have made the matching larger
                places.add(owner[part])
                waiting.append(owner[part])
    kept = sorted(places)
    return Shortage(tuple(kept), tuple(sorted(_parts(allowed, kept))))


def _most(allowed: Allowed) -> tuple[int, ...]:
    if not allowed or not allowed[0]:
        raise NothingGiven("No figure was given: there must be a place and a part.")
    if len({len(row) for row in allowed}) > 1:
        raise MixedDimensions("Every place needs one answer for each part.")
    graph = csr_matrix(np.array(allowed, dtype=np.int8))
    return tuple(int(part) for part in maximum_bipartite_matching(graph, perm_type="column"))


def _parts(allowed: Allowed, places: Sequence[int]) -> set[int]:
    return {part for place in places for part, may in enumerate(allowed[place]) if may}
