"""manage.py make_certificate NAME…: HTTPS inside the shop, where no public authority vouches for a name."""

from datetime import timedelta
from pathlib import Path

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from shopfloor.serving import certificates

TRUST = """
Give {authority} to every tablet and computer of the shop, once, by cable or e-mail (it is no secret):
  Android, ChromeOS: Settings, search for "CA certificate", install it.
  iPadOS, iOS: open the file, install the profile, then switch it on under Settings, General, About, Certificate Trust.
  Windows: double-click it, Install Certificate, Local Machine, "Trusted Root Certification Authorities".
  macOS: open it in Keychain Access, then set "Always Trust".   Firefox: Settings, Certificates, Authorities, Import.
Keep {key} off the network once this is done: whoever has it can pose as any site to these devices.
{server} is good until {until:%Y-%m-%d}. To renew: move server.crt and server.key away and run this again.
"""


class Command(BaseCommand):
    help = "Make the shop's certificate authority, where there is none, and a server certificate for these names."
    requires_system_checks = []

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("names", nargs="+", metavar="NAME", help="host name or IP address, as typed in the address bar")
        parser.add_argument("--folder", type=Path, default=settings.DATA_DIR / "certificates")

    def handle(self, *, names: list[str], folder: Path, **options: object) -> None:
        at = timezone.now()
        try:
            made = certificates.make(names, folder, at)
        except (certificates.Exists, certificates.BadName) as refusal:
            raise CommandError(str(refusal)) from None
        for path in made:
            self.stdout.write(f"made {path}")
        paths = {"authority": "shop-authority.crt", "key": "shop-authority.key", "server": "server.crt"}
        told = {name: folder / file for name, file in paths.items()}
        self.stdout.write(TRUST.format(until=at + timedelta(days=certificates.SERVER_DAYS), **told))
