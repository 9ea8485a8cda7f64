"""The small engine with work on it as a whole: numbered parts that go home, locks, and air in its cylinders. All invented."""

from dataclasses import replace
from functools import partial
from typing import Any

from engines.catalogue.data import ENGINE, Operation, PackData
from tests.making_packs import page, running_pack

LOCKS = [{"joint": "cylinder bolts", "method": "wire"}, {"joint": "case bolts", "method": "tab"}]
AIR = {
    "supply": "80",
    "unit": "psi",
    "orifice": "0.040 in",
    "condition": "hot",
    "below_master": "10",
    "leaks": {"the exhaust": "exhaust valve", "the breather": "rings"},
}
whole = partial(Operation, area=ENGINE, stage="close-up", source=page("8-1"))


def stepped_pack(air: dict[str, Any] | None = None, **changed: Any) -> PackData:
    """`changed` are fields of the keyed operation."""
    keyed = whole(code="home", kind="keyed-identity", title="Pistons go home", names=("piston",), hold_point=True)
    pack = running_pack()
    return replace(
        pack,
        operations=(
            *pack.operations,
            replace(keyed, **{"details": {"way_up": "the arrow to the front"}, **changed}),
            whole(code="locks", kind="sign-off", title="Locked", details={"locks": LOCKS}),
            whole(
                code="air",
                kind="compression",
                title="Compression",
                names=("cylinder",),
                details=air or AIR,
                finds="metal found",
            ),
            whole(code="look", kind="visual-finding", title="Filter opened", criterion="No metal.", finds="metal found"),
        ),
    )
