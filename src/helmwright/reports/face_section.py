"""Face guard and chin strap in sentences: for the build page, for the roster page, for a card."""

from collections.abc import Iterable
from dataclasses import dataclass

from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.face_choice import FaceChoice, FaceSet
from helmwright.fit.face_outlook import FaceOutlook, GuardOutlook, StrapOutlook
from helmwright.fit.guard import HEAD_CENTER, HEAD_MASS, NECK_JOINT, gravity_moment_nm
from helmwright.fit.outlook import Spread
from helmwright.fit.sight import FINGER, LEAST_UP
from helmwright.fit.strap import PULL
from helmwright.reports.chances import of_hundred
from helmwright.reports.face_cautions import (
    CHECK_ON_CARD,
    CHECK_STRAP_ON_CARD,
    assumed_of,
    check_of,
)
from helmwright.reports.layout import bullets, heading, title
from helmwright.reports.lengths import inches
from helmwright.roster import PlayerAnswer, RosterAnswer, face_choice
from helmwright.units import KG_PER_POUND, MM_PER_INCH

NEWTONS_PER_POUND = 4.4482216
NM_PER_INCH_POUND = NEWTONS_PER_POUND * MM_PER_INCH / 1000.0
TOLD_BROW_MM = 0.8
"""A change of the brow height from which on it is told: half a sixteenth of an inch."""

FACE_TITLE = "Face guard and chin strap"
OFTEN = 0.05
"""A chance from which on it is worth a sentence (assumed)."""


@dataclass(frozen=True, slots=True)
class FaceFact:
    """One thing to print of guard or strap: what it is about, and a sentence or two."""

    label: str
    says: str


def face_section(answer: PlayerAnswer, sheet_answer: RosterAnswer, width: int) -> list[str]:
    """The section of the build page; nothing where the sheet has neither guard nor strap."""
    facts = face_facts(answer, sheet_answer)
    if not facts:
        return []
    said = [f"{fact.label}: {fact.says}" for fact in facts]
    closing = (check_of(sheet_answer.sheet), assumed_of(sheet_answer.sheet))
    return [*title(FACE_TITLE, width), *bullets([*said, *closing], width)]


def face_facts(answer: PlayerAnswer, whole: RosterAnswer) -> tuple[FaceFact, ...]:
    """Everything about one player's guard and strap, as label and sentence.

    Parameters
    ----------
    answer
        The player's answer.
    whole
        The answer that it is part of, for its sheet.
    """
    choice = face_choice(answer, whole.sheet)
    outlook = answer.proposal.face if answer.proposal else None
    if choice is None or outlook is None:
        return ()
    return (
        *_asked(choice),
        *_guards(choice, outlook),
        *(FaceFact("Refused", f"{each.guard}: {each.why}.") for each in choice.refused
          if each is not choice.wish_refused),
        *_unsaid(choice),
        *_strap_facts(_strap(choice, outlook)),
    )  # fmt: skip


def card_facts(answer: PlayerAnswer, whole: RosterAnswer) -> tuple[str, ...]:
    """The little of it that a printed card has room for; nothing where there is nothing to say."""
    choice = face_choice(answer, whole.sheet)
    outlook = answer.proposal.face if answer.proposal else None
    if choice is None or outlook is None:
        return ()
    said = [f"{fact.label}: {fact.says}" for fact in _asked(choice) if choice.wish_refused]
    if choice.allowed:
        said.append(_guard_on_card(choice.allowed[0].guard, outlook))
    elif choice.refused:
        said.append(f"Face guard: {_none(choice)}")
    strap = _strap(choice, outlook)
    if strap is not None:
        said.append(_strap_on_card(strap))
    if not choice.allowed and not choice.refused:
        return (*said, CHECK_STRAP_ON_CARD)
    return (*said, CHECK_ON_CARD)


def _guard_on_card(each: GuardOutlook, outlook: FaceOutlook) -> str:
    low, high = outlook.nose_accept_mm
    return (
        f"Face guard {each.guard.name}. Nose to bar: right from {inches(low)} to {inches(high)}"
        f" ({_whose(outlook)}); expect {_length(each.nose_mm)}."
    )


def _strap_on_card(strap: StrapOutlook) -> str:
    cup = f", cup {strap.size}" if strap.size else ""
    if not strap.points:
        return f"Chin strap {strap.strap.name}{cup}: all points alike."
    starts = (
        f"{place} {inches(point.start_mm.mean, denominator=8)}"
        for place, point in zip(_places(len(strap.points)), strap.points, strict=True)
    )
    return (
        f"Chin strap {strap.strap.name}{cup}. Start, cup to snap: {', '.join(starts)}; left and"
        " right alike, then the same pull at every point."
    )


def face_troubles(answer: RosterAnswer, width: int) -> list[str]:
    """The section of the roster page: whose choice is refused, who has none, who wears glasses."""
    said = guards_to_settle(answer)
    return [*heading("Face guards to settle", width), *bullets(said, width)] if said else []


def guards_to_settle(answer: RosterAnswer) -> list[str]:
    """Whose choice is refused, who has none, who wears glasses: a line for each."""
    return [line for each in answer.answers for line in _trouble(each, answer)]


def guard_and_strap(each: PlayerAnswer, sheet: ModelSheet) -> str:
    """What goes on the helmet, in a line; nothing where the sheet has neither guard nor strap."""
    choice, outlook = face_choice(each, sheet), each.proposal.face if each.proposal else None
    if choice is None or outlook is None:
        return ""
    said = []
    if sheet.face_guards:
        said.append(choice.allowed[0].guard.guard.name if choice.allowed else "none may be used")
        said = [f"Guard: {said[0]}."]
    strap = _strap(choice, outlook)
    if strap is not None:
        size = f", cup {strap.size}" if strap.size else ""
        said.append(f"Strap: {strap.strap.name}{size}.")
    return " ".join(said)


def _trouble(each: PlayerAnswer, answer: RosterAnswer) -> list[str]:
    choice = face_choice(each, answer.sheet)
    if choice is None or not answer.sheet or not answer.sheet.face_guards:
        return []
    refused = choice.wish_refused
    if not (refused or choice.wish.glasses or not choice.allowed):
        return []
    named = f"{choice.allowed[0].guard.guard.name}." if choice.allowed else _none(choice)
    wears = " (glasses)" if choice.wish.glasses else ""
    told = f"{each.player.label}{wears}: {named}"
    return [f"{told} Refused: {refused.guard}: {refused.why}." if refused else told]


def _asked(choice: FaceChoice) -> list[FaceFact]:
    """What came of the player's own choice."""
    refused = choice.wish_refused
    if refused:
        return [FaceFact("Asked for and refused", f"{refused.guard}: {refused.why}.")]
    return [FaceFact("Asked for", f"{choice.wish.guard}: allowed.")] if choice.wish.guard else []


def _unsaid(choice: FaceChoice) -> list[FaceFact]:
    """What would narrow the choice, had somebody said it."""
    missing = []
    if not choice.wish.positions:
        missing.append("position")
    if choice.wish.glasses is None:
        missing.append("glasses")
    told = f"{' and '.join(missing)}; no guard is left out for it."
    return [FaceFact("Not said", told)] if missing else []


def _guards(choice: FaceChoice, outlook: FaceOutlook) -> list[FaceFact]:
    """The first guard in full, the others in short."""
    if not choice.allowed:
        if not choice.refused:
            return []
        return [FaceFact("Face guard", _none(choice))]
    first, *others = choice.allowed
    return [
        FaceFact("Face guard", _described(first.guard)),
        FaceFact("Nose to the nearest bar", _nose(first.guard, outlook)),
        *_sight(first.guard),
        *_weight(first.guard),
        *([FaceFact("Allowed too", f"{'; '.join(map(_short, others))}.")] if others else ()),
    ]


def _none(choice: FaceChoice) -> str:
    """That no guard may be used, and which would but for the position."""
    told = "none of this sheet may be used"
    near = [each.guard for each in choice.refused if each.by_position]
    if near:
        return f"{told}. But for the position it could be {' or '.join(near)}: ask the maker."
    return f"{told}; ask the maker."


def _described(each: GuardOutlook) -> str:
    """A guard by what it covers and leaves open."""
    guard = each.guard
    told = f"{guard.name}. Covers {_listed(guard.covers)}."
    if not each.from_sheet:
        return f"{told} The sheet has no places of bars: usual ones assumed."
    return told


def _listed(words: Iterable[str]) -> str:
    return " and ".join(map(str, words)) or "nothing"


def _sight(each: GuardOutlook) -> list[FaceFact]:
    """What is not free to see, where anything is not."""
    if min(each.level_clear, each.sight) > 1.0 - OFTEN:
        return []
    told = f"straight ahead free in {of_hundred(each.level_clear)} heads"
    if 1.0 - each.level_clear >= OFTEN:
        told += f" ({_bar(each.level_bar)} stands in it in the others)"
    told += f", and {LEAST_UP.value:g} degrees up too in {of_hundred(each.sight)}."
    return [FaceFact("Sight", told)]


def _bar(number: int | None) -> str:
    return f"bar {number} from the top" if number else "the front edge"


def _nose(each: GuardOutlook, outlook: FaceOutlook) -> str:
    """Distance in inches and fingers, and the chance that it is right."""
    low, high = outlook.nose_accept_mm
    return (
        f"{_length(each.nose_mm)}, about {each.nose_mm.mean / FINGER.value:.1f} finger widths."
        f" Within {inches(low)} to {inches(high)} ({_whose(outlook)}) in"
        f" {of_hundred(each.nose_right)}."
    )


def _whose(outlook: FaceOutlook) -> str:
    """Who asks for the interval from nose to bar."""
    return "the maker" if outlook.nose_by_maker else "survey; upper end assumed"


def _length(spread: Spread) -> str:
    low, high = (inches(each, denominator=8) for each in (spread.low, spread.high))
    return f"{inches(spread.mean, denominator=8)} ({low} to {high})"


def _weight(each: GuardOutlook) -> list[FaceFact]:
    """Mass and moment at the neck, beside those of a bare head."""
    load = each.load
    if load is None:
        return [FaceFact("Weight", "the sheet does not give this guard's mass.")]
    head = gravity_moment_nm(HEAD_MASS.value, HEAD_CENTER[0].value, NECK_JOINT[0].value)
    neck, bare = load.neck_nm.mean / NM_PER_INCH_POUND, float(head) / NM_PER_INCH_POUND
    told = (
        f"{_pounds(load.mass_kg)}; nose down by {neck:.1f} inch-pounds, a grown bare head by some"
        f" {bare:.0f}."
    )
    if abs(load.change_kg) >= 0.005:
        told += f" Against the guard listed first: {_change(each)}."
    return [FaceFact("Weight", told)]


def _pounds(mass_kg: float) -> str:
    return f"{mass_kg / KG_PER_POUND:.1f} lb"


def _change(each: GuardOutlook) -> str:
    load = each.load
    if load is None:
        return "mass not given"
    brow = inches(abs(load.change_brow_mm), denominator=16)
    lower = "lower" if load.change_brow_mm < 0 else "higher"
    sits = f", front edge {brow} {lower}" if abs(load.change_brow_mm) >= TOLD_BROW_MM else ""
    return f"{load.change_kg / KG_PER_POUND:+.1f} lb{sits}"


def _short(each: FaceSet) -> str:
    """Another guard in a few words; its sight only where something is not free."""
    guard = each.guard
    seen = "" if guard.sight > 1.0 - OFTEN else f"sight free in {of_hundred(guard.sight)}, "
    nose = f"nose right {of_hundred(guard.nose_right)}"
    return f"{guard.guard.name} ({seen}{nose}, {_change(guard)})"


def _strap(choice: FaceChoice, outlook: FaceOutlook) -> StrapOutlook | None:
    """The strap of the first guard; the first of the shell where there is no guard."""
    if choice.allowed:
        return choice.allowed[0].strap
    return outlook.straps[0] if outlook.straps else None


def _strap_facts(strap: StrapOutlook | None) -> list[FaceFact]:
    """Which strap and cup, how long to begin with, and what it holds."""
    if strap is None:
        return []
    if not strap.points or strap.pull_n is None:
        told = "The sheet has no places of its snaps: set it on the head, all points alike."
        return [FaceFact("Chin strap", f"{strap.strap.name}{_cup(strap)}. {told}")]
    lengths = [
        f"{place} {inches(point.start_mm.mean, denominator=8)}".strip()
        for place, point in zip(_places(len(strap.points)), strap.points, strict=True)
    ]
    short = [point for point in strap.points if point.in_reach < 1.0 - OFTEN]
    beyond = " Some heads need more or less than its buckles give." if short else ""
    return [
        FaceFact("Chin strap", f"{strap.strap.name}{_cup(strap)}."),
        FaceFact(
            "Start, cup to snap",
            f"{', '.join(lengths)}; left and right alike, then equal pull.{beyond}",
        ),
        *_hold(strap),
    ]


def _places(count: int) -> tuple[str, ...]:
    return {2: ("high", "low"), 3: ("high", "middle", "low")}.get(count, ("",) * count)


def _cup(strap: StrapOutlook) -> str:
    """The size of the cup, and what else it may be."""
    if strap.size is None:
        return "; the sheet does not say which cup goes with which chin"
    chance = dict(strap.sizes)[strap.size]
    left = 1.0 - sum(each for _, each in strap.sizes)
    outside = f"; no size for {of_hundred(left)}" if left >= OFTEN else ""
    return f", cup {strap.size} ({of_hundred(chance)} by the chin arc{outside})"


def _hold(strap: StrapOutlook) -> list[FaceFact]:
    """What the strap holds against rolling off, by statics."""
    if strap.off_forward is None or strap.off_backward is None:
        told = "with snaps where the sheet has them the strap does not hold: measure them again."
        return [FaceFact("Against rolling off", told)]
    return [
        FaceFact(
            "Against rolling off",
            f"{_force(PULL.value)} up at the back takes {_force(strap.off_forward.strap_n.mean)} a"
            " point (statics).",
        )
    ]


def _force(newtons: float) -> str:
    return f"{newtons / NEWTONS_PER_POUND:.0f} lb"
