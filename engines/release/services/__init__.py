"""Moving an area: on, when no gate objects; back, with a reason that opens again what depends on it."""

from engines.release.services.moving import advance, send_back

__all__ = ["advance", "send_back"]
