"""A traveler as long as asked, over three areas, half of it signed: every operation waits for the one before. All invented."""

from django.urls import reverse
from django.utils import timezone
from uuid_utils.compat import uuid7

from engines.catalogue.data import ENGINE, Area, Operation, PackData
from engines.traveler.models import Operation as Planned
from engines.traveler.services import reopen
from engines.visits.models import Visit
from tests.making_joints import TORQUE
from tests.making_packs import page, small_pack
from tests.making_people import PASSWORD
from tests.making_visits import Shop

KINDS = ("sign-off", "torque-group", "visual-finding", "strip-and-tag", "reading", "sign-off", "hand-seated-joint", "sign-off")
NAMES = {"strip-and-tag": ("crankshaft",), "reading": ("crank-main",)}
DETAILS = {"torque-group": TORQUE, "hand-seated-joint": {"joint": "case halves"}}
IN_CASE = 0.8


def long_pack(operations: int) -> PackData:
    """Four fifths of them in the case, in receiving; the rest on the other areas. The data cite a page for each."""
    small = small_pack()
    in_case, in_others = int(operations * IN_CASE), operations - int(operations * IN_CASE)
    every = [_operation(number, "case", "receiving", number) for number in range(in_case)]
    for number in range(in_others):
        area, stage = (("cylinders", "receiving"), (ENGINE, "close-up"))[number % 2]
        every.append(_operation(in_case + number, area, stage, 0))
    whole = Area(code=ENGINE, name="Whole engine", source=page("1-1"))
    return small_pack(revision=str(operations), areas=(*small.areas, whole), operations=tuple(every), cautions=())


def _operation(number: int, area: str, stage: str, place: int) -> Operation:
    kind = KINDS[place % len(KINDS)]
    return Operation(
        code=f"work-{number}",
        area=area,
        stage=stage,
        kind=kind,
        title=f"Work {number} on the {area}",
        words="As the page says, in its order.",
        names=NAMES.get(kind, ()),
        after=(f"work-{number - 1}",) if place else (),
        hold_point=number % 10 == 9,
        criterion="No nick." if kind == "visual-finding" else "",
        details=DETAILS.get(kind, {}),
        source=page(f"3-{number}"),
    )


class LongTraveler:
    """Its case is signed and accepted up to the middle, past the services for speed; `open_one` can be signed now."""

    def __init__(self, operations: int) -> None:
        self.shop = Shop(long_pack(operations))
        self.visit: Visit = self.shop.receive()
        self.middle = int(operations * IN_CASE) // 2 // len(KINDS) * len(KINDS)
        done = Planned.objects.filter(area__visit=self.visit, order__lte=self.middle)
        signed = {"signed_by": self.shop.mechanic, "signed_at": self.shop.now}
        done.update(**signed)
        done.filter(hold_point=True).update(accepted_by=self.shop.inspector, accepted_at=self.shop.now)
        self.open_one = f"work-{self.middle}"

    @property
    def area_page(self) -> str:
        return reverse("benches:area", args=[self.shop.area(self.visit, "case").pk])

    @property
    def operation_page(self) -> str:
        return reverse("benches:operation", args=[self.shop.operation(self.visit, self.open_one).pk])

    def signing(self) -> tuple[str, dict[str, str]]:
        """The address and the fields of the form that signs the open operation."""
        key = {"receipt_key": str(uuid7()), "password": PASSWORD, "seen": self.shop.seen(self.visit, self.open_one)}
        return reverse("benches:sign", args=[self.shop.operation(self.visit, self.open_one).pk]), key

    def open_again(self) -> None:
        """For another signature."""
        shown = self.shop.operation(self.visit, self.open_one)
        reopen(operation=shown, reason="signed once more", by=self.shop.inspector, at=timezone.now())
