"""A post is carried out once: retries, rivals, reused keys, refusals."""

import threading
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection, transaction
from django.http import HttpResponse
from django.shortcuts import redirect
from django.test import RequestFactory

from shopfloor.people.models import Customer, Person
from shopfloor.receipts.models import Receipt
from shopfloor.receipts.posts import HEADER, receipted


@receipted
def add_customer(request):
    with transaction.atomic():
        customer = Customer.objects.create(name=request.POST["name"])
    return redirect(f"/customers/{customer.pk}/")


@receipted
def half_done(request):
    Customer.objects.create(name=request.POST["name"])
    return HttpResponse("The name is not allowed.", status=422)


@pytest.fixture
def person(db):
    return Person.objects.create(username="mechanic1", name="mechanic 1")


def post(view, person, key, **fields):
    request = RequestFactory().post("/customers/", {**fields, "receipt_key": str(key)})
    request.user = person
    return view(request)


def test_a_retry_gets_the_same_answer_and_does_nothing_twice(person):
    key = uuid4()
    first, second = (post(add_customer, person, key, name="Lowfold Flying Club") for _ in range(2))
    assert (first.status_code, first["Location"]) == (second.status_code, second["Location"])
    assert Customer.objects.count() == Receipt.objects.count() == 1


def test_a_password_is_no_part_of_what_is_kept(person):
    """Otherwise the hash in the receipt would tell whoever reads the database whether a guess is right."""
    for password in ("right", "mistyped"):
        post(add_customer, person, "01a21364-3dc3-7376-891b-2b3866c9f427", name="Lowfold Flying Club", password=password)
    assert Customer.objects.count() == Receipt.objects.count() == 1


def test_the_answer_outlives_a_change_of_the_record(person):
    key = uuid4()
    first = post(add_customer, person, key, name="Lowfold Flying Club")
    Customer.objects.update(name="renamed")
    assert post(add_customer, person, key, name="Lowfold Flying Club")["Location"] == first["Location"]


def test_the_key_with_other_content_is_refused(person, client):
    key = uuid4()
    post(add_customer, person, key, name="Lowfold Flying Club")
    refused = post(add_customer, person, key, name="Estuary Survey Air")
    assert refused.status_code == 409
    assert b"already sent" in refused.content
    assert Customer.objects.count() == 1


def test_the_key_of_another_person_is_refused(person):
    key = uuid4()
    post(add_customer, person, key, name="Lowfold Flying Club")
    other = Person.objects.create(username="mechanic2", name="mechanic 2")
    assert post(add_customer, other, key, name="Lowfold Flying Club").status_code == 409


def test_other_files_are_other_content(person):
    key = uuid4()
    for data, status in ((b"one", 302), (b"two", 409)):
        file = SimpleUploadedFile("photo.png", data)
        assert post(add_customer, person, key, name="Lowfold Flying Club", photo=file).status_code == status


@pytest.mark.parametrize("key", ["", "not-a-key", "1234"])
def test_a_post_without_a_usable_key_is_told_what_to_send(person, key):
    refused = post(add_customer, person, key, name="Lowfold Flying Club")
    assert refused.status_code == 400
    assert HEADER in refused.content.decode()
    assert not Customer.objects.exists()


def test_a_refusal_keeps_neither_the_half_done_act_nor_a_receipt(person):
    key = uuid4()
    assert post(half_done, person, key, name="Lowfold Flying Club").status_code == 422
    assert not Customer.objects.exists()
    assert not Receipt.objects.exists()
    assert post(add_customer, person, key, name="Lowfold Flying Club").status_code == 302


@pytest.mark.django_db(transaction=True)
def test_twenty_equal_posts_at_once_make_one_record():
    person = Person.objects.create(username="mechanic1", name="mechanic 1")
    key, answers, start = uuid4(), [], threading.Barrier(20)

    def send():
        start.wait()
        answers.append(post(add_customer, person, key, name="Lowfold Flying Club")["Location"])
        connection.close()

    threads = [threading.Thread(target=send) for _ in range(20)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert len(answers) == 20
    assert len(set(answers)) == 1
    assert Customer.objects.count() == Receipt.objects.count() == 1
