"""What every page knows about its reader."""

from django.http import HttpRequest

from shopfloor.people.models import Person, Role
from shopfloor.people.permissions import Permission, may
from shopfloor.people.queries import roles_of


def person(request: HttpRequest) -> dict[str, object]:
    """`user`, `roles` (values), `role_words` (as shown) and `may` (permission value -> bool); a stranger has no rights."""
    reader = getattr(request, "user", None)
    if not isinstance(reader, Person):
        return {"user": reader, "roles": frozenset(), "role_words": [], "may": dict.fromkeys(Permission.values, False)}
    roles = roles_of(reader)
    return {
        "user": reader,
        "roles": frozenset(role.value for role in roles),
        "role_words": [role.label for role in Role if role in roles],
        "may": {permission.value: may(reader, permission) for permission in Permission},
    }
