import os

import pytest
from django.db import transaction

from tests.making_readings import ledger_faults
from tests.walking.crew import Crew
from tests.walking.walk import Walk
from tests.walking.watch import Watch

pytestmark = [pytest.mark.django_db, pytest.mark.sqlite]


@pytest.mark.parametrize("seed", range(int(os.environ.get("WALK_FROM", "1")), int(os.environ.get("WALK_TO", "3"))))
def test_walk(seed):
    crew, watch = Crew(), Watch()
    with transaction.atomic(), watch.standing():
        walk = Walk(crew, watch, seed)
        walk.go(400)
        print(walk.done, walk.refused, walk.sent_away, walk.visit.number, walk.stages)
        assert ledger_faults() == []
