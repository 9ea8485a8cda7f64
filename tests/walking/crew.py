"""The shop of a walk: its persons, its wrenches and gauges, and its clock."""

from shopfloor.people.models import Person, Role
from shopfloor.people.permissions import Permission, may
from tests.making_gauges import calibrated, make_gauge
from tests.making_people import make_customer, make_person
from tests.making_releases import ReleasingShop
from tests.walking.route import walked_pack

GAUGES = (
    {"number": "W-1", "unit": "lbf·in", "range_min": "50", "range_max": "250"},
    {"number": "W-2", "unit": "lbf·in", "range_min": "50", "range_max": "100"},  # reaches none of the bolts
    {"number": "G-1", "unit": "in", "range_min": "2", "range_max": "5"},
)
COARSE = "0.0006"  # too close to call between the limits, now and then


class Crew(ReleasingShop):
    """Two mechanics, an apprentice who is not on the roster, two inspectors, a manager, a storekeeper, two customers."""

    def __init__(self) -> None:
        super().__init__(walked_pack())
        self.mechanic2, self.apprentice = self.hire(), make_person(Role.MECHANIC)
        self.keeper = make_person(Role.STOREKEEPER)
        self.customers_own = make_person(Role.CUSTOMER, customer=self.customer)
        self.stranger = make_person(Role.CUSTOMER, customer=make_customer())
        for fields in GAUGES:
            calibrated(make_gauge(self.keeper, resolution="0.0001", **fields), self.keeper, expanded_u=COARSE)
        make_gauge(self.keeper, number="W-3", unit="lbf·in", range_min="50", range_max="250")  # never calibrated
        self.everybody = {
            "mechanic": self.mechanic,
            "mechanic 2": self.mechanic2,
            "apprentice": self.apprentice,
            "inspector": self.inspector,
            "inspector 2": self.second,
            "manager": self.manager,
            "storekeeper": self.keeper,
            "customer": self.customers_own,
            "another customer": self.stranger,
        }
        self.named = {person.pk: name for name, person in self.everybody.items()}

    def who_may(self, permission: Permission) -> list[Person]:
        """But for the apprentice, who tries it now and then."""
        return [person for person in self.everybody.values() if may(person, permission) and person != self.apprentice]

    def person(self, pk: int) -> Person | None:
        return next((person for person in self.everybody.values() if person.pk == pk), None)
