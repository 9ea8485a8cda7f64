"""Bytes of one file as text that can be kept."""

from engines.packs.reading.mistakes import FILES, Notes, quoted

MOST_BYTES = 1024 * 1024


def texts_of(files: dict[str, bytes], notes: Notes) -> dict[str, str]:
    """The four files as text; what is missing, unknown, too large or no text is noted and left out."""
    for name in sorted(set(files) - set(FILES)):
        notes.say(name, None, f"a pack has no file {quoted(name)}", f"the files are {', '.join(FILES)}; take this one out")
    found = {}
    for name in FILES:
        if name not in files:
            notes.say(name, None, "the file is missing", f"a pack has the files {', '.join(FILES)}")
        elif len(files[name]) > MOST_BYTES:
            notes.say(name, None, "the file is larger than 1 MB", "a pack holds plain text only")
        else:
            text = _text(name, files[name], notes)
            if text is not None:
                found[name] = text
    return found


def _text(name: str, content: bytes, notes: Notes) -> str | None:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        notes.say(name, line, "the line is not UTF-8 text", "save the file as UTF-8")
        return None


def unfit(text: str) -> bool:
    """Whether a text holds what no page prints: control signs other than a line break, or half a sign."""
    return any((sign < " " and sign not in "\n\t") or sign == "\x7f" or "\ud800" <= sign <= "\udfff" for sign in text)
