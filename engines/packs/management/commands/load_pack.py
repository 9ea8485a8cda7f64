"""manage.py load_pack PATH --by USERNAME: keep the data of a folder or zip as a draft."""

from pathlib import Path

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from engines.catalogue.errors import DataRefused
from engines.packs.reading import PackMistakes
from engines.packs.services import load_pack
from shopfloor.people.models import Person
from shopfloor.people.permissions import Permission, may, refusal

REFUSED = 2


class Command(BaseCommand):
    help = "Keep an engine data pack, a folder or a zip of one, as a draft. Every mistake in it is told, one on a line."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("path", type=Path, metavar="PATH", help="folder or zip of the pack")
        parser.add_argument("--by", required=True, metavar="USERNAME", help="the person who loads it")

    def handle(self, *, path: Path, by: str, **options: object) -> None:
        person = Person.objects.filter(username=by, is_active=True).first()
        if person is None:
            raise CommandError(f"Nobody signs in as {by}.", returncode=REFUSED)
        if not may(person, Permission.LOAD_DATA):
            raise CommandError(refusal(Permission.LOAD_DATA), returncode=REFUSED)
        try:
            pack = load_pack(data=path, name=path.name, by=person, at=timezone.now())
        except PackMistakes as found:
            for mistake in found.mistakes:
                self.stderr.write(str(mistake))
            raise CommandError(f"Nothing was kept; mistakes: {len(found.mistakes)}.", returncode=REFUSED) from found
        except DataRefused as refused:
            raise CommandError(str(refused), returncode=REFUSED) from refused
        except OSError as error:
            raise CommandError(f"{path} cannot be read: {error.strerror}.", returncode=REFUSED) from error
        self.stdout.write(f"{pack} is a draft. Another person checks and approves it on its page.")
