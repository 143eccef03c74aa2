"""Where the bench's numbers go: result files, tables in the pages, lines on the screen."""

import json
import os
import platform
import sys
from collections.abc import Iterable, Sequence
from importlib.metadata import version
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
RESULTS = ROOT / "bench" / "results"
PAGES = {
    "speed": ROOT / "docs" / "reference" / "bench.md",
    "solvers": ROOT / "docs" / "reference" / "bench.md",
    "room": ROOT / "docs" / "reference" / "bench.md",
    "gap": ROOT / "docs" / "reference" / "bench.md",
    "first-try": ROOT / "docs" / "explanation" / "first-try.md",
}
LIBRARIES = ("numpy", "numba", "scipy")


class MissingMarkersError(ValueError):
    """A page has no place for a table."""


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """A Markdown table."""
    lines = [list(heads), ["---"] * len(heads), *(list(row) for row in rows)]
    return "\n".join("| " + " | ".join(line) + " |" for line in lines)


def machine() -> dict[str, str | int]:
    """What the numbers were measured on; no name of the machine itself."""
    libraries = {name: version(name) for name in LIBRARIES}
    return {
        "cores": os.cpu_count() or 1,
        "system": platform.system(),
        "processor": platform.machine(),
        "python": platform.python_version(),
        **libraries,
    }


def machine_words(found: dict[str, str | int]) -> str:
    """The machine in one line."""
    libraries = ", ".join(f"{name} {found[name]}" for name in LIBRARIES)
    return (
        f"{found['cores']} cores, {found['system']} {found['processor']}, "
        f"Python {found['python']}, {libraries}"
    )


def load(name: str, folder: Path = RESULTS) -> dict[str, Any]:
    """What an earlier run left; nothing where there was none."""
    path = folder / f"{name}.json"
    return dict(json.loads(path.read_text(encoding="utf-8"))) if path.exists() else {}


def save(name: str, found: dict[str, Any], folder: Path = RESULTS) -> None:
    """Keep a result, whole or not at all."""
    folder.mkdir(parents=True, exist_ok=True)
    beside = folder / f".{name}.part"
    beside.write_text(_compact(found) + "\n", encoding="utf-8", newline="\n")
    beside.replace(folder / f"{name}.json")


def _compact(found: dict[str, Any]) -> str:
    """One line for each entry of the outermost lists and tables, so that changes can be read."""
    lines = []
    for key, value in found.items():
        if isinstance(value, dict) and value:
            inner = ",\n  ".join(f"{json.dumps(k)}: {json.dumps(v)}" for k, v in value.items())
            lines.append(f"{json.dumps(key)}: {{\n  {inner}\n }}")
        else:
            lines.append(f"{json.dumps(key)}: {json.dumps(value)}")
    return "{\n " + ",\n ".join(lines) + "\n}"


def publish(name: str, text: str, page: Path | None = None) -> None:
    """Put a table between its markers in its page.

    Raises
    ------
    MissingMarkersError
        Where the page does not have both markers.
    """
    path = page or PAGES[name]
    start, end = f"<!-- bench: {name} -->", f"<!-- end of {name} -->"
    before, found, rest = path.read_text(encoding="utf-8").partition(start)
    _, closed, after = rest.partition(end)
    if not (found and closed):
        raise MissingMarkersError(f"{path.name} needs the lines {start!r} and {end!r}")
    whole = f"{before}{start}\n\n{text.strip()}\n\n{end}{after}"
    path.write_text(whole, encoding="utf-8", newline="\n")


def say(line: str) -> None:
    """Progress, on stderr."""
    sys.stderr.write(f"bench: {line}\n")
    sys.stderr.flush()
