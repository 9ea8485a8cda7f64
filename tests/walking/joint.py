"""How a joint stands, replayed fastener by fastener from its bare entries."""

from datetime import datetime, timedelta
from decimal import Decimal
from typing import NamedTuple

from tests.walking.planned import Told
from tests.walking.route import HIGH, LOW, ORDER

WITHIN = timedelta(minutes=30)


class Joint(NamedTuple):
    """Whose try it is, its fasteners done, when the last was turned. A dead one is begun again."""

    hand: int = 0
    ready: bool = False
    done: tuple[str, ...] = ()
    turned_at: datetime | None = None
    dead: bool = False

    @property
    def is_complete(self) -> bool:
        return not self.dead and len(self.done) == len(ORDER)

    def goes_on(self, hand: int, at: datetime) -> bool:
        late = self.turned_at is not None and at - self.turned_at > WITHIN
        return self.is_complete or (hand == self.hand and not late)

    def turned(self, fastener: str, torque: Decimal, at: datetime) -> "Joint":
        now = self._replace(turned_at=at)
        in_order = self.ready and not self.is_complete and fastener == ORDER[len(self.done)]
        if not in_order or torque > Decimal(HIGH):
            return now._replace(dead=True)
        return now._replace(done=(*self.done, fastener)) if torque >= Decimal(LOW) else now


def joint_of(told: list[Told]) -> Joint:
    joint = Joint(dead=True)
    for entry in told:
        if not joint.dead and not joint.goes_on(entry.hand, entry.at):
            joint = joint._replace(dead=True)
        if entry.content.get("void") and not entry.content["pass"]:
            joint = joint._replace(dead=True)
        else:
            joint = _after(Joint(entry.hand) if joint.dead else joint, entry)
    return joint


def _after(joint: Joint, entry: Told) -> Joint:
    if not entry.content["fastener"]:
        return joint._replace(ready=True, dead=joint.ready)
    return joint.turned(entry.content["fastener"], Decimal(entry.content["torque"]), entry.at)
