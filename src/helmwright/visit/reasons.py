"""Why a build is to be tried, in one sentence that names the finding it answers."""

from collections.abc import Iterable, Sequence

from helmwright.anatomy import spoken_name
from helmwright.catalogue.zone import Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.next_build_why import Move, Why
from helmwright.fit.outlook import MeasureGain
from helmwright.units import MM_PER_INCH, inches

NAMES = {
    Zone.CROWN: "crown",
    Zone.FRONT: "front",
    Zone.REAR: "rear",
    Zone.LEFT: "left side",
    Zone.RIGHT: "right side",
    Zone.NAPE: "nape",
    Zone.JAW_LEFT: "left jaw",
    Zone.JAW_RIGHT: "right jaw",
}
"""Zones as a fitter says them."""

PLACES = {zone: f"at the {name}" for zone, name in NAMES.items()} | {Zone.FRONT: "in front"}

_BOTH = (
    ((Zone.LEFT, Zone.RIGHT), "both sides", "the sides"),
    ((Zone.JAW_LEFT, Zone.JAW_RIGHT), "both jaw pads", "the jaw pads"),
)

_OTHER_FINDINGS = {
    (Sign.PUT_ON, Grade.UNDER): "falls down over the eyes",
    (Sign.PUT_ON, Grade.OVER): "hardly goes on",
    (Sign.EARS, Grade.UNDER): "ear openings too low",
    (Sign.EARS, Grade.OVER): "ear openings too high",
    (Sign.TURN, Grade.UNDER): "slides when turned",
    (Sign.NOD, Grade.UNDER): "slides when pulled forward or back",
    (Sign.NOSE, Grade.UNDER): "face guard too near the nose",
    (Sign.NOSE, Grade.OVER): "face guard too far from the nose",
    (Sign.SIGHT, Grade.UNDER): "face guard in the line of sight",
    (Sign.SIGHT, Grade.OVER): "face guard in the line of sight",
}

ALL = 100
"""Percent."""

LIMIT_ERRORS = 1.96
"""Standard errors within which a count stays 19 times of 20."""

_STILL = 2
"""So many things that stay are named; more are the rest."""


def sentence(why: Why) -> str:
    """Why a build is to be tried, such as "Front found loose: 1/8 in thicker in front; ...".

    Parameters
    ----------
    why
        The findings, and what is changed.
    """
    change = "; ".join(part for part in _changed(why) if part)
    if not why.answers:
        return f"The best of what is here for this head: {change}."
    return _capital(f"{', '.join(_findings(why.answers))}: {change}.")


def measure_sentence(gain: MeasureGain, chance: float) -> str:
    """Why a measure is to be taken before the next try.

    Parameters
    ----------
    gain
        What it is expected to add to the chance that a build is found right, with its error.
    chance
        Chance of the build that would be tried without it [1].
    """
    off = max(100 * LIMIT_ERRORS * gain.error, 1)
    return (
        f"Measure the {spoken_name(gain.measure)} first: knowing it should raise the chance"
        f" that the next try is found right, some {100 * chance:.0f} of 100 now, by about"
        f" {100 * gain.gain:.0f}, give or take {off:.0f}, 19 times of 20."
    )


def _changed(why: Why) -> Iterable[str]:
    yield _moves_words(why)
    yield _contrary_words(why)
    yield _snug_words(why)
    yield _still_words(why)


def _moves_words(why: Why) -> str:
    moved = ", ".join(
        f"{inches(abs(by), denominator=_parts(by))} in {'thicker' if by > 0 else 'thinner'}"
        f" {_listed(_places(zones))}"
        for by, zones in _by_step(why.moves)
    )
    if why.shells is None:
        return moved or "no pad changes"
    before, after = why.shells
    shell = f"shell {after} instead of {before}"
    return f"{shell}, there {moved}" if moved else f"{shell} as it lies there"


def _by_step(moves: Sequence[Move]) -> list[tuple[float, list[Zone]]]:
    """Zones whose pads change by the same, the first zone's step first."""
    found: dict[float, list[Zone]] = {}
    for move in moves:
        found.setdefault(round(move.by_mm, 2), []).append(move.zone)
    return list(found.items())


def _parts(length_mm: float) -> int:
    """Eighths where they say it to a fiftieth of an inch, else sixteenths, else 32nds."""
    for parts in (8, 16):
        steps = length_mm / MM_PER_INCH * parts
        if abs(steps - round(steps)) <= 0.02 * parts:
            return parts
    return 32


def _contrary_words(why: Why) -> str:
    """Where a pad moves against what was found there last, that everything found says so."""
    zones = [
        move.zone
        for move in why.moves
        for each in why.answers
        if (each.sign, each.zone) == (Sign.ZONE, move.zone) and move.by_mm * each.grade > 0
    ]
    if why.shells is not None or not zones:
        return ""
    return f"{_listed(_places(zones))} all that was found speaks for it, against the last answer"


def _snug_words(why: Why) -> str:
    if not why.touched_snug:
        return ""
    share = round(100 * why.saved)
    saving = f", which should save {share} % of the time" if 0 < share < ALL else ""
    many = len(why.touched_snug) > 1
    words = "were snug and change" if many else "was snug and changes"
    return f"{_listed(_names(why.touched_snug))} {words} all the same{saving}"


def _still_words(why: Why) -> str:
    """What was snug and stays; and what was found wrong and is answered elsewhere."""
    moved = {move.zone for move in why.moves}
    left = [each.zone for each in why.answers if each.zone is not None and each.zone not in moved]
    if why.shells is not None:
        return ""
    if left:
        names = _listed(f"the {name}".replace("the both", "both") for name in _names(left))
        return f"{names} should come right with that"
    stay = _names(why.stay, definite=True)
    if not why.answers or not stay:
        return ""
    if len(stay) > _STILL:
        return "what was snug stays"
    return f"{_listed(stay)} {'stay' if len(why.stay) > 1 else 'stays'}"


def _findings(answers: Sequence[Finding]) -> list[str]:
    """Findings in words: zones that came out alike together, "found" said once."""
    words, found = [], "found "
    for each in answers:
        if each.sign is Sign.BROW:
            words.append(f"too {'low' if each.grade is Grade.UNDER else 'high'} on the brow")
        elif each.sign is Sign.HOT_SPOT and each.zone is not None:
            words.append(f"hot spot {PLACES[each.zone]}")
        elif each.sign is not Sign.ZONE:
            words.append(_OTHER_FINDINGS.get((each.sign, each.grade), f"{each.sign} not right"))
    for grade, word in ((Grade.UNDER, "loose"), (Grade.OVER, "tight")):
        zones = [e.zone for e in answers if e.sign is Sign.ZONE and e.grade is grade and e.zone]
        if zones:
            words.append(f"{_listed(_names(zones))} {found}{word}")
            found = ""
    return words


def _names(zones: Sequence[Zone], *, definite: bool = False) -> list[str]:
    """Names of zones, left and right of a kind together."""
    article = "the " if definite else ""
    told, left = [], list(zones)
    for pair, both, the_both in _BOTH:
        if all(zone in left for zone in pair):
            at = left.index(pair[0])
            left = [zone for zone in left if zone not in pair]
            told.append((at, the_both if definite else both))
    told += [(list(zones).index(zone), article + NAMES[zone]) for zone in left]
    return [name for _, name in sorted(told)]


def _places(zones: Sequence[Zone]) -> list[str]:
    """Where pads change, left and right of a kind together."""
    told, left = [], list(zones)
    for pair, both, _ in _BOTH:
        if all(zone in left for zone in pair):
            left = [zone for zone in left if zone not in pair]
            told.append((list(zones).index(pair[0]), f"at {both}"))
    told += [(list(zones).index(zone), PLACES[zone]) for zone in left]
    return [place for _, place in sorted(told)]


def _listed(words: Iterable[str]) -> str:
    """One, two and three."""
    all_words = list(words)
    if not all_words[1:]:
        return "".join(all_words)
    return f"{', '.join(all_words[:-1])} and {all_words[-1]}"


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
