"""What the data say of cleaning: which material each part is of, what may touch it, what is masked, which passages are proved."""

from collections.abc import Iterator, Mapping
from typing import Any

from engines.catalogue.data import Operation
from engines.steps.details import is_texts, wrong_names

NEEDED, OTHERS = ("materials", "media", "passages"), ("proofs", "blasting", "masked")
NONE = "none"

Details = Mapping[str, Any]


def permitted(details: Details, line: str) -> list[str]:
    """The media that the data permit on the material of that part."""
    return list(details["media"][details["materials"][line]])


def every_medium(details: Details) -> list[str]:
    return list(dict.fromkeys(each for media in details["media"].values() for each in media))


def is_blasted(details: Details, medium: str) -> bool:
    return medium in details.get("blasting", ())


def masked_first(details: Details, line: str) -> list[str]:
    return list(details["masked"][line])


def passages(details: Details, line: str) -> list[str]:
    return [each["passage"] for each in _listed(details, line)]


def plugs(details: Details, line: str) -> list[str]:
    return [each["plug"] for each in _listed(details, line) if "plug" in each]


def _listed(details: Details, line: str) -> list[Mapping[str, str]]:
    given = details["passages"][line]
    return [] if given == NONE else list(given)


def wrong_cleaning(kind: str, operation: Operation) -> Iterator[str]:
    """What is wrong with the details of such an operation, a sentence each; the next is asked only where it can be."""
    details, names = operation.details, set(operation.names)
    wrong = [*wrong_names(kind, details, NEEDED, OTHERS), *_wrong_lists(details)]
    for name in (each for each in ("materials", "passages") if isinstance(details.get(each), dict)):
        wrong += [f"{name} do not say “{each}”" for each in sorted(names - set(details[name]))]
        wrong += [f"{name} say “{each}”, which is not cleaned here" for each in sorted(set(details[name]) - names)]
    yield from wrong or [*_without_media(details), *_blasted_unmasked(operation)]


def _wrong_lists(details: Details) -> Iterator[str]:
    yield from (f"{name} are a mapping" for name in NEEDED if name in details and not isinstance(details[name], dict))
    yield from (f"{name} is a list of texts, each once" for name in ("proofs", "blasting") if not _fits(details, name))
    if not all(isinstance(each, str) for each in _values(details, "materials")):
        yield "materials name one material for each part"
    if not all(is_texts(each) for each in _values(details, "media")):
        yield "media are a list of texts for each material"
    if not all(_are_passages(each) for each in _values(details, "passages")):
        yield f"passages of a part are a list, each with passage and, where it has one, plug; or {NONE}"
    if any(each != NONE for each in _values(details, "passages")) and "proofs" not in details:
        yield "proofs do not say how a passage is proved clear"
    if "masked" in details and not all(is_texts(each) for each in _values(details, "masked") or [""]):
        yield "masked is a list of texts for each part that is blasted"


def _fits(details: Details, name: str) -> bool:
    return name not in details or is_texts(details[name])


def _values(details: Details, name: str) -> list[Any]:
    given = details.get(name)
    return list(given.values()) if isinstance(given, dict) else []


def _are_passages(given: object) -> bool:
    return given == NONE or (isinstance(given, list) and bool(given) and all(map(_is_passage, given)) and not _is_twice(given))


def _is_passage(given: object) -> bool:
    known = {"passage", "plug"}
    return isinstance(given, dict) and "passage" in given and set(given) <= known and all(map(_is_text, given.values()))


def _is_text(given: object) -> bool:
    return isinstance(given, str) and bool(given.strip())


def _is_twice(rows: list[Mapping[str, str]]) -> bool:
    named = ([each[key] for each in rows if key in each] for key in ("passage", "plug"))
    return any(len(set(names)) < len(names) for names in named)


def _without_media(details: Details) -> Iterator[str]:
    used = dict.fromkeys(details["materials"].values())
    yield from (f"media permit nothing on {each}" for each in used if each not in details["media"])
    known = every_medium(details)
    yield from (f"blasting names “{each}”, which is no medium" for each in details.get("blasting", ()) if each not in known)


def _blasted_unmasked(operation: Operation) -> Iterator[str]:
    """A part that may be blasted is masked first: nobody blasts where the data do not say what to cover."""
    details, masked = operation.details, operation.details.get("masked", {})
    for name in operation.names:
        media = details["media"].get(details["materials"][name], ())
        if name not in masked and any(is_blasted(details, each) for each in media):
            yield f"“{name}” may be blasted, and masked does not say what is covered first"
    yield from (f"masked says “{each}”, which is not cleaned here" for each in masked if each not in operation.names)
