"""Which pages are generated, and whether they are fresh."""

from pathlib import Path

from docs.generator import commands, exports, nomenclature, outside_checks, protocol, sources
from helmwright.visit.lines_schema import visit_schema_text

ROOT = Path(__file__).resolve().parents[2]
REFERENCE = ROOT / "docs" / "reference"
OUTSIDE = ROOT / "tests" / "outside"


def pages() -> dict[str, str]:
    """Every generated page as it should be: file name in docs/reference, and its text."""
    return {
        "commands.md": commands.page(),
        "exports.md": exports.page(),
        "nomenclature.md": nomenclature.page(REFERENCE / "words.toml"),
        "outside-checks.md": outside_checks.page(OUTSIDE),
        "protocol.md": protocol.page(),
        "sources.md": sources.page(OUTSIDE),
        "visit.schema.json": visit_schema_text(),
    }


def stale(folder: Path = REFERENCE) -> list[str]:
    """The names of the pages that are missing or not as they should be."""
    return [name for name, text in pages().items() if not _reads(folder / name, text)]


def _reads(path: Path, text: str) -> bool:
    return path.exists() and path.read_text(encoding="utf-8") == text
