"""What every page knows about its reader."""

from django.http import HttpRequest

from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission, may
from shopfloor.people.queries import roles_of


def person(request: HttpRequest) -> dict[str, object]:
    """`user`, `roles` (role values) and `may` (permission value -> bool); empty of rights for a stranger."""
    reader = getattr(request, "user", None)
    if not isinstance(reader, Person):
        return {"user": reader, "roles": frozenset(), "may": dict.fromkeys(Permission.values, False)}
    return {
        "user": reader,
        "roles": frozenset(role.value for role in roles_of(reader)),
        "may": {permission.value: may(reader, permission) for permission in Permission},
    }
