"""manage.py load_scenario: the invented shop, for trying the product out. Safe to repeat."""

from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from engines.scenario.chapters.people import ACCOUNTS
from engines.scenario.passwords import DEMO_PASSWORD
from engines.scenario.services import Refused, load_scenario


class Command(BaseCommand):
    help = "Load what is missing of the invented shop, and print its accounts. Refused in mode `shop`."

    def handle(self, **options: object) -> None:
        try:
            load_scenario(at=timezone.now(), say=self.stdout.write)
        except Refused as refusal:
            raise CommandError(str(refusal)) from None
        self.stdout.write("Saltmarsh Engine Works, an invented shop. Its limits are for no real engine. Sign in as")
        for account in ACCOUNTS:
            self.stdout.write(f"  {account.username:<10} {account.role.label}")
        self.stdout.write(f"each with the password  {DEMO_PASSWORD}")
