"""What the people room refuses, each error worded for the person who reads it."""

from datetime import datetime

from django.utils import timezone


class Refused(Exception):
    """An act on persons that the rules forbid; `status` is its HTTP answer."""

    status = 409


class NotAManager(Refused):
    status = 403

    def __init__(self) -> None:
        super().__init__("Only an active shop manager administers persons. Ask a shop manager to do it.")


class OwnAccount(Refused):
    status = 403

    def __init__(self) -> None:
        super().__init__("Nobody changes their own rights or account here. Ask another shop manager to do it.")


class CustomerStandsAlone(Refused):
    def __init__(self) -> None:
        super().__init__(
            "The customer role is held with no other role: a customer sees only their own engines. "
            "End the other role first, or add a second account."
        )


class RoleHeldAlready(Refused):
    def __init__(self, role: str) -> None:
        super().__init__(f"This person holds the role {role} already. Nothing was changed.")


class RoleNotHeld(Refused):
    def __init__(self) -> None:
        super().__init__("This role has ended already. Reload the page to see the roles held now.")


class NotACustomersPerson(Refused):
    def __init__(self) -> None:
        super().__init__("Only a person with the role customer acts for a customer. Grant that role first.")


class Inactive(Refused):
    def __init__(self) -> None:
        super().__init__("This account is not active. Reactivate it first.")


class AlreadySo(Refused):
    def __init__(self, state: str) -> None:
        super().__init__(f"This account is {state} already. Nothing was changed.")


class CertificateHalf(Refused):
    status = 422

    def __init__(self) -> None:
        super().__init__("A certificate has a kind and a number: fill in both, or leave both blank when there is none.")


class Erased(Refused):
    def __init__(self) -> None:
        super().__init__("This person was erased for good. Add a new person instead.")


class NameTaken(Refused):
    def __init__(self, name: str) -> None:
        super().__init__(f"The name {name} is taken. Choose another one.")


class ManagerExists(Refused):
    def __init__(self) -> None:
        super().__init__("There is an active shop manager already. That person adds further persons, on the page Persons.")


class WrongPassword(Refused):
    """Says the same for an unknown name, a wrong password and an inactive account."""

    status = 403

    def __init__(self) -> None:
        super().__init__("Name and password do not match an active account. Check both, or ask a shop manager for help.")


class TooManyTries(Refused):
    status = 429

    def __init__(self, until: datetime, at: datetime) -> None:
        self.seconds = max(1, int((until - at).total_seconds()) + 1)
        clock = timezone.localtime(until)
        super().__init__(
            f"Too many wrong passwords for this name. Try again after {clock:%H:%M:%S} ({clock.tzname()}, {_span(self.seconds)})"
            ", or ask a shop manager for help. Until then even the right password is refused."
        )


def _span(seconds: int) -> str:
    minutes = -(-seconds // 60)
    return "in one minute or less" if minutes == 1 else f"in about {minutes} minutes"
