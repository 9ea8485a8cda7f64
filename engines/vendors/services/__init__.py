"""Acts on the register, which stand on `stores`, and on orders, which stand on the engine's chain as well."""

from engines.vendors.services.ordering import Asked, From, place_order, send, withdraw
from engines.vendors.services.register import add_vendor, approve, lift, suspend
from engines.vendors.services.returning import Papers, look, receive_back

__all__ = [
    "Asked",
    "From",
    "Papers",
    "add_vendor",
    "approve",
    "lift",
    "look",
    "place_order",
    "receive_back",
    "send",
    "suspend",
    "withdraw",
]
