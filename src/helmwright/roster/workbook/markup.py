"""The XML parts of a workbook, read event by event, without what could make a small file large."""

from collections.abc import Callable
from xml.parsers import expat

from helmwright.roster.remark import RosterError
from helmwright.roster.workbook.archive import broken

Attributes = dict[str, str]


def _local(name: str) -> str:
    """A name without its namespace: writers of workbooks use two of them."""
    return name.rpartition(" ")[2]


def parse(
    part: bytes,
    *,
    start: Callable[[str, Attributes], None],
    end: Callable[[str], None] = lambda _name: None,
    text: Callable[[str], None] = lambda _text: None,
) -> None:
    """Calls back for each element and text of a part, by names without their namespaces.

    Raises
    ------
    RosterError
        Where the part is no XML, declares entities, which no workbook does, or holds what a
        callback cannot take.

    """
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True

    def started(name: str, attributes: Attributes) -> None:
        start(_local(name), {_local(key): value for key, value in attributes.items()})

    def refused(*_declared: object) -> None:
        raise broken()

    parser.StartElementHandler = started
    parser.EndElementHandler = lambda name: end(_local(name))
    parser.CharacterDataHandler = text
    parser.StartDoctypeDeclHandler = refused
    try:
        parser.Parse(part, True)  # noqa: FBT003 - the library's own signature
    except RosterError:
        raise
    except (expat.ExpatError, ValueError, LookupError) as error:
        raise broken() from error
