"""Ten engines, each at another point of its way, areas apart; one has left. All invented."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.db import transaction
from django.utils import timezone

from engines.inspection.models import Discrepancy
from engines.inspection.services.asking import Asked
from engines.inspection.standing import Kind
from engines.scenario.chapters.packs import in_force
from engines.scenario.saying import Say
from engines.scenario.telling.crew import ALL, Crew
from engines.traveler.services import open_visit
from engines.visits.models import Visit
from shopfloor.people.models import Customer, Person

LOWFOLD, ESTUARY = "Lowfold Flying Club", "Estuary Survey Air"


@dataclass(frozen=True)
class Told:
    serial: str
    model: str
    customer: str
    reasons: tuple[str, ...]
    days_ago: int
    promised_in: int | None
    bench: str
    since_new: str
    since_overhaul: str
    tell: Callable[[Crew], None]
    odd: dict[tuple[str, str], str] | None = None


def _just_received(crew: Crew) -> None:
    crew.work_on("case", but=1)


def _being_cleaned(crew: Crew) -> None:
    crew.bring("teardown", *ALL)
    crew.bring("cleaning", "case", "cylinders", "gears", "accessories")
    crew.bring("inspection", "accessories")
    crew.move_to("accessories", "accessory room")


def _half_assembled(crew: Crew) -> None:
    """The case is closed, the gear train lies on its marks, accessories are still looked at; one hold-down was broken off."""
    crew.bring("cleaning", *ALL)
    crew.bring("assembly", "case", "crank", "cylinders", "gears")
    crew.assemble(until=("gears-install-case", "cylinders-hold-down-3"))
    crew.break_off("cylinders-hold-down-3", after=5)


def _cylinders_in_question(crew: Crew) -> None:
    """One part outside limits, one too close to call, one conceded with the second signature missing."""
    crew.bring("inspection", *ALL)
    crew.work_on("cylinders")
    crew.move_to("cylinders", "cylinder bench")
    conceded = Discrepancy.objects.get(visit=crew.visit, row="guide-exhaust")
    words = "Worn by six thousandths of a millimetre more: watch the oil use, renew the guide within 500 hours."
    crew.decide(conceded, Kind.CONCESSION, words, seconded=False)


def _after_a_strike(crew: Crew) -> None:
    crew.bring("inspection", *ALL)
    crew.raise_in_words("crank", "crankshaft", "crankshaft", "A mark beside a flange hole, 3 mm long, seen in daylight.")


def _in_repair(crew: Crew) -> None:
    crew.bring("inspection", *ALL)
    for _ in range(2):
        for area in ALL:
            crew.work_on(area)
    crew.decide_all("crank", Kind.REWORK, "Grind to the next undersize and read again.")
    crew.bring("repair", "crank", "case")
    worn = Discrepancy.objects.get(visit=crew.visit, row="main-journal")
    words = "The second main journal is worn below its limit. Grinding all of them lets the crankshaft stay in your engine."
    crew.ask(worn, Asked(Kind.REWORK, words, "1 Set of undersize main inserts", "6", "1480.00", "USD"))


def _on_the_stand(crew: Crew) -> None:
    crew.close_up()
    crew.move_to("engine", "stand")
    crew.run("pre-oil", "warm")


def _back_from_a_failed_run(crew: Crew) -> None:
    crew.close_up()
    crew.move_to("engine", "stand")
    crew.run(odd={"speed on right magneto": "1640"}).end()


def _released(crew: Crew) -> None:
    crew.close_up()
    crew.run().end()
    crew.release(
        "Disassembled, cleaned, inspected, repaired as needed, reassembled and tested by the engine data of this visit.",
        "Oil and filter to be changed after the first 25 hours.",
    )


def _radial_in_inspection(crew: Crew) -> None:
    crew.bring("inspection", *ALL)
    crew.work_on("crank", but=1)


ENGINES = (
    Told("F6-1188", "F6-240", LOWFOLD, ("time",), 1, 60, "receiving", "4102.5", "1987.0", _just_received),
    Told("F4-0307", "F4-130", LOWFOLD, ("time",), 5, 45, "bench 2", "2210.0", "", _being_cleaned),
    Told("F6-0951", "F6-240", ESTUARY, ("overheat",), 33, 10, "bench 1", "3120.4", "1120.4", _half_assembled),
    Told(
        "F4-0412",
        "F4-130",
        ESTUARY,
        ("time", "metal found"),
        14,
        20,
        "bench 3",
        "5400.0",
        "2004.5",
        _cylinders_in_question,
        {
            ("stem-exhaust", "cylinder 3"): "10.950",
            ("piston-pin", "cylinder 4"): "23.983",
            ("guide-exhaust", "cylinder 1"): "11.146",
        },
    ),
    Told("F6-1020", "F6-240", ESTUARY, ("propeller strike",), 12, 25, "bench 4", "1850.0", "850.0", _after_a_strike),
    Told(
        "F4-0288",
        "F4-130",
        LOWFOLD,
        ("time",),
        25,
        -2,
        "bench 5",
        "4012.0",
        "2012.0",
        _in_repair,
        {("main-journal", "main 2"): "51.960"},
    ),
    Told("F4-0233", "F4-130", ESTUARY, ("time",), 39, 3, "bench 6", "3900.0", "1998.0", _on_the_stand),
    Told("F4-0266", "F4-130", LOWFOLD, ("overheat",), 41, -4, "bench 7", "2750.0", "750.0", _back_from_a_failed_run),
    Told("F4-0150", "F4-130", LOWFOLD, ("time",), 43, -9, "bench 8", "8200.0", "2010.0", _released),
    Told("R5-0044", "R5-110", LOWFOLD, ("time",), 18, None, "round bench", "", "1400.0", _radial_in_inspection),
)


def tell(at: datetime, say: Say) -> None:
    for told in ENGINES:
        if not Visit.objects.filter(engine__item__serial=told.serial).exists():
            say(f"  engine {told.serial}, {told.model}, for {told.customer}")
            _tell(told, at)


@transaction.atomic
def _tell(told: Told, at: datetime) -> None:
    begun = at - timedelta(days=told.days_ago)
    visit = open_visit(
        pack=in_force(told.model),
        serial=told.serial,
        customer=Customer.objects.get(name=told.customer),
        scope="overhaul",
        reasons=told.reasons,
        hours_since_new=told.since_new,
        hours_since_overhaul=told.since_overhaul,
        promised_on=None if told.promised_in is None else timezone.localdate(at) + timedelta(days=told.promised_in),
        bench=told.bench,
        notes={
            "came with it": [("Baffles and engine mount", "")],
            "record": [("Engine logbook", "")],
            "missing": [("Breather hose", "")],
        },
        by=Person.objects.get(username="mechanic1"),
        at=begun,
    )
    told.tell(Crew(visit, begun, at, told.odd))
