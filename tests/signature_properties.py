"""What an electronic signature has to be, and the test that shows it of ours.

Run: .venv/bin/python -m tests.signature_properties

Source: FAA Advisory Circular 120-78, Acceptance and Use of Electronic Signatures, section 5; carried on by edition B of
11 December 2024 (title, date and status read on faa.gov, its text was not at hand here). The properties are told in our own
words. Their paragraph numbers are those of the first edition, from memory, but for 5.c(4)(d), which its paragraph 5.a names.
"""

from dataclasses import dataclass

FIRST, LATER = "AC 120-78, ", "AC 120-78B, chapter on electronic signatures (from memory)"


@dataclass(frozen=True)
class Property:
    name: str
    asks: str
    section: str
    test: str


PROPERTIES = (
    Property(
        "uniqueness",
        "It points to one individual and to no other, and is hard to copy.",
        FIRST + "5.c(1)",
        "test_it_points_to_one_person_though_two_bear_one_name",
    ),
    Property(
        "own secret",
        "Only its owner knows what it takes to give it, from the first day on.",
        FIRST + "5.c(1)",
        "test_a_password_that_the_manager_handed_out_signs_nothing",
    ),
    Property(
        "significance",
        "It takes a deliberate act that the signer knows to be a signature.",
        FIRST + "5.c(2)",
        "test_it_takes_the_password_again_beside_words_that_say_what_it_means",
    ),
    Property(
        "meaning",
        "What it stands for, work done or work accepted, belongs to it and is read with it later.",
        FIRST + "5.c(2)",
        "test_what_it_means_is_hashed_with_it_and_differs_by_act",
    ),
    Property(
        "scope",
        "What was affirmed is plain to the signer and to every later reader.",
        FIRST + "5.c(3)",
        "test_it_is_bound_to_all_that_was_shown_and_to_nothing_that_changed_since",
    ),
    Property(
        "nothing unsaid",
        "Nothing can be put under it afterwards.",
        FIRST + "5.c(3)",
        "test_nothing_is_entered_under_a_signature_that_is_given",
    ),
    Property(
        "security",
        "Nobody else can give it: what protects it stands up to guessing.",
        FIRST + "5.c(4)",
        "test_guessing_at_an_open_tablet_is_counted_and_stopped",
    ),
    Property(
        "withdrawal",
        "Who leaves the shop, or loses the authority, signs nothing more from that moment.",
        FIRST + "5.c(4)(d)",
        "test_who_left_or_lost_the_authority_signs_nothing_from_that_moment",
    ),
    Property(
        "non-repudiation",
        "Its signer cannot credibly deny it: signer, moment and text are sealed in one record.",
        FIRST + "5.c(5)",
        "test_signer_moment_and_text_are_sealed_and_a_forged_one_is_found",
    ),
    Property(
        "traceability",
        "It leads to the person who gave it, for as long as the record is kept.",
        FIRST + "5.c(6)",
        "test_it_leads_to_its_signer_also_when_their_name_is_erased",
    ),
    Property(
        "under which authority",
        "The system lets sign only who may, and the record says by what authority.",
        LATER,
        "test_it_names_the_authorisation_that_it_was_given_under",
    ),
    Property(
        "moment",
        "Day and time come from the system, not from the signer.",
        LATER,
        "test_its_moment_is_the_servers_whatever_the_request_says",
    ),
    Property(
        "permanence",
        "Once given, it is neither altered nor removed, whoever tries.",
        LATER,
        "test_the_database_itself_refuses_to_alter_or_remove_one",
    ),
    Property(
        "once",
        "One act is signed once: a second post, or a second person at the same moment, changes nothing.",
        LATER,
        "test_an_act_is_signed_once",
    ),
    Property(
        "correction",
        "What was wrong is corrected beside what was signed; the first stays readable, with who, when and why.",
        LATER,
        "test_a_correction_opens_a_new_round_and_leaves_the_old_signature",
    ),
    Property(
        "archive",
        "It can be read and proved on paper, away from the system.",
        LATER,
        "test_the_paper_carries_signer_moment_meaning_and_a_hash_that_anybody_can_compute",
    ),
)


def table() -> str:
    return "\n".join(
        f"{each.name}\n  asks: {each.asks}\n  said in: {each.section}\n  shown by: {each.test}" for each in PROPERTIES
    )


if __name__ == "__main__":
    print(table())
