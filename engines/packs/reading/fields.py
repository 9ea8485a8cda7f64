"""What one entry of a file says, field by field; whatever is wrong is noted and a blank stands in its place."""

from abc import ABC, abstractmethod
from collections.abc import Collection

from engines.catalogue.data import Source
from engines.packs.reading.mistakes import Notes, quoted
from engines.packs.reading.texts import unfit

CODE = 60
CITED_MOST = {"document": 120, "revision": 40, "page": 40}


class Fields(ABC):
    """One line of a table, or one entry of a list. `line` is where it begins."""

    def __init__(self, file: str, line: int, notes: Notes) -> None:
        self.file, self.line, self.notes = file, line, notes

    @abstractmethod
    def typed(self, name: str) -> str:
        """The field as typed, blank where there is none."""

    @abstractmethod
    def listed(self, name: str) -> list[str]:
        """The field as a list of texts."""

    @abstractmethod
    def flag(self, name: str, *, blank: bool = False) -> bool: ...

    def line_of(self, name: str) -> int:
        return self.line

    def say(self, name: str, wrong: str, right: str) -> None:
        self.notes.say(self.file, self.line_of(name), wrong, right)

    def text(self, name: str, most: int = CODE, *, needed: bool = True) -> str:
        before = len(self.notes)
        text = self.typed(name).strip()
        if needed and not text and len(self.notes) == before:
            self.say(name, f"{name} is blank", f"fill in {name}")
        if len(text) > most:
            self.say(name, f"{name} {quoted(text)} has {len(text)} characters", f"at most {most} fit")
        if unfit(text):
            self.say(name, f"{name} holds signs that cannot be printed", "type it again in plain text")
        return text

    def word(self, name: str, words: Collection[str], *, blank: str | None = None) -> str:
        """One of the words. A blank is `blank`, or a mistake where there is none."""
        text = self.typed(name).strip()
        if not text and blank is not None:
            return blank
        if text not in words:
            self.say(name, f"{name} {quoted(text)} is not known", f"use one of: {', '.join(words)}")
            return blank or text
        return text

    def texts(self, name: str, words: Collection[str] | None = None, *, needed: bool = False) -> tuple[str, ...]:
        """The list, each text once and none blank, each one of the words where they are given."""
        before = len(self.notes)
        texts = [text.strip() for text in self.listed(name)]
        if needed and not texts and len(self.notes) == before:
            self.say(name, f"{name} is blank", "name at least one")
        for text in dict.fromkeys(texts):
            if not text:
                self.say(name, f"{name} holds a blank", "take out the stray separator")
            elif len(text) > CODE or unfit(text):
                self.say(name, f"{name} {quoted(text)} cannot be used", f"use at most {CODE} plain characters")
            elif words is not None and text not in words:
                self.say(name, f"{name} {quoted(text)} is not known", f"use one of: {', '.join(words)}")
            if text and texts.count(text) > 1:
                self.say(name, f"{name} holds {quoted(text)} twice", "name it once")
        return tuple(dict.fromkeys(text for text in texts if text))

    def source(self) -> Source:
        """Document, revision and page, each of which has to be there."""
        return Source(**{name: self.text(name, most) for name, most in CITED_MOST.items()})
