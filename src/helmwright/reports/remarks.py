"""Lists of what was found in a roster, and of what was taken into account."""

from collections.abc import Iterable

from helmwright.reports.layout import bullets, heading
from helmwright.roster import Player, Remark, RosterAnswer
from helmwright.units import feet_and_inches, pounds

READINGS_TITLE = "Look at these readings"


def remark_list(title: str, remarks: Iterable[Remark], width: int) -> list[str]:
    """What was found, under its title; nothing where there is nothing."""
    said = [str(remark) for remark in remarks]
    return [*heading(title, width), *bullets(said, width)] if said else []


def put_right(answer: RosterAnswer) -> tuple[Remark, ...]:
    """Why rows are not answered, and what else is to be looked at in the same rows."""
    rows = _unanswered(answer)
    notices = (each for each in answer.notices if each.row in rows)
    return tuple(sorted((*answer.problems, *notices), key=lambda each: each.row))


def look_at(answer: RosterAnswer) -> tuple[Remark, ...]:
    """What is to be looked at in rows that are answered, and in the file as a whole."""
    rows = _unanswered(answer)
    return tuple(each for each in answer.notices if each.row not in rows)


def _unanswered(answer: RosterAnswer) -> set[int]:
    return {each.row for each in answer.problems} - {each.player.row for each in answer.answers}


def body_words(player: Player) -> str:
    """Age, height, weight and sex as they were understood, or nothing: "6-3, 260 lb, male"."""
    known = (
        age_words(player),
        feet_and_inches(player.stature_mm) if player.stature_mm else "",
        pounds(player.weight_kg) if player.weight_kg else "",
        str(player.sex or ""),
    )
    return ", ".join(part for part in known if part)


def age_words(player: Player) -> str:
    """Age as it was understood, or nothing: "12 years", "8 to 14 years"."""
    if player.age_years is not None:
        years = f"{player.age_years:.1f}".removesuffix(".0")
    elif player.ages is not None:
        years = " to ".join(f"{age:g}" for age in player.ages)
    else:
        return ""
    return f"{years} years"


def who_lines(player: Player) -> list[str]:
    """Name and body on one line, where either is known."""
    body = body_words(player)
    shown = [part for part in (player.label if player.name else "", body) if part]
    return [": ".join(shown)] if shown else []
