"""What every template obeys: nothing inline, and every file that it asks for is there."""

import re

import pytest
from django.conf import settings
from django.contrib.staticfiles import finders

FOLDER = settings.BASE_DIR / "templates"
TEMPLATES = sorted(FOLDER.rglob("*.html"))
INLINE = re.compile(r"""\sstyle\s*=|<style\b|\son\w+\s*=|<script\b(?![^>]*\ssrc\s*=)|javascript:|\shx-on\b""", re.IGNORECASE)
STATIC = re.compile(r"""{%\s*static\s+['"]([^'"]+)['"]\s*%}""")
ASSET = re.compile(r"""url\("\.\./([^"]+)"\)""")


def test_templates_are_found():
    assert FOLDER / "base.html" in TEMPLATES


@pytest.mark.parametrize(
    "fault",
    [
        '<p style="color: red">',
        "<STYLE>p {}</STYLE>",
        "<a onclick=go()>",
        "<script>go()</script>",
        '<a href="javascript:go()">',
        '<p hx-on:click="go()">',
    ],
)
def test_a_planted_fault_is_found(fault):
    assert INLINE.search(fault)


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: str(path.relative_to(FOLDER)))
def test_nothing_is_inline(template):
    found = INLINE.search(template.read_text())
    assert not found, f"{template.name} holds “{found[0].strip()}”, which the content security policy refuses"


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: str(path.relative_to(FOLDER)))
def test_every_static_file_is_there(template):
    missing = [name for name in STATIC.findall(template.read_text()) if not finders.find(name)]
    assert missing == []


@pytest.mark.parametrize("sheet", sorted((settings.BASE_DIR / "static" / "css").glob("*.css")), ids=lambda path: path.stem)
def test_every_drawing_and_face_of_a_style_sheet_is_there(sheet):
    missing = [name for name in ASSET.findall(sheet.read_text()) if not finders.find(name)]
    assert missing == []
