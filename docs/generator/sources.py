"""The page of sources: every record, and every figure that leans on it."""

from docs.generator.figures import Use, all_records, uses
from docs.generator.markdown import document, table
from helmwright.sources import Source, Standing

INTRODUCTION = """\
Every number of the program names one of these records. They stand in the order of how far they
carry: published values first, assumptions and inventions last. Below each are the figures that
lean on it, with the place in the code where they are set."""


def page() -> str:
    """Every source with its uses, by standing."""
    found = uses()
    parts = [INTRODUCTION]
    for standing in Standing:
        sources = [source for source in all_records().values() if source.standing is standing]
        if sources:
            parts.append(f"## {standing.value.capitalize()}")
            parts.extend(_entry(source, found) for source in sources)
    return document("Sources", *parts)


def _entry(source: Source, found: list[Use]) -> str:
    mine = [use for use in found if use.source == source]
    lines = [f"### {source.key}", source.citation]
    lines += [f"Where: {source.locator}"] if source.locator else []
    lines += [source.note] if source.note else []
    lines += _figures(mine)
    holders = [f"`{use.place}`" for use in mine if use.figure is None]
    lines += [f"Also behind {', '.join(holders)}."] if holders else []
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
