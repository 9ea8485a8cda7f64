"""The faces come from their wheels, and nothing else of the wheels is offered."""

from pathlib import Path

import pytest
from django.contrib.staticfiles import finders
from django.core.management import call_command
from django.test import Client

from shopfloor import fonts

UNCOMPRESSED = "django.contrib.staticfiles.storage.ManifestStaticFilesStorage"  # under ours, which only adds compression


@pytest.mark.parametrize("face", fonts.FACES)
def test_a_face_is_served(face):
    answer = Client().get(f"/static/fonts/{face}")
    assert answer.status_code == 200
    assert b"".join(answer.streaming_content)[:4] == b"\x00\x01\x00\x00"  # the start of a TrueType file (OpenType specification)


def test_other_files_of_the_wheel_are_not_offered():
    assert finders.find("fonts/SourceSansPro-Black.otf") is None
    assert finders.find("fonts/LICENSE.txt") is None


def test_a_missing_face_is_an_error_that_names_it(monkeypatch):
    monkeypatch.setitem(fonts.FACES, "Gone.ttf", Path("/nowhere"))
    assert ["Gone.ttf" in error.msg for error in fonts.FontFinder().check()] == [True]


def test_collecting_for_a_shop_writes_hashed_names(settings, tmp_path):
    settings.STATIC_ROOT = tmp_path
    settings.STATICFILES_FINDERS = [name for name in settings.STATICFILES_FINDERS if "AppDirectories" not in name]
    settings.STORAGES = settings.STORAGES | {"staticfiles": {"BACKEND": UNCOMPRESSED}}
    call_command("collectstatic", interactive=False, verbosity=0)
    assert list((tmp_path / "fonts").glob("FjallaOne-Regular.*.ttf"))
    sheet = next((tmp_path / "css").glob("fonts.*.css")).read_text()
    assert "../fonts/FjallaOne-Regular.ttf" not in sheet
