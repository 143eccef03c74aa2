"""Helmets of which not everything was measured: how that is said wherever a chance is shown."""

from collections.abc import Sequence

from helmwright.catalogue.insides import INSIDE_WORDS
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.outlook import InsideGain, Proposal
from helmwright.reports.chances import give_or_take
from helmwright.roster import PlayerAnswer

GUESSED = "insides not measured: usual ones assumed"
"""What marks every answer of a sheet that leaves insides out."""

KEY_WORDS = {
    "delivered": "the pads as delivered",
    "area_cm2": "pad areas",
    "fit_foam": "soft foams",
    "fit_layer": "thickness of the soft layers",
    "energy_foam": "stiff foams",
    "seats": "where the pads bear",
    "mass_kg": "mass",
    "mass_center_ahead": "center of mass",
    "mass_center_above": "center of mass",
}


def guessed_numbers(sheet: ModelSheet) -> str:
    """The inside numbers that a shell or more lacks: "inside length, width at the jaw"."""
    return ", ".join(INSIDE_WORDS[n] for n in sheet.insides.guessed) if sheet.insides else ""


def other_guesses(sheet: ModelSheet) -> str:
    """What else the sheet leaves out, in words; "" where nothing."""
    assumed = [part.assumed for part in sheet.pads] + [part.assumed for part in sheet.shells]
    keys = dict.fromkeys(KEY_WORDS[key] for part in assumed for key in part)
    return ", ".join([*keys, *(["strap's pull"] if sheet.strap_assumed else [])])


def guess_lines(sheet: ModelSheet) -> tuple[str, ...]:
    """What a page says at its head of a sheet that does not say everything."""
    said = []
    if numbers := guessed_numbers(sheet):
        said.append(
            f"{GUESSED.capitalize()} ({numbers}). Every chance is lower for it, and where"
            " the guess is wrong, it is wrong for every player in this model."
        )
    if others := other_guesses(sheet):
        said.append(f"Not on the sheet either, usual ones assumed: {others}.")
    return tuple(said)


def caliper_words(gain: InsideGain) -> str:
    """What the calipers would add for one player."""
    numbers = f"{_numbers(gain).capitalize()} of this shell, taken once with inside calipers,"
    if _hundredths(gain.gain) == 0:
        return f"{numbers} would not raise the chance of this player enough to be told."
    return (
        f"{numbers} should raise the chance that the best build truly fits by about"
        f" {_hundredths(gain.gain)} of 100, {give_or_take(gain.error)}."
    )


def roster_caliper_words(answers: Sequence[PlayerAnswer]) -> tuple[str, ...]:
    """By shell, what the calipers would add on average for the players in it, where anything."""
    found: dict[int, list[InsideGain]] = {}
    for proposal in (each.proposal for each in answers):
        if proposal is not None and proposal.inside_gain is not None:
            found.setdefault(shell_of(proposal), []).append(proposal.inside_gain)
    return tuple(
        f"Shell {shell}: {_numbers(gains[0])}, once with inside calipers: +{much} of 100 for"
        f" {'1 player' if len(gains) == 1 else f'each of {len(gains)} players'}."
        for shell, gains in sorted(found.items())
        if (much := _hundredths(sum(g.gain for g in gains) / len(gains)))
    )


def _hundredths(gain: float) -> int:
    """A gain in whole hundredths; what falls below nothing by chance is nothing."""
    return max(round(100.0 * gain), 0)


def shell_of(proposal: Proposal) -> int:
    """The proposed shell."""
    return proposal.ranked[0].build.shell


def _numbers(gain: InsideGain) -> str:
    words = [INSIDE_WORDS[number] for number in gain.numbers]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
