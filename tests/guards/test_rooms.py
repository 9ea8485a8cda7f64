"""The building stands: no arrow runs up, no surface writes, and each guard is shown to fail on a planted fault."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from tests.guards import arrows, writes
from tests.guards.rooms import FLOORS, ROOT, room_of, rooms


def plant(root: Path, name: str, text: str) -> Path:
    path = root / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    return root


def test_every_room_of_the_tree_has_its_place_in_the_order():
    unplaced = [
        path.parent.name
        for floor in FLOORS
        for path in (ROOT / floor).glob("*/__init__.py")
        if path.parent.name not in rooms() and path.parent.name != "setup"
    ]
    assert unplaced == []


def test_no_name_runs_up():
    assert arrows.faults(ROOT) == []


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("shopfloor/jobs/models.py", "x = models.ForeignKey('visits.Visit', on_delete=models.PROTECT)"),
        ("shopfloor/ledger/models.py", "x = models.ForeignKey(to='people.Person', on_delete=models.PROTECT)"),
        ("shopfloor/ledger/models.py", "x = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT)"),
        ("measurements/readings/queries.py", "apps.get_model('inspection', 'Taken')"),
        ("measurements/limits/migrations/0001_initial.py", "class Migration:\n    dependencies = [('readings', '0001_initial')]"),
        ("shopfloor/people/views.py", "redirect('benches:home')"),
        ("shopfloor/people/services.py", "reverse('documents-api:state')"),
        ("shopfloor/jobs/views.py", "render(request, 'readings/sheet.html')"),
        ("engines/parts/kinds.py", "DocumentKind(name='x', template='visits/paper.html')"),
        ("engines/papers/views.py", "redirect('benches:home')"),
        ("templates/people/sign_in.html", "{% url 'readings:sheets' %}"),
        ("templates/readings/sheet.html", "{% include 'benches/tag.html' %}"),
        ("templates/documents/paper.html", "{% extends \"papers/base.html\" %}"),
    ],
)  # fmt: skip
def test_an_arrow_that_runs_up_is_found(tmp_path, name, text):
    assert len(arrows.faults(plant(tmp_path, name, text))) == 1


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("engines/visits/models.py", "x = models.ForeignKey('people.Customer', on_delete=models.PROTECT)"),
        ("measurements/readings/views.py", "redirect('documents:document', pk=1)"),
        ("templates/benches/home.html", "{% include 'readings/strip.html' %}"),
        ("templates/base.html", "{% url 'benches:home' %}"),
        ("shopfloor/urls.py", "include('engines.benches.urls')"),
    ],
)
def test_an_arrow_that_runs_down_is_left_alone(tmp_path, name, text):
    assert arrows.faults(plant(tmp_path, name, text)) == []


def test_no_surface_writes():
    assert writes.faults(ROOT) == []


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("shopfloor/people/views.py", "def v(r):\n    Person.objects.create(name='x')"),
        ("shopfloor/people/views/accounts.py", "def v(r):\n    person.save()"),
        ("measurements/readings/api.py", "def v(r):\n    Sheet.objects.filter(pk=1).update(title='x')"),
        ("shopfloor/jobs/tasks.py", "def t():\n    cursor.execute('DELETE FROM jobs_job')"),
        ("engines/visits/views.py", "class F(forms.ModelForm):\n    pass"),
        ("engines/visits/api.py", "from rest_framework.serializers import ModelSerializer"),
        ("engines/visits/api.py", "class A(mixins.UpdateModelMixin):\n    pass"),
        ("engines/parts/models.py", "from django.contrib.admin import site"),
    ],
)
def test_a_write_on_the_surface_is_found(tmp_path, name, text):
    assert writes.faults(plant(tmp_path, name, text))


def test_a_service_may_write(tmp_path):
    assert writes.faults(plant(tmp_path, "shopfloor/people/services.py", "def s():\n    person.save()")) == []


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("shopfloor/ledger/planted.py", "import shopfloor.people"),
        ("shopfloor/people/planted.py", "import measurements.readings"),
        ("measurements/readings/planted.py", "import engines"),
        ("measurements/metrology/planted.py", "import django"),
        ("engines/catalogue/planted.py", "import engines.visits"),
        ("engines/papers/planted.py", "import engines.benches"),
    ],
)
def test_the_import_contracts_can_fail(tmp_path, name, text):
    for floor in FLOORS:
        shutil.copytree(ROOT / floor, tmp_path / floor, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    plant(tmp_path, name, text)
    outcome = subprocess.run(
        [Path(sys.executable).with_name("lint-imports"), "--no-cache"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert outcome.returncode == 1, outcome.stdout + outcome.stderr
    assert name.removesuffix(".py").replace("/", ".") in outcome.stdout


def test_rooms_are_known_by_folder():
    assert room_of(Path("templates/visits/board.html")) == rooms()["visits"]
    assert room_of(Path("shopfloor/headers.py")) is None
