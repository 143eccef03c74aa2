"""A template and its data set as PDF, offline, by the typesetter that the package brings."""

import json
from collections.abc import Mapping
from importlib.resources import files
from typing import Any

STANDARD = "ua-1"
"""PDF/UA-1: tagged, titled, readable aloud."""

SHARED = ("words.typ",)


def typeset(template: str, data: Mapping[str, Any], pictures: Mapping[str, bytes]) -> bytes:
    """The PDF of one template.

    Parameters
    ----------
    template
        Name of a template beside this module.
    data
        What it shows; its `title` is the document's.
    pictures
        Contents of the picture files that the data name.

    Notes
    -----
    All the pages are set in one go, since starting the typesetter costs more than a page. Letters
    that the package's own fonts lack come from the system's; where that has none either, the
    document is set without the promise of PDF/UA, which forbids letters that nobody can see.
    """
    import typst  # noqa: PLC0415 - what takes long to load is loaded where it is used

    room = files("helmwright.reports.paper")
    given: dict[str, Any] = {
        "main.typ": room.joinpath(template).read_bytes(),
        "data.json": json.dumps(data).encode(),
        **{name: room.joinpath(name).read_bytes() for name in SHARED},
        **pictures,
    }
    fonts = [str(room.joinpath("fonts"))]
    # The types that come with the typesetter know of single files only.
    compiled: Any = typst.compile
    try:
        return bytes(compiled(given, format="pdf", font_paths=fonts, pdf_standards=STANDARD))
    except typst.TypstError as error:
        if MISSING not in str(error):
            raise
        return bytes(compiled(given, format="pdf", font_paths=fonts))


MISSING = "could not be displayed"
"""What the typesetter says of a letter that no font has."""
