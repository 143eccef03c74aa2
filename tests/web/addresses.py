"""Every address of the room, out of its own table of addresses."""

from collections.abc import Iterator
from typing import NamedTuple
from uuid import UUID

from django.urls import URLPattern, URLResolver, get_resolver

SOME_ID = UUID("01988d2b-0000-7000-8000-000000000001")


class Address(NamedTuple):
    """A name, and the path with an example for whatever varies in it."""

    name: str | None
    path: str


def every_address() -> list[Address]:
    return list(_found(get_resolver().url_patterns, ""))


def _found(patterns, before: str) -> Iterator[Address]:
    for each in patterns:
        here = before + _example(each.pattern)
        if isinstance(each, URLResolver):
            yield from _found(each.url_patterns, here)
        elif isinstance(each, URLPattern):
            yield Address(each.name, f"/{here}")


def _example(pattern) -> str:
    route = str(pattern)
    for name, converter in pattern.converters.items():
        kind = type(converter).__name__
        example = {"UUIDConverter": str(SOME_ID), "IntConverter": "1"}.get(kind, "TV-0001")
        for shape in (f"<uuid:{name}>", f"<int:{name}>", f"<str:{name}>", f"<slug:{name}>"):
            route = route.replace(shape, example)
        route = route.replace(f"<{name}>", example)
    return route
