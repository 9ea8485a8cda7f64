"""The customer is asked about more work: it waits, a refusal undoes the decision, and nothing that they say makes a part good.

The rules are the shop's own (common practice, no source).
"""

import threading

import pytest
from django.db import connections

from engines.inspection import queries
from engines.inspection.ends import is_open, last_decision
from engines.inspection.errors import (
    AnsweredAlready,
    AskedAlready,
    AwaitsAnswer,
    CustomerRefused,
    FieldRefused,
    NothingToAsk,
    NotOffered,
    NotYours,
)
from engines.inspection.facts import inspection_of
from engines.inspection.models import Answer, Discrepancy, Said, WorkAsked
from engines.inspection.services import (
    answer,
    carry_out,
    decide,
    raise_discrepancy,
    sign_second,
    take_its_place,
    withdraw,
)
from engines.inspection.services.deciding import Data
from engines.inspection.standing import Kind, State
from engines.release.gates.asked import requests_answered
from engines.release.gates.decided import readings_decided
from engines.release.queries import blockers_of, situation_of
from engines.visits.errors import Closed
from engines.visits.models import Tagged, Visit
from engines.visits.services import Identity
from shopfloor.ledger.queries import verify
from shopfloor.people.models import Role
from tests.making_packs import page, small_pack
from tests.making_people import make_customer, make_person
from tests.making_visits import Shop

pytestmark = pytest.mark.django_db
DATA = Data("T2-90 invented manual", "3", "page 4-4")
PLACE = "cylinder 1"


@pytest.fixture
def shop():
    return Shop()


@pytest.fixture
def visit(shop):
    visit = shop.receive()
    shop.tag_all(visit, "cylinder", "piston")
    return visit


@pytest.fixture
def worn(shop, visit):
    """A skirt outside limits."""
    shop.read(visit, "skirt-diameter", PLACE, "4.3500")
    return Discrepancy.objects.get(visit=visit)


@pytest.fixture
def cracked(shop, visit):
    given = {"area": "cylinders", "line": "piston", "place": PLACE, "words": "a crack"}
    return raise_discrepancy(visit=visit, **given, by=shop.mechanic, at=shop.later())


def decided(shop, found, kind):
    seen = found.dispositions.count()
    given = {"data": DATA, "words": "as the data say", "seen": seen}
    return decide(discrepancy=found, kind=kind, **given, by=shop.inspector, at=shop.later())


def answered(shop, asked, said):
    return answer(request=asked, said=said, by=shop.owner(asked.visit), at=shop.later())


def carried_out(shop, made):
    return carry_out(disposition=made, words="polished", by=shop.mechanic, at=shop.later())


def new_part(shop, made, mark="N-1"):
    identity = Identity(mark=mark)
    return take_its_place(disposition=made, identity=identity, words="new", by=shop.mechanic, at=shop.later())


def told(shop, visit, area="cylinders"):
    return [each.sentence for each in requests_answered(situation_of(shop.area(visit, area)))]


def state(found):
    now = inspection_of(found.visit)
    return now.of(now.rows.by_key[found.row, found.place]).state


def test_what_is_asked_is_kept_as_it_was_typed_and_the_ledger_verifies(shop, cracked):
    asked = shop.ask(cracked, parts=" 2 ring set \n\n1 x pin T2-9")
    assert asked.part_lines == [("2", "ring set"), ("1", "pin T2-9")]
    assert (asked.hours, asked.price, asked.currency) == ("6.5", "1250.00", "EUR")
    answered(shop, asked, Said.APPROVED)
    assert not [fault for fault in verify() if "inspection." in fault.sentence]


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"price": "12,50"}, "Price: .*is not a number"),
        ({"price": "-1"}, "Price: write a figure from 0"),
        ({"hours": "0.125"}, "Hours: write a figure from 0 with at most 2 decimals"),
        ({"currency": "euro"}, "three letters"),
        ({"parts": "ring set"}, "begin each line with how many"),
        ({"words": "  "}, "Say in plain words"),
    ],
)
def test_what_cannot_be_asked_is_said_and_nothing_is_kept(shop, cracked, wrong, sentence):
    with pytest.raises(FieldRefused, match=sentence):
        shop.ask(cracked, **wrong)
    assert not WorkAsked.objects.exists()


@pytest.mark.parametrize("kind", [Kind.ACCEPT, Kind.CONCESSION])
def test_nobody_can_ask_a_customer_to_waive_a_limit(shop, worn, kind):
    with pytest.raises(NotOffered, match="no answer of theirs changes a limit or a directive"):
        shop.ask(worn, kind)


def test_one_question_at_a_time_and_another_after_it_was_taken_back(shop, cracked):
    first = shop.ask(cracked)
    with pytest.raises(AskedAlready, match="Request 1"):
        shop.ask(cracked)
    withdraw(request=first, words="the price was wrong", by=shop.manager, at=shop.later())
    with pytest.raises(AnsweredAlready, match="withdrawn already"):
        answered(shop, first, Said.APPROVED)
    assert shop.ask(cracked).number == 2


class TestWorkWaits:
    @pytest.fixture(params=[None, Said.REFUSED])
    def stopped(self, request):
        return request.param, AwaitsAnswer if request.param is None else CustomerRefused

    def test_of_a_finding(self, shop, cracked, stopped):
        said, refusal = stopped
        made, asked = decided(shop, cracked, Kind.REWORK), shop.ask(cracked)
        if said:
            answered(shop, asked, said)
        with pytest.raises(refusal, match="request 1"):
            carried_out(shop, made)

    def test_for_another_part(self, shop, worn, stopped):
        said, refusal = stopped
        made, asked = decided(shop, worn, Kind.REPLACE), shop.ask(worn, Kind.REPLACE)
        if said:
            answered(shop, asked, said)
        tags = Tagged.objects.count()
        with pytest.raises(refusal, match="request 1"):
            new_part(shop, made)
        assert Tagged.objects.count() == tags

    def test_so_a_part_is_not_read_again_after_its_rework(self, shop, visit, worn):
        decided(shop, worn, Kind.REWORK)
        asked = shop.ask(worn)
        with pytest.raises(AwaitsAnswer):
            shop.read(visit, "skirt-diameter", PLACE, "4.3635")
        answered(shop, asked, Said.APPROVED)
        shop.read(visit, "skirt-diameter", PLACE, "4.3635", condition="after rework")
        assert state(worn) == State.GOOD

    def test_and_nothing_is_scrapped_meanwhile(self, shop, worn):
        shop.ask(worn, Kind.REPLACE)
        with pytest.raises(AwaitsAnswer):
            decided(shop, worn, Kind.SCRAP)

    def test_until_it_is_approved(self, shop, worn, cracked):
        replaced, polished = decided(shop, worn, Kind.REPLACE), decided(shop, cracked, Kind.REWORK)
        for asked in (shop.ask(worn, Kind.REPLACE), shop.ask(cracked)):
            answered(shop, asked, Said.APPROVED)
        assert carried_out(shop, polished)
        assert new_part(shop, replaced).item.mark == "N-1"


class TestRefused:
    def test_the_reading_is_as_bad_as_before_and_undecided_again(self, shop, visit, worn):
        decided(shop, worn, Kind.REWORK)
        assert state(worn) == State.PENDING
        asked = shop.ask(worn)
        answered(shop, asked, Said.REFUSED)
        assert state(worn) == State.UNDECIDED
        assert readings_decided(situation_of(shop.area(visit, "cylinders")))
        assert worn in queries.undecided()
        assert list(queries.refused_requests(visit)) == [asked]

    def test_the_same_work_is_not_decided_again_until_they_say_yes(self, shop, worn):
        answered(shop, shop.ask(worn, Kind.REPLACE), Said.REFUSED)
        for same in (Kind.REPLACE, Kind.SCRAP):
            with pytest.raises(NotOffered, match="the customer refused it"):
                decided(shop, worn, same)
        answered(shop, shop.ask(worn, Kind.REPLACE, price="900"), Said.APPROVED)
        assert decided(shop, worn, Kind.REPLACE)

    def test_then_decided_otherwise_the_gate_lets_it_pass(self, shop, visit, worn):
        decided(shop, worn, Kind.REPLACE)
        answered(shop, shop.ask(worn, Kind.REPLACE), Said.REFUSED)
        assert told(shop, visit) == ["The customer refused request 1: another decision is needed."]
        conceded = decided(shop, worn, Kind.CONCESSION)
        assert told(shop, visit)
        sign_second(disposition=conceded, by=shop.second, at=shop.later())
        assert told(shop, visit) == []
        assert state(worn) == State.SETTLED

    def test_a_concession_that_it_undid_is_not_signed_a_second_time(self, shop, cracked):
        conceded = decided(shop, cracked, Kind.CONCESSION)
        answered(shop, shop.ask(cracked), Said.REFUSED)
        with pytest.raises(CustomerRefused):
            sign_second(disposition=conceded, by=shop.second, at=shop.later())

    def test_a_part_that_reads_well_after_all_asks_for_nothing_more(self, shop, visit, worn):
        answered(shop, shop.ask(worn), Said.REFUSED)
        shop.read(visit, "skirt-diameter", PLACE, "4.3635")
        assert told(shop, visit) == []

    def test_of_a_finding_the_new_decision_is_the_one_that_counts(self, shop, visit, cracked):
        decided(shop, cracked, Kind.REWORK)
        answered(shop, shop.ask(cracked), Said.REFUSED)
        otherwise = decided(shop, cracked, Kind.REPLACE)
        now = inspection_of(visit)
        (found,) = now.discrepancies
        assert last_decision(found) == otherwise
        assert not is_open(now, found)
        assert list(queries.new_parts_awaited()) == [otherwise]


def test_the_gate_names_what_is_not_answered(shop, visit, cracked):
    decided(shop, cracked, Kind.REWORK)
    asked = shop.ask(cracked)
    assert told(shop, visit) == ["Request 1 to the customer is not answered: bore it out"]
    assert told(shop, visit, "case") == []
    answered(shop, asked, Said.APPROVED)
    assert told(shop, visit) == []


def test_a_storekeeper_is_not_asked_for_a_part_that_waits_for_the_answer(shop, worn):
    made = decided(shop, worn, Kind.REPLACE)
    asked = shop.ask(worn, Kind.REPLACE)
    assert not queries.new_parts_awaited()
    answered(shop, asked, Said.APPROVED)
    assert list(queries.new_parts_awaited()) == [made]


def test_a_request_about_the_whole_engine_holds_the_whole_engine(db):
    whole = small_pack().areas[0]
    shop = Shop(small_pack(areas=(*small_pack().areas, type(whole)(code="engine", name="The engine", source=page("1-1")))))
    visit = shop.receive()
    found = raise_discrepancy(visit=visit, area="engine", words="paint is gone", by=shop.mechanic, at=shop.later())
    with pytest.raises(NotOffered):
        shop.ask(found, Kind.REPLACE)
    shop.ask(found)
    sentences = [each.sentence for each in blockers_of(situation_of(shop.area(visit, "engine")))]
    assert "Request 1 to the customer is not answered: bore it out" in sentences


def test_there_is_nothing_to_ask_when_the_work_is_done(shop, cracked):
    carried_out(shop, decided(shop, cracked, Kind.REWORK))
    with pytest.raises(NothingToAsk):
        shop.ask(cracked)


@pytest.mark.parametrize("who", ["another customer", "the shop", "of the customer without the role"])
def test_only_a_person_of_that_customer_answers(shop, visit, cracked, who):
    persons = {
        "another customer": lambda: make_person(Role.CUSTOMER, customer=make_customer()),
        "the shop": lambda: shop.manager,
        "of the customer without the role": lambda: make_person(customer=visit.customer),
    }
    with pytest.raises(NotYours):
        answer(request=shop.ask(cracked), said=Said.APPROVED, by=persons[who](), at=shop.later())
    assert not Answer.objects.exists()


def test_a_closed_visit_is_not_asked_about(shop, cracked):
    Visit.objects.update(closed_at=shop.later())
    with pytest.raises(Closed):
        shop.ask(cracked)


@pytest.mark.django_db(transaction=True)
def test_of_two_answers_at_once_one_counts(shop, cracked):
    asked, owner, outcomes = shop.ask(cracked), shop.owner(cracked.visit), []

    def say(said):
        try:
            answer(request=asked, said=said, by=owner, at=shop.now)
            outcomes.append("kept")
        except AnsweredAlready:
            outcomes.append("refused")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=say, args=(said,)) for said in Said]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(outcomes) == ["kept", "refused"]
    assert Answer.objects.count() == 1


def test_after_a_refused_rework_a_good_reading_waits_for_another_decision(shop, visit, worn):
    """It would make a part good that nobody was allowed to rework."""
    decided(shop, worn, Kind.REWORK)
    answered(shop, shop.ask(worn), Said.REFUSED)
    with pytest.raises(CustomerRefused):
        shop.read(visit, "skirt-diameter", PLACE, "4.3635")
    decided(shop, worn, Kind.REPLACE)
    shop.read(visit, "skirt-diameter", PLACE, "4.3635")


def test_a_mistaken_reading_can_still_be_corrected_after_a_refusal(shop, visit, worn):
    decided(shop, worn, Kind.REWORK)
    answered(shop, shop.ask(worn), Said.REFUSED)
    corrected = shop.read(visit, "skirt-diameter", PLACE, "4.3635", corrects=worn.reading, correction_reason="digits swapped")
    assert corrected.corrects == worn.reading
    assert state(worn) == State.GOOD
