"""Text of several lines as the notes that it stands for."""


def words_and_standing(text: str) -> list[tuple[str, str]]:
    return [(line.strip()[:400], "") for line in text.splitlines() if line.strip()]
