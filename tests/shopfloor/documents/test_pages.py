"""What a person sees of a document, and a program; not visible is not found."""

from pathlib import Path

import pytest
from django.core.files.storage import default_storage
from django.urls import reverse

from shopfloor.documents import services
from shopfloor.jobs import services as jobs
from tests.shopfloor.documents.conftest import NOON

PAGES = ["documents:document", "documents:progress", "documents:download", "documents-api:state", "documents-api:download"]


def at(name, paper):
    return reverse(name, args=[paper.pk])


def fail(paper, reason="No ink."):
    jobs.fail(job=jobs.claim(job_id=paper.job_id, at=NOON), reason=reason, at=NOON)


@pytest.mark.parametrize("name", PAGES)
def test_what_a_person_may_not_see_is_not_found(client, made, outsider, name):
    client.force_login(outsider)
    assert client.get(at(name, made)).status_code == 404


@pytest.mark.parametrize("name", PAGES)
def test_a_reader_who_did_not_ask_may_read(client, made, inspector, name):
    client.force_login(inspector)
    assert client.get(at(name, made)).status_code == 200


@pytest.mark.parametrize("name", PAGES)
def test_a_paper_that_never_was_is_not_found(client, mechanic, name):
    client.force_login(mechanic)
    assert client.get(reverse(name, args=["01a21364-3dc3-7376-891b-2b3866c9f427"])).status_code == 404


def test_a_waiting_paper_polls_its_progress(client, paper, mechanic):
    client.force_login(mechanic)
    text = client.get(at("documents:document", paper)).content.decode()
    assert "Waiting for a worker." in text
    assert f'hx-get="{at("documents:progress", paper)}"' in text
    assert "Download" not in text


def test_the_progress_is_sent_again_only_when_it_moved(client, paper, mechanic):
    client.force_login(mechanic)
    first = client.get(at("documents:progress", paper))
    same = client.get(at("documents:progress", paper), headers={"If-None-Match": first["ETag"]})
    job = jobs.claim(job_id=paper.job_id, at=NOON)
    moved = client.get(at("documents:progress", paper), headers={"If-None-Match": first["ETag"]})
    jobs.note_progress(job=job, done=1, total=3)
    further = client.get(at("documents:progress", paper), headers={"If-None-Match": moved["ETag"]})
    assert [answer.status_code for answer in (first, same, moved, further)] == [200, 304, 200, 200]
    assert same.content == b""
    assert "Setting the pages." in further.content.decode()


def test_a_made_paper_shows_its_hash_and_stops_polling(client, made, mechanic):
    client.force_login(mechanic)
    text = client.get(at("documents:progress", made)).content.decode()
    assert made.file.sha256 in text
    assert at("documents:download", made) in text
    assert "hx-get" not in text


def test_a_failure_shows_its_reason_and_the_asker_may_try_again(client, paper, mechanic):
    fail(paper)
    client.force_login(mechanic)
    text = client.get(at("documents:document", paper)).content.decode()
    assert "No ink." in text
    assert at("documents:again", paper) in text
    assert client.post(at("documents:again", paper)).status_code == 302
    paper.job.refresh_from_db()
    assert paper.job.state == "waiting"


def test_a_reader_who_did_not_ask_is_refused_and_shown_no_button(client, paper, inspector):
    fail(paper)
    client.force_login(inspector)
    assert at("documents:again", paper) not in client.get(at("documents:document", paper)).content.decode()
    assert client.post(at("documents:again", paper)).status_code == 403


def test_trying_again_what_has_not_failed_is_a_conflict(client, made, mechanic):
    client.force_login(mechanic)
    answer = client.post(at("documents:again", made))
    assert answer.status_code == 409
    assert "This has not failed" in answer.content.decode()


@pytest.mark.parametrize("name", ["documents:download", "documents-api:download"])
def test_the_download_is_the_sealed_file(client, made, mechanic, name):
    client.force_login(mechanic)
    answer = client.get(at(name, made))
    assert b"".join(answer.streaming_content).startswith(b"%PDF-")
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"] == 'attachment; filename="bench-note-7.pdf"'
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert answer["ETag"] == f'"{made.file.sha256}"'
    assert client.get(at(name, made), headers={"If-None-Match": answer["ETag"]}).status_code == 304


@pytest.mark.parametrize("name", ["documents:download", "documents-api:download"])
def test_there_is_no_download_before_the_paper_is_made(client, paper, mechanic, name):
    client.force_login(mechanic)
    assert client.get(at(name, paper)).status_code == 404


@pytest.mark.parametrize("name", ["documents:download", "documents-api:download"])
def test_an_altered_file_is_not_sent_and_is_logged(client, made, mechanic, caplog, name):
    Path(default_storage.path(f"{made.file.sha256[:2]}/{made.file.sha256}")).write_bytes(b"%PDF-forged")
    client.force_login(mechanic)
    answer = client.get(at(name, made))
    assert answer.status_code == 500
    assert "Do not use any copy of it" in answer.content.decode()
    assert b"forged" not in answer.content
    assert str(made.pk) in caplog.text


def test_the_list_shows_the_newest_first_and_only_what_the_person_may_see(client, made, mechanic, outsider):
    services.request_document(kind="bench-note", subject="nine", by=mechanic, at=NOON.replace(hour=13))
    client.force_login(mechanic)
    text = client.get(reverse("documents:documents")).content.decode()
    assert 0 < text.index("nine") < text.index(at("documents:document", made))
    client.force_login(outsider)
    assert "Bench note" not in client.get(reverse("documents:documents")).content.decode()


def test_a_longer_list_takes_no_more_queries(client, mechanic, django_assert_num_queries):
    client.force_login(mechanic)
    client.get(reverse("documents:documents"))
    for subject in range(5):
        services.request_document(kind="bench-note", subject=str(subject), by=mechanic, at=NOON)
    with django_assert_num_queries(5):  # session, person, roles, how many, papers
        client.get(reverse("documents:documents"))


def test_a_program_reads_the_state(client, made, mechanic):
    client.force_login(mechanic)
    state = client.get(at("documents-api:state", made)).json()
    assert (state["state"], state["sha256"], state["size"]) == ("done", made.file.sha256, made.file.size)
    assert (state["title"], state["reason"], state["attempt"]) == ("Bench note", "", 1)


def test_a_program_reads_a_failure(client, paper, mechanic):
    fail(paper)
    client.force_login(mechanic)
    state = client.get(at("documents-api:state", paper)).json()
    assert (state["state"], state["reason"], state["sha256"], state["rendered_at"]) == ("failed", "No ink.", None, None)
