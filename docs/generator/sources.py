"""The page of sources: every record, and every figure that leans on it."""

from pathlib import Path

from docs.generator.figures import Use, all_records, uses
from docs.generator.markdown import document, table
from docs.generator.outside_checks import outside_checks
from helmwright.sources import Source, Standing

INTRODUCTION = """\
Every number of the program names one of these records. They stand in the order of how far they
carry: published values first, assumptions and inventions last. Below each are the figures that
lean on it, with the place in the code where they are set, and the files of the
[outside checks](outside-checks.md) that hold the program to it."""


def page(outside: Path) -> str:
    """Every source with its uses and the tests that hold the program to it, by standing."""
    found = uses()
    held = held_to(outside)
    parts = [INTRODUCTION]
    for standing in Standing:
        sources = [source for source in all_records().values() if source.standing is standing]
        if sources:
            parts.append(f"## {standing.value.capitalize()}")
            parts.extend(_entry(source, found, held.get(source.key, [])) for source in sources)
    return document("Sources", *parts)


def held_to(outside: Path) -> dict[str, list[str]]:
    """For each source key, the files of outside checks that name it."""
    held: dict[str, list[str]] = {}
    for check in outside_checks(outside):
        for key in check.keys:
            if check.file not in held.setdefault(key, []):
                held[key].append(check.file)
    return held


def _entry(source: Source, found: list[Use], held: list[str]) -> str:
    mine = [use for use in found if use.source == source]
    lines = [f"### {source.key}", source.citation]
    lines += [f"Where: {source.locator}"] if source.locator else []
    lines += [source.note] if source.note else []
    lines += _figures(mine)
    holders = [f"`{use.place}`" for use in mine if use.figure is None]
    lines += [f"Also behind {', '.join(holders)}."] if holders else []
    lines += [f"The program is held to it in {', '.join(held)}."] if held else []
    return "\n\n".join(lines)


def _figures(mine: list[Use]) -> list[str]:
    rows = [
        (
            f"`{use.place}`",
            f"{use.figure.value:g}",
            "" if use.figure.unit == "1" else use.figure.unit,
            "" if use.figure.spread is None else f"{use.figure.spread:g}",
            use.figure.note,
        )
        for use in mine
        if use.figure is not None
    ]
    return [table(("figure", "value", "unit", "SD", "what it is"), rows)] if rows else []
