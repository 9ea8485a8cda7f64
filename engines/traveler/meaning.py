"""What a signature says: shown beside the password, hashed with all that was shown, printed with it ever after."""

from engines.traveler.models import Act, Operation

MEANINGS = {
    Act.DONE: "I did this work as the approved data say, and what is shown here of it is true.",
    Act.ACCEPTED: "I looked at this work myself, and I accept it as what the approved data ask for.",
}


def next_act(operation: Operation) -> Act:
    """Which signature the operation waits for: once it is signed, that of who accepts it."""
    return Act.ACCEPTED if operation.signed_at else Act.DONE


def meaning_of_next(operation: Operation) -> str:
    return MEANINGS[next_act(operation)]
