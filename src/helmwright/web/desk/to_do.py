"""What needs doing, as sentences: the reason, and the act beside each."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from urllib.parse import urlencode

from django.urls import reverse

from helmwright.records.good_to_issue import MARKS, HelmetStanding
from helmwright.records.readers.helmets import HelmetRow
from helmwright.records.readers.need import PartNeed
from helmwright.records.readers.now import Situation
from helmwright.records.readers.roster import PlayerRow
from helmwright.records.words import us_date
from helmwright.web.desk.part_words import place_words
from helmwright.web.desk.parts_lane import WATCHED, left_words
from helmwright.web.desk.told_together import (
    NO_BUILD,
    NOT_GOOD,
    NOT_SIGNED,
    ON_HOLD,
    REFIT_DUE,
    UNKNOWN,
    UNMEASURED,
    Helmets,
    Players,
)

SOON = timedelta(days=60)
"""So long before a certification lapses it is told: the way to a reconditioner and back takes two
to six weeks, and more in spring (the trade's own pages differ); assumed."""

NAMED = 8
"""So many are named; the others are counted."""


@dataclass(frozen=True, slots=True)
class ToDo:
    """One sentence: what, why, and the act with its address."""

    mark: str
    word: str
    what: str
    why: str
    act: str
    address: str


def to_do(
    found: Situation, *, may_count: bool = True, tells_symptoms: bool = True
) -> tuple[ToDo, ...]:
    """Everything that needs doing; what must not wait first."""
    return (
        *_chain(found),
        *(_symptoms(found) if tells_symptoms else ()),
        *_out_and_not_good(found),
        *_doubted(found),
        *_paused(found),
        *_players(found, NOT_SIGNED),
        *_players(found, NO_BUILD),
        *_players(found, REFIT_DUE),
        *_to_count(found, may_count=may_count),
        *_short(found),
        *_of_standing(found, ON_HOLD),
        *_of_standing(found, NOT_GOOD),
        *_lapsing(found),
        *_of_standing(found, UNKNOWN),
        *_players(found, UNMEASURED),
    )


def _chain(found: Situation) -> Iterator[ToDo]:
    if found.chain.fault:
        yield ToDo(
            "no",
            "stop",
            "The ledger is not as it was written.",
            f"{found.chain.fault[:1].upper()}{found.chain.fault[1:]}. Let nobody write on; keep a"
            " copy of the room's folder, and compare with a backup.",
            "",
            "",
        )


def _symptoms(found: Situation) -> Iterator[ToDo]:
    if found.symptoms:
        yield ToDo(
            "check",
            "athletic trainer first",
            _many(
                found.symptoms,
                "player reported a symptom at a fitting",
                "players reported a symptom at a fitting",
            ),
            "A helmet change never takes the place of an evaluation. Nobody here clears a player:"
            " fit again when the athletic trainer says so.",
            "See the player" if len(found.symptoms) == 1 else "See the roster",
            _players_address(found.symptoms),
        )


def _out_and_not_good(found: Situation) -> Iterator[ToDo]:
    rows = [row for row in found.helmets if row.holder and not row.verdict.may_be_issued]
    for row in rows[:NAMED]:
        holder = row.holder.number or row.holder.name if row.holder else ""
        yield ToDo(
            row.verdict.mark,
            row.verdict.word,
            f"{row.code} is with {holder} and is {row.verdict.word}.",
            f"{row.verdict.why} Take it in before it is worn again.",
            "See the helmet",
            reverse("helmet", args=[row.code]),
        )


def _doubted(found: Situation) -> Iterator[ToDo]:
    for each in found.doubted[:NAMED]:
        count = len(each.entries)
        many = "1 entry" if count == 1 else f"{count} entries"
        where = f" at {each.station}" if each.station else ""
        yield ToDo(
            "check",
            "who was it",
            f"{many}{where} in the name of {each.named} came while {each.signed_in} was signed in.",
            f"{each.named} had given no PIN there within the day. What was done stands; ask"
            f" {each.named}, and say whether it was so.",
            "Say who it was",
            reverse("doubts"),
        )


def _paused(found: Situation) -> Iterator[ToDo]:
    for visit in found.paused[:NAMED]:
        where = f" at {visit.station}" if visit.station else ""
        yield ToDo(
            "kept",
            "paused",
            f"The visit of {visit.number} is paused{where}.",
            f"It goes on with {visit.waits_for or 'what was asked last'}.",
            "See the player",
            reverse("player", args=[visit.player]),
        )


def _players(found: Situation, group: Players) -> Iterator[ToDo]:
    rows = found.by_standing[group.standing]
    if rows:
        yield ToDo(
            group.mark,
            group.standing,
            _many(rows, group.one, group.more),
            rows[0].why if group.has_why and len(rows) == 1 else group.why,
            "See who",
            _roster(group.standing),
        )


def _to_count(found: Situation, *, may_count: bool) -> Iterator[ToDo]:
    act, page = ("Count it", "store-count") if may_count else ("See the store", "store")
    for row in found.below_zero[:NAMED]:
        yield ToDo(
            "check",
            "count it",
            f"{place_words(row.place).capitalize()} {row.size} is to be counted in"
            f" {row.store_name}.",
            f"{left_words(row.on_hand).capitalize()}: the list is wrong by at least that much.",
            act,
            reverse(page, args=[row.store]),
        )


def _short(found: Situation) -> Iterator[ToDo]:
    parts = [
        part
        for part in found.need.parts
        if part.outlook.short >= WATCHED and part.outlook.on_hand >= 0
    ]
    if parts:
        many = "1 part" if len(parts) == 1 else f"{len(parts)} parts"
        yield ToDo(
            "check",
            "may run out",
            f"{many} may run out before everybody is fitted.",
            f"Likeliest: {'; '.join(map(_likeliest, parts[:3]))}. Expected from the builds so far"
            " (assumed while they are few).",
            "See stock and need",
            reverse("stores"),
        )


def _of_standing(found: Situation, group: Helmets) -> Iterator[ToDo]:
    rows = [row for row in found.helmets if row.verdict.standing is group.standing]
    if not group.with_holders_too:
        rows = [row for row in rows if row.holder is None]
    if rows:
        yield ToDo(
            MARKS[group.standing],
            group.word,
            _helmets(rows, group.one, group.more),
            rows[0].verdict.why if len(rows) == 1 else group.why,
            group.act,
            _list(group.standing),
        )


def _lapsing(found: Situation) -> Iterator[ToDo]:
    rows = [row for row in found.helmets if _lapses_soon(row, found.today)]
    if rows:
        first = min(row.verdict.lapses_on for row in rows if row.verdict.lapses_on)
        yield ToDo(
            "check",
            "lapses soon",
            _helmets(rows, "lapses within 60 days", "lapse within 60 days"),
            f"The first lapses on {us_date(first)}. Only a licensed firm recertifies.",
            "See the helmets",
            reverse("helmets"),
        )


def _lapses_soon(row: HelmetRow, today: date) -> bool:
    lapses = row.verdict.lapses_on
    return row.verdict.may_be_issued and lapses is not None and lapses <= today + SOON


def _many(rows: Sequence[PlayerRow], one: str, more: str) -> str:
    """A sentence that counts players and names the first of them by number."""
    count = f"1 {one}" if len(rows) == 1 else f"{len(rows)} {more}"
    numbers = [row.player.number or str(row.player) for row in rows]
    return f"{count}: {_named(numbers)}."


def _helmets(rows: Sequence[HelmetRow], one: str, more: str) -> str:
    codes = [row.code for row in rows]
    if len(codes) == 1:
        return f"{codes[0]} {one}."
    return f"{len(codes)} helmets {more}: {_named(codes)}."


def _named(names: Sequence[str]) -> str:
    """The first few, and how many more."""
    if len(names) <= NAMED:
        return ", ".join(names)
    return f"{', '.join(names[:NAMED])} and {len(names) - NAMED} more"


def _likeliest(part: PartNeed) -> str:
    return f"{place_words(part.place)} {part.size}: {left_words(part.outlook.on_hand)}"


def _roster(standing: str) -> str:
    return f"{reverse('roster')}?{urlencode({'standing': standing})}"


def _players_address(rows: Sequence[PlayerRow]) -> str:
    return reverse("player", args=[rows[0].player.id]) if len(rows) == 1 else reverse("roster")


def _list(standing: HelmetStanding) -> str:
    return f"{reverse('helmets')}?{urlencode({'standing': standing.value})}"
