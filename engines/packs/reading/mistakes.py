"""What is wrong with a pack: where it stands, what is wrong, what would be right."""

from collections.abc import Iterable
from typing import NamedTuple

PACK, PARTS, ROUTE, LIMITS = FILES = ("pack.yaml", "parts.csv", "route.yaml", "limits.csv")


class Mistake(NamedTuple):
    """`line` is None where a file as a whole is at fault."""

    file: str
    line: int | None
    wrong: str
    right: str

    @property
    def place(self) -> str:
        return self.file if self.line is None else f"{self.file}:{self.line}"

    def __str__(self) -> str:
        return f"{self.place}: {self.wrong}; {self.right}"


class PackMistakes(Exception):
    """Nothing of the pack can be kept until every mistake named here is put right."""

    def __init__(self, mistakes: Iterable[Mistake]) -> None:
        self.mistakes = sorted(set(mistakes), key=_by_place)
        super().__init__("\n".join(map(str, self.mistakes)))


class Notes(list[Mistake]):
    """Mistakes as they are found.

    `cut` says that a file could not be read to its end; `unread` holds the first field of each line that could not be read.
    """

    def __init__(self) -> None:
        super().__init__()
        self.cut = False
        self.unread: set[str] = set()

    def follows(self, mistake: Mistake) -> bool:
        """Whether a mistake may only be there because a line could not be read."""
        return any(quoted(name) in mistake.wrong for name in self.unread)

    def say(self, file: str, line: int | None, wrong: str, right: str) -> None:
        self.append(Mistake(file, line, wrong, right))


def quoted(text: str) -> str:
    """Typed text inside a sentence, cut where it is long."""
    return f"“{text[:40]}”"


def _by_place(mistake: Mistake) -> tuple[int, int, str]:
    file = FILES.index(mistake.file) if mistake.file in FILES else -1
    return file, mistake.line or 0, mistake.wrong
