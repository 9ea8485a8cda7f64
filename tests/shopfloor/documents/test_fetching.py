"""A paper may use our own files only; anything else fails it, by name, and no connection is ever opened."""

import base64
import socketserver
import threading
from io import BytesIO

import pytest
from PIL import Image
from pypdf import PdfReader

from shopfloor.documents import files
from shopfloor.documents.rendering import PaperIncomplete, pdf_of

pytestmark = pytest.mark.django_db


def dot() -> bytes:
    drawn = BytesIO()
    Image.new("RGB", (2, 2), "red").save(drawn, "PNG")
    return drawn.getvalue()


def page(body: str, head: str = "") -> str:
    return f"<!doctype html><html lang=en><head><title>t</title>{head}</head><body>{body}</body></html>"


@pytest.fixture
def loopback():
    """A server on this machine; yields its port and the list of what reached it."""
    reached = []

    class Note(socketserver.BaseRequestHandler):
        def handle(self):
            reached.append(self.client_address)

    with socketserver.ThreadingTCPServer(("127.0.0.1", 0), Note) as server:
        threading.Thread(target=server.serve_forever, args=[0.01], daemon=True).start()
        yield server.server_address[1], reached
        server.shutdown()


PLACES = {
    "image": '<img alt="x" src="{}">',
    "stylesheet": '<link rel="stylesheet" href="{}">',
    "import": '<style>@import url("{}");</style>',
    "background": '<p style="background: url({})">x</p>',
    "font": '<style>@font-face {{ font-family: f; src: url("{}") }} p {{ font-family: f }}</style><p>x</p>',
    "attachment": '<a rel="attachment" href="{}">x</a>',
    "drawing": '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><image href="{}" width="9" height="9"/></svg>',
    "object": '<object data="{}"></object>',
    "embed": '<embed src="{}">',
}


@pytest.mark.parametrize("place", PLACES)
def test_no_place_of_a_page_reaches_the_file_system(place):
    with pytest.raises(PaperIncomplete, match="file:///etc/passwd, and a paper may only use files of its own"):
        pdf_of(page(PLACES[place].format("file:///etc/passwd")))


@pytest.mark.parametrize("place", PLACES)
def test_no_place_of_a_page_reaches_the_network(place, loopback):
    port, reached = loopback
    with pytest.raises(PaperIncomplete, match="a paper may only use files of its own"):
        pdf_of(page(PLACES[place].format(f"http://127.0.0.1:{port}/x.png")))
    assert reached == []


@pytest.mark.parametrize(
    "url",
    [
        "ftp://127.0.0.1/x.png",
        "FILE:///etc/passwd",
        "//127.0.0.1/x.png",
        "/etc/passwd",
        "data:text/html,x",
        "https://main-journal.invalid.evil.example/static/css/paper.css",
        "https://main-journal.invalid@127.0.0.1/static/css/paper.css",
        "/static/../shopfloor/settings.py",
        "/static/%2e%2e/shopfloor/settings.py",
        "/static//etc/passwd",
        "/static/css/none.css",
        "file-by-hash:../../etc/passwd",
        "file-by-hash:" + "0" * 64,
    ],
)
def test_other_addresses_are_refused(url):
    with pytest.raises(PaperIncomplete, match="The paper asks for"):
        pdf_of(page(PLACES["image"].format(url)))


def test_a_drawing_inside_a_stored_drawing_is_held_to_the_same_rule():
    inner = PLACES["drawing"].format("file:///etc/passwd").encode()
    file = files.store(inner, "image/svg+xml")
    with pytest.raises(PaperIncomplete, match="file:///etc/passwd"):
        pdf_of(page(PLACES["image"].format(f"file-by-hash:{file.sha256}")))


def test_what_cannot_be_shown_fails_the_paper_too():
    file = files.store(b"not a picture", "image/png")
    with pytest.raises(PaperIncomplete, match="Failed to load image"):
        pdf_of(page(PLACES["image"].format(f"file-by-hash:{file.sha256}")))


def test_an_altered_file_never_gets_onto_a_paper(settings):
    file = files.store(dot(), "image/png")
    shelf = settings.STORAGES["default"]["OPTIONS"]["location"] / file.sha256[:2] / file.sha256
    shelf.write_bytes(b"other")
    with pytest.raises(PaperIncomplete, match="has been altered"):
        pdf_of(page(PLACES["image"].format(f"file-by-hash:{file.sha256}")))


def test_our_own_files_are_served():
    file = files.store(dot(), "image/png")
    written = base64.b64encode(dot()).decode()
    body = PLACES["image"].format(f"file-by-hash:{file.sha256}") + PLACES["image"].format(f"data:image/png;base64,{written}")
    pdf = PdfReader(BytesIO(pdf_of(page(body))))
    assert len(pdf.pages[0].images) == 2
