"""Refusals about vendors and work that is out, worded for whoever orders or unpacks. `status` is the HTTP answer."""

from collections.abc import Iterable


class VendorRefused(Exception):
    status = 409


class FieldRefused(VendorRefused):
    status = 422


class NameTaken(VendorRefused):
    def __init__(self, name: str) -> None:
        super().__init__(f"{name} is in the register already. Open that vendor and add the approval there.")


class NotApproved(VendorRefused):
    """Says which vendor, and why not."""

    def __init__(self, reason: str) -> None:
        self.reason = reason
        super().__init__(f"{reason} Choose another vendor, or have the register set right first.")


class SuspendedAlready(VendorRefused):
    def __init__(self, name: str) -> None:
        super().__init__(f"{name} is suspended already. Reload the page.")


class NotSuspended(VendorRefused):
    def __init__(self, name: str) -> None:
        super().__init__(f"{name} is not suspended any more. Reload the page.")


class OrderedAlready(VendorRefused):
    def __init__(self, item: str, number: int, vendor: str) -> None:
        super().__init__(f"{item} is on order {number} with {vendor} already. Withdraw it, or book the part back in first.")


class StillFitted(VendorRefused):
    def __init__(self, item: str) -> None:
        super().__init__(f"{item} is still fitted. Take it out before it goes to a vendor.")


class SentAlready(VendorRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Order {number} was sent already. Reload the page; what is sent is booked back in, never withdrawn.")


class NotSent(VendorRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Order {number} was never sent, so nothing comes back from it. Send the part, or withdraw the order.")


class Ended(VendorRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Order {number} has ended: the part is back, or the order was withdrawn. Reload the page.")


class EvidenceMissing(VendorRefused):
    status = 422

    def __init__(self, missing: Iterable[str]) -> None:
        super().__init__(
            f"The data ask for evidence that is not here: {', '.join(missing)}. Type the number of each paper, or book the part "
            "in as come back without its evidence."
        )


class NotBack(VendorRefused):
    def __init__(self, number: int) -> None:
        super().__init__(f"Order {number} is not back yet, or was looked at already. Reload the page.")


class NotAnInspector(VendorRefused):
    status = 403

    def __init__(self) -> None:
        super().__init__("An inspector looks at what came back and says whether it is as asked. Call one.")
