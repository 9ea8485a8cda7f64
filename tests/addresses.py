"""Every address of the product, walked out of Django's resolver."""

from collections.abc import Iterator

from django.urls import URLPattern, URLResolver, get_resolver


def patterns(within: URLResolver | None = None, spaces: tuple[str, ...] = ()) -> Iterator[tuple[str, URLPattern]]:
    """Each pattern with its full name, such as `people:sign-in`; one without a name goes by its route."""
    for entry in (within or get_resolver()).url_patterns:
        if isinstance(entry, URLResolver):
            inside = (*spaces, entry.namespace) if entry.namespace else spaces
            yield from patterns(entry, inside)
        else:
            yield ":".join((*spaces, entry.name or f"<unnamed {entry.pattern}>")), entry
