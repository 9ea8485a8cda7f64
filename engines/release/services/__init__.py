"""Moving an area on or back; releasing the engine and amending that; serious defects and notices."""

from engines.release.services.moving import advance, send_back
from engines.release.services.noticing import see_notice
from engines.release.services.releasing import amend, release
from engines.release.services.reporting import mark_serious, report_serious

__all__ = ["advance", "amend", "mark_serious", "release", "report_serious", "see_notice", "send_back"]
