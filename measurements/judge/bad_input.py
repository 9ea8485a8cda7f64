"""The one refusal of a file: which file, which line, what is wrong."""


class BadInput(Exception):
    """Nothing can be judged until the named line is put right. `line` is None where the file as a whole is at fault."""

    def __init__(self, file: str, line: int | None, sentence: str) -> None:
        super().__init__(file, line, sentence)
        self.file = file
        self.line = line
        self.sentence = sentence

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{place}: {self.sentence}"
