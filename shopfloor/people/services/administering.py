"""Who may change another person's account, decided under a lock."""

from django.db.models import Q

from shopfloor.people.errors import Erased, NotAManager, OwnAccount
from shopfloor.people.models import Person
from shopfloor.people.queries import active_managers


def lock_for_change(person: Person, *, by: Person) -> Person:
    """Lock the manager who acts and the person acted on, and return the latter as it is now.

    The race: two managers end each other's role in the same second, and the shop is left with none. Both transactions
    need the same two rows, taken in one order, so the second waits; it then looks again, in a statement of its own that
    sees what the first one committed, finds that its actor is no manager any more, and stops. As the actor is an active
    manager until commit and never the target, at least one always remains.
    """
    if person.pk == by.pk:
        raise OwnAccount
    list(Person.objects.select_for_update().filter(Q(pk=person.pk) | Q(pk=by.pk)).order_by("pk"))
    check_manager(by)
    now = Person.objects.get(pk=person.pk)
    if now.erased_at:
        raise Erased
    return now


def lock_manager(by: Person) -> None:
    """The same for an act that has no person as its target."""
    list(Person.objects.select_for_update().filter(pk=by.pk))
    check_manager(by)


def check_manager(by: Person) -> None:
    if not active_managers().filter(pk=by.pk).exists():
        raise NotAManager
