"""Which state of the program played a visit: a digest of the files that decide how it goes."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

from helmwright.study.players import model
from helmwright.visit.sheet_digest import sheet_digest

ROOMS = ("units", "geometry", "belief", "anatomy", "catalogue", "fit", "visit", "study")
"""Rooms whose code decides what is proposed, found and counted."""

TELLING = {
    "study": (
        "__init__", "aims", "figures", "fingerprint", "page", "plan", "plots", "results", "run",
        "tables",
    ),
    "visit": (
        "lines", "lines_findings", "lines_in", "lines_out", "lines_schema", "lines_told", "wire",
        "wire_build", "wire_fault", "wire_form",
    ),
}  # fmt: skip
"""Modules of these rooms that only choose, keep or tell what was played."""

DATA = {".py", ".toml", ".csv"}
_SHEETS = ("catalogue", "models")
_DIGITS = 16


def fingerprint() -> str:
    """Digest of the program as it stands and of the model sheet that is played, in hexadecimal.

    Notes
    -----
    Two states of the program with one fingerprint play the same visits where Python, numpy, scipy
    and numba are the same, which it does not look at. It goes by the files' text, so that a
    changed comment counts as a change too.
    """
    return digest_of(Path(__file__).parents[1], sheet_digest(model()[0]))


def digest_of(package: Path, sheet: str) -> str:
    """Digest of a package's deciding files, whatever their line ends, and of a sheet's digest."""
    found = hashlib.sha256(sheet.encode())
    for path in deciding(package):
        text = path.read_text(encoding="utf-8")
        name = path.relative_to(package).as_posix()
        found.update(f"\0{name}\0{text}".encode())
    return found.hexdigest()[:_DIGITS]


def deciding(package: Path) -> Iterator[Path]:
    """The files that decide, in the order of their names.

    Of the model sheets only the one that is played counts, by what it says.
    """
    for room in ROOMS:
        for path in sorted((package / room).rglob("*")):
            inside = path.relative_to(package)
            telling = inside.parent.as_posix() in TELLING and (
                inside.stem in TELLING[inside.parent.as_posix()]
            )
            if path.suffix in DATA and not telling and inside.parts[:2] != _SHEETS:
                yield path
