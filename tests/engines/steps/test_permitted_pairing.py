"""Mates go together only as the table of the data permits. Right, wrong, cut short and disputed; every figure is invented.

That a reground journal wants the shell of its size class, and a chromed barrel no chromed ring: common practice, no source.
"""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from engines.catalogue.queries import data_of
from engines.inspection.models import Discrepancy
from engines.inspection.services.deciding import Data, decide, sign_second
from engines.inspection.standing import Kind
from engines.packs.queries import cited_pages
from engines.packs.reading import PackMistakes
from engines.steps.kinds.permitted_pairing import BOTH_ANEW, OTHER
from engines.steps.work import StepRefused
from engines.traveler.errors import NotYet
from engines.traveler.services import reopen
from tests.making_packs import UNDER, page
from tests.making_pairings import CHROME, JOURNAL, MAIN_SHELLS, MAINS, SHELL, new_part, paired, paired_pack, row
from tests.making_steps_s3 import Errand, load


def say(work, *answers, **given):
    """What each mate is, in the order in which it is asked; the last entry."""
    said = {"what": "", "reason": "", **given}
    return [work.answer(answer=answer, **said) for answer in answers][-1]


def concede(work, kind=Kind.CONCESSION):
    found = Discrepancy.objects.latest("number")
    data = Data("T2-90 invented letter", "1", "page 1")
    made = decide(
        discrepancy=found, kind=kind, data=data, words="as the letter says", by=work.shop.inspector, at=work.shop.later()
    )
    if kind == Kind.CONCESSION:
        sign_second(disposition=made, by=work.shop.second, at=work.shop.later())


@pytest.mark.django_db
def test_each_place_is_said_and_signed_with_the_page_that_permits_it(client):
    work = paired()
    assert "nobody has said yet" in work.page(client)
    assert say(work, "standard", "0.002 under")["source"] == "T2-90 invented manual, revision 3, page 4-7"
    assert say(work, "standard", "standard")["verdict"] == "permitted"
    assert work.question() == ""
    shown = work.page(client)
    assert "Bearing shell shell-main 1" in shown
    assert "<b>permitted</b> <small>T2-90 invented manual, revision 3, page 4-7" in shown
    assert work.sign().is_complete
    assert "with standard: <b>permitted</b><small>T2-90 invented manual" in work.paper()
    assert not Discrepancy.objects.exists()


@pytest.mark.django_db
def test_nothing_is_chosen_beforehand_and_every_class_of_the_table_is_offered(client):
    work = paired()
    shown = work.page(client)
    assert 'value="0.010 under"' in shown
    assert "checked" not in shown


@pytest.mark.django_db
def test_a_pair_that_the_table_lacks_is_refused_with_what_it_permits():
    work = paired()
    say(work, "standard")
    with pytest.raises(StepRefused) as refused:
        say(work, UNDER)
    assert str(refused.value) == (
        "main 1: the data do not permit main journal standard with bearing shell 0.010 under. They permit standard with standard "
        "(T2-90 invented manual, revision 3, page 4-7); standard with 0.002 under (T2-90 invented manual, revision 3, page 4-7). "
        "Fit other parts and answer with those; where there are none, give the reason, and an inspector decides."
    )
    assert work.operation.entries.count() == 1
    assert not Discrepancy.objects.exists()
    assert say(work, "standard")["verdict"] == "permitted"


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("answer", "what", "said"),
    [
        (UNDER, "", "main journal at main 1 was read as standard, not 0.010 under"),
        (OTHER, "0.003 under", "main journal at main 1 was read as standard, not 0.003 under"),
        (OTHER, " ", "Write down what main journal at main 1 is"),
        ("chromed", "", "Choose one of: standard, 0.010 under, something else"),
        ("", "", "Choose one of"),
    ],
)
def test_what_the_reading_knows_is_not_said_otherwise(answer, what, said):
    work = paired()
    with pytest.raises(StepRefused, match=said):
        say(work, answer, what=what)
    assert not work.operation.entries.exists()


@pytest.mark.django_db
def test_a_journal_that_nobody_read_has_no_class():
    work = Errand("permitted-pairing", MAIN_SHELLS, pack=paired_pack())
    work.shop.tag_all(work.visit, "crankshaft", "shell")
    with pytest.raises(StepRefused, match="has no reading that counts on the part that is there"):
        say(work, "standard")


@pytest.mark.django_db
def test_a_shell_that_is_not_there_pairs_with_nothing():
    work = Errand("permitted-pairing", MAIN_SHELLS, pack=paired_pack())
    work.shop.tag_all(work.visit, "crankshaft")
    work.shop.read(work.visit, "crank-main", "main 1", "2.1245")
    say(work, "standard")
    with pytest.raises(StepRefused, match="No part is fitted or tagged as bearing shell at main 1"):
        say(work, "standard")
    new_part(work, "shell", "main 1", mark="S-9")
    assert say(work, "standard")["part"] == "Bearing shell S-9"


@pytest.mark.django_db
def test_interrupted_it_says_what_is_open_and_begins_again_where_it_was():
    work = paired()
    say(work, "standard")
    with pytest.raises(NotYet, match="main 1: main journal is standard; with what, is not said yet"):
        work.sign()
    assert work.question() == "main 1: bearing shell, together with standard"
    say(work, "standard", by=work.shop.second)
    assert work.missing() == ["main 2: nobody has said yet what goes together."]


@pytest.mark.django_db
def test_an_answer_to_another_first_mate_is_noticed():
    work = paired()
    say(work, "standard")
    asked = work.question()
    say(work, BOTH_ANEW)
    assert work.question() == "main 1: main journal"
    with pytest.raises(StepRefused, match="What is asked now is “main 1: main journal”"):
        work.answer(asked=asked, answer="standard", what="", reason="")


@pytest.mark.django_db
def test_a_journal_read_anew_in_another_class_makes_it_void():
    work = paired()
    say(work, "standard", "standard", "standard", "standard")
    assert work.missing() == []
    work.shop.read(work.visit, "crank-main", "main 2", "2.1145", size_class=UNDER)
    with pytest.raises(NotYet, match=r"main 2: main journal was said to be standard, and is read as 0.010 under. Say anew"):
        work.sign()
    say(work, UNDER, UNDER)
    assert work.sign().is_complete


@pytest.mark.django_db
def test_another_shell_makes_it_void(client):
    work = paired()
    say(work, "standard", "standard", "standard", "standard")
    new_part(work, "shell", "main 1", mark="S-9")
    assert work.missing() == [
        "main 1: another bearing shell is there now than Bearing shell shell-main 1. Say anew what goes together."
    ]
    assert "<b>void</b>: another bearing shell" in work.page(client)
    say(work, "standard", "0.002 under")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_disputed_it_waits_for_a_concession_signed_by_two():
    work = paired()
    say(work, "standard")
    kept = say(work, UNDER, reason="none else to be had")
    assert kept["verdict"] == "not permitted"
    found = Discrepancy.objects.get()
    assert (found.area, found.line, found.at) == ("case", "crankshaft", "engine")
    assert found.words == "main 1: main journal standard with bearing shell 0.010 under is not permitted. none else to be had"
    say(work, "standard", "standard")  # the other place goes on meanwhile
    with pytest.raises(
        NotYet, match=r"Fit other parts and answer anew, or it waits for a concession. Discrepancy 1 is not decided"
    ):
        work.sign()
    concede(work, Kind.ACCEPT)
    with pytest.raises(NotYet, match=r"main 1: main journal standard with bearing shell 0.010 under is not permitted"):
        work.sign()


@pytest.mark.django_db
def test_a_concession_lets_it_stand_for_these_parts_only():
    work = paired()
    say(work, "standard")
    say(work, UNDER, reason="none else to be had")
    say(work, "standard", "standard")
    concede(work)
    assert work.missing() == []
    new_part(work, "shell", "main 1", mark="S-9")
    assert work.question() == "main 1: main journal"
    say(work, "standard")
    with pytest.raises(StepRefused, match="do not permit"):
        say(work, UNDER)
    say(work, "standard")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_other_parts_end_the_dispute_once_it_is_decided():
    work = paired()
    say(work, "standard")
    say(work, UNDER, reason="none else to be had")
    say(work, "standard", "standard")
    new_part(work, "shell", "main 1", mark="S-9")
    say(work, "standard", "standard")
    with pytest.raises(NotYet, match="Discrepancy 1 is not decided"):
        work.sign()
    concede(work, Kind.ACCEPT)
    assert work.sign().is_complete


@pytest.mark.django_db
def test_opened_again_everything_is_said_again():
    work = paired()
    say(work, "standard", "standard", "standard", "standard")
    work.sign()
    reopen(operation=work.operation, reason="the shells were mixed up", by=work.shop.inspector, at=work.shop.later())
    with pytest.raises(NotYet, match="main 1: nobody has said yet"):
        work.sign()


@pytest.mark.django_db
def test_surfaces_and_materials_that_no_reading_knows_are_taken_as_said():
    work = Errand("permitted-pairing", CHROME)
    say(work, "chromed")
    with pytest.raises(StepRefused, match=r"barrel chromed with ring chromed. They permit chromed with cast iron"):
        say(work, "chromed")
    say(work, "cast iron")
    assert work.sign().is_complete


@pytest.mark.django_db
def test_what_the_table_does_not_know_at_all_is_refused_with_all_of_it():
    work = Errand("permitted-pairing", CHROME)
    say(work, OTHER, what="nitrided")
    with pytest.raises(StepRefused, match=r"barrel nitrided .* permit plain steel with chromed .*; chromed with cast iron"):
        say(work, "chromed")


@pytest.mark.django_db
def test_of_a_fit_the_pairings_of_the_data_are_the_table():
    bore = {"mate": "bearing bore", "told_by": "its size class", "row": "bearing-bore"}
    work = Errand("permitted-pairing", {"places": ["main 1"], "mates": [bore, JOURNAL], "fit": "main-clearance"})
    work.shop.tag_all(work.visit, "crankshaft", "case-half")
    work.shop.read(work.visit, "bearing-bore", "main 1", "2.1170", size_class=UNDER)
    work.shop.read(work.visit, "crank-main", "main 1", "2.1245")
    say(work, UNDER)
    with pytest.raises(StepRefused, match=r"bearing bore 0.010 under with main journal standard"):
        say(work, "standard")
    work.shop.read(work.visit, "crank-main", "main 1", "2.1145", size_class=UNDER)
    assert say(work, UNDER)["source"] == "T2-90 invented manual, revision 3, page 4-2"
    assert work.sign().is_complete


@pytest.mark.django_db
def test_each_page_of_the_table_is_checked_before_the_data_are_approved():
    work = Errand("permitted-pairing", MAIN_SHELLS, pack=paired_pack())
    assert {page("4-7"), page("4-8")} <= set(data_of(work.visit.pack).sources)
    said = {each.source.page: [entry.code for _, entry in each.sayings] for each in cited_pages(work.visit.pack)}
    assert said["page 4-8"] == ["asked"]


@pytest.mark.django_db
def test_the_page_takes_the_same_queries_however_much_was_said(client):
    work, counts = paired(), []
    for _ in MAINS:
        say(work, "standard", "standard")
        work.page(client)
        with CaptureQueriesContext(connection) as queries:
            work.page(client)
        counts.append(len(queries))
    assert counts[0] == counts[1]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"places": []}, "places name where the mates meet"),
        ({"places": ["main 1", "main 3"]}, "the data have no main journal at “main 3”"),
        ({"mates": [JOURNAL]}, "mates are two"),
        ({"mates": [JOURNAL, JOURNAL]}, "mates are two"),
        ({"mates": [JOURNAL | {"line": "shell"}, SHELL]}, "mates are two"),
        ({"mates": [JOURNAL | {"row": "main-clearance"}, SHELL]}, "“main-clearance” is no row that is read"),
        ({"mates": [JOURNAL, SHELL | {"line": "liner"}]}, "the parts list has no “liner”"),
        ({"permitted": [{"first": "a", "second": "b"}]}, "permitted is a table, each line with first, second, document"),
        ({"permitted": [row("a", "b"), row("a", "b", "page 1")]}, "“a with b” is permitted twice"),
        ({"fit": "main-clearance"}, "either permitted holds the table, or fit names"),
        ({"permitted": None, "fit": "barrel"}, "the data have no fit “barrel” with permitted pairings"),
        ({"permitted": None, "fit": "main-clearance"}, "main journal is read as “crank-main”, the fit wants “bearing-bore”"),
        ({"colour": "red"}, "knows no details “colour”"),
        ({"permitted": [row("a", "b", "p" * 41)]}, "is too long"),
        ({"sets": ["nothing"]}, "no set “nothing” that is renewed only together"),
    ],
)
def test_a_table_that_cannot_be_worked_by_is_refused(changed, said):
    details = {name: value for name, value in (MAIN_SHELLS | changed).items() if value is not None}
    with pytest.raises(PackMistakes, match=said):
        load("permitted-pairing", details, pack=paired_pack())


def test_an_operation_that_asks_nothing_is_refused_and_the_table_loads():
    with pytest.raises(PackMistakes, match="it names neither what is paired nor a set"):
        load("permitted-pairing", {}, pack=paired_pack())
    load("permitted-pairing", MAIN_SHELLS, pack=paired_pack())
