"""One sentence says which finding a build answers, and what changes."""

from dataclasses import replace

import pytest

from helmwright.catalogue import Zone
from helmwright.fit import MeasureGain
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.next_build_why import Move, Why
from helmwright.reports.chances import give_or_take
from helmwright.visit.reasons import measure_sentence, sentence

EIGHTH = 25.4 / 8.0
SIDES = (Zone.LEFT, Zone.RIGHT)


def loose(*zones: Zone) -> tuple[Finding, ...]:
    return tuple(Finding(Sign.ZONE, Grade.UNDER, zone) for zone in zones)


def tight(*zones: Zone) -> tuple[Finding, ...]:
    return tuple(Finding(Sign.ZONE, Grade.OVER, zone) for zone in zones)


def by(eighths: int, *zones: Zone) -> tuple[Move, ...]:
    return tuple(Move(zone, "1 in", "1 1/8 in", eighths * EIGHTH) for zone in zones)


CASES = {
    "Front found loose: 1/8 in thicker in front; the sides stay.": Why(
        loose(Zone.FRONT), by(1, Zone.FRONT), stay=SIDES
    ),
    "Front found loose, both jaw pads tight: 1/8 in thicker in front, 1/8 in thinner at both jaw"
    " pads; the rear and the sides stay.": Why(
        loose(Zone.FRONT) + tight(Zone.JAW_LEFT, Zone.JAW_RIGHT),
        by(1, Zone.FRONT) + by(-1, Zone.JAW_LEFT, Zone.JAW_RIGHT),
        stay=(Zone.REAR, *SIDES),
    ),
    "Too low on the brow: 1/4 in thicker at the crown; what was snug stays.": Why(
        (Finding(Sign.BROW, Grade.UNDER),),
        by(2, Zone.CROWN),
        stay=(Zone.FRONT, Zone.REAR, *SIDES, Zone.NAPE),
    ),
    "Nape found tight: 1/8 in thinner in front; the nape should come right with that.": Why(
        tight(Zone.NAPE), by(-1, Zone.FRONT), stay=SIDES
    ),
    "Rear found loose: 1/8 in thicker at the rear and at the nape; nape was snug and changes all"
    " the same, which should save 16 % of the time; the crown stays.": Why(
        loose(Zone.REAR),
        by(1, Zone.REAR, Zone.NAPE),
        stay=(Zone.CROWN,),
        touched_snug=(Zone.NAPE,),
        saved=0.162,
    ),
    "Front, rear and both sides found tight: shell 4 instead of 3, there 1/8 in thicker at the"
    " nape.": Why(tight(Zone.FRONT, Zone.REAR, *SIDES), by(1, Zone.NAPE), shells=(3, 4)),
    "Front found loose: 1/8 in thinner in front; in front all that was found speaks for it, against"
    " the last answer; the sides stay.": Why(loose(Zone.FRONT), by(-1, Zone.FRONT), stay=SIDES),
    "Front found tight: shell 4 instead of 3 as it lies there.": Why(
        tight(Zone.FRONT), (), shells=(3, 4)
    ),
    "Slides when turned: 1/8 in thicker at both sides; the front stays.": Why(
        (Finding(Sign.TURN, Grade.UNDER),), by(1, *SIDES), stay=(Zone.FRONT,)
    ),
    "Hot spot in front: 1/8 in thinner in front; the sides stay.": Why(
        (Finding(Sign.HOT_SPOT, Grade.OVER, Zone.FRONT),), by(-1, Zone.FRONT), stay=SIDES
    ),
    "The best of what is here for this head: no pad changes.": Why((), ()),
    "The best of what is here for this head: 1/4 in thicker at the crown.": Why(
        (), by(2, Zone.CROWN)
    ),
}


@pytest.mark.parametrize("words", CASES)
def test_the_sentence_names_the_finding_and_the_change(words: str):
    assert sentence(CASES[words]) == words


def test_thicknesses_in_metric_steps_are_told_in_the_nearest_fraction():
    three = (Move(Zone.FRONT, "20 mm", "23 mm", 3.0),)
    assert "1/8 in thicker in front" in sentence(Why(loose(Zone.FRONT), three))
    five = (Move(Zone.FRONT, "20 mm", "25 mm", 5.0),)
    assert "3/16 in thicker in front" in sentence(Why(loose(Zone.FRONT), five))


def test_a_measure_is_asked_for_with_what_it_should_buy():
    words = measure_sentence(MeasureGain("jaw_pad_width", 0.11, 0.01), 0.3)
    assert words == (
        "Measure the width at the jaw pads first: knowing it should raise the chance that the next"
        " try is found right, some 30 of 100 now, by about 11, give or take 2, 19 times of 20."
    )


def test_a_measure_s_gain_is_told_with_the_words_and_the_error_of_the_roster_page():
    gain = MeasureGain("head_length", 0.074, 0.021)
    words = measure_sentence(gain, 0.3)
    assert f"by about {100 * gain.gain:.0f}, {give_or_take(gain.error)}, 19 times of 20." in words
    assert "give or take 1," in measure_sentence(replace(gain, error=0.0), 0.3)
