"""Press tests: a known foam is found again, slips are named, and pads carry what was found."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import norm

from helmwright.catalogue import Foam, ModelSheet, PadKind, Zone, advise, load_packaged, parse_sheet
from helmwright.catalogue.press import (
    PIECE_SCATTER,
    PLATE_ERROR,
    SCALE_ERROR,
    THICKNESS_ERROR,
    Press,
    PressPoint,
    is_far,
    least_give_mm,
    press_finding,
    pressed_pad,
    prior_sd,
    strokes_mm,
)
from helmwright.sources import Source, Standing
from tests.catalogue.plain_sheet import PLAIN, complaints

OUZEL = load_packaged("ouzel")
FRONT = OUZEL.pad(Zone.FRONT)
WEIGHTS = (0.0, 0.45, 0.9, 1.4, 1.8, 2.7, 3.6)
PLATE_CM2 = 40.0


def read_off(
    factor: float, rng: np.random.Generator | None = None, *, layer_mm: float = 10.0,
    weights: tuple[float, ...] = WEIGHTS, pad: PadKind = FRONT, error_mm: float = 0.4,
) -> Press:  # fmt: skip
    """A press of a pad whose foam is so stiff, read with the errors that are stated, or none."""
    blank = Press(pad, 2, PLATE_CM2, tuple(PressPoint(each, 20.0) for each in weights))
    pressures, free = blank.pressures_kpa, blank.free_mm
    off = np.zeros(len(weights))
    if rng is not None:
        pressures = pressures * np.exp(SCALE_ERROR.value * rng.standard_normal(len(weights)))
        pressures = pressures * np.exp(PLATE_ERROR.value * rng.standard_normal())
        free += THICKNESS_ERROR.value * rng.standard_normal()
        off = error_mm * rng.standard_normal(len(weights))
    strokes = strokes_mm(blank, np.array([factor]), np.array([layer_mm]), pressures)[0, 0]
    read = zip(weights, free - strokes + off, strict=True)
    return replace(blank, points=tuple(PressPoint(w, float(t)) for w, t in read))


def test_weights_and_plate_make_pressures():
    """1 kg on 20 cm2 is 9.80665 N on 0.002 m2, 4.903 kPa; a plate beyond the pad adds nothing."""
    press = Press(FRONT, 2, 20.0, (PressPoint(1.0, 20.0),))
    assert press.pressures_kpa[0] == pytest.approx(4.903325)
    assert replace(press, plate_cm2=90.0).pressures_kpa[0] == pytest.approx(4.903325 * 20.0 / 30.0)


@pytest.mark.parametrize("factor", [0.5, 0.8, 1.0, 1.3, 2.0, 3.0])
def test_without_errors_a_known_stiffness_is_found_again(factor):
    """Pulled toward the sheet's by no more than a fortieth of the way."""
    found = press_finding(read_off(factor))
    assert abs(np.log(found.factor / factor)) < 0.03 + 0.025 * abs(np.log(factor))
    assert found.misfit > 0.5


def test_stated_intervals_hold_the_truth_as_often_as_they_say():
    """400 pads whose foams scatter as the prior has it: 90 of 100 within the 90 percent, to 4."""
    rng = np.random.default_rng(20)
    sd = prior_sd(FRONT.fit_foam)
    scores = []
    for _ in range(400):
        truth = sd * rng.standard_normal()
        found = press_finding(read_off(float(np.exp(truth)), rng))
        scores.append((np.log(found.factor) - truth) / found.spread)
    held = np.mean(np.abs(scores) < 1.645)
    assert 0.86 < held < 0.95
    assert abs(np.mean(scores)) < 0.15


def test_points_that_fit_no_curve_are_as_rare_as_the_misfit_says():
    rng = np.random.default_rng(21)
    chances = [press_finding(read_off(1.2, rng)).misfit for _ in range(300)]
    assert 0.01 < np.mean(np.array(chances) < 0.05) < 0.12


def test_the_grid_agrees_with_direct_integration():
    """Three points, an exact layer: Bayes' rule on a plain grid of ln k and T together."""
    press = read_off(1.4, weights=(0.0, 0.9, 2.7))
    step, layer = 0.01, np.array([FRONT.fit_layer_mm])
    logs, thick = np.linspace(-1.5, 1.5, 601), press.free_mm + np.linspace(-4.0, 4.0, 401)
    at, nudged = (
        strokes_mm(press, np.exp(logs), layer, press.pressures_kpa * np.exp(nudge))[:, 0]
        for nudge in (0.0, step)
    )
    sd = np.sqrt(0.4**2 + ((nudged - at) / step * SCALE_ERROR.value) ** 2)
    expected = thick[None, :, None] - at[:, None, :]
    density = norm.pdf(press.thicknesses_mm, expected, sd[:, None, :]).prod(axis=-1)
    density *= norm.pdf(thick, press.free_mm, THICKNESS_ERROR.value)
    over = density.sum(axis=1) * norm.pdf(logs, 0.0, prior_sd(FRONT.fit_foam))
    over /= over.sum()
    mean = float(over @ logs)
    spread = float(np.sqrt(over @ (logs - mean) ** 2))
    found = press_finding(press)
    assert np.log(found.factor) == pytest.approx(mean, abs=0.003)
    assert found.spread == pytest.approx(np.hypot(spread, PLATE_ERROR.value), rel=0.02)


def test_more_points_and_better_rules_narrow_it_and_none_leave_the_prior():
    rough = press_finding(replace(read_off(1.3), reading_error_mm=1.0)).spread
    usual = press_finding(read_off(1.3)).spread
    fine = press_finding(replace(read_off(1.3), reading_error_mm=0.1)).spread
    assert fine < usual < rough
    idle = press_finding(read_off(1.0, weights=(0.0, 0.001, 0.002)))
    assert idle.factor == pytest.approx(1.0, abs=0.02)
    assert idle.spread == pytest.approx(np.hypot(prior_sd(FRONT.fit_foam), 0.03), rel=0.05)


def test_a_fit_layer_in_doubt_is_found_with_the_stiffness():
    press = replace(read_off(1.2, layer_mm=7.5), fit_layer_error_mm=3.0)
    press = replace(press, reading_error_mm=0.15)
    found = press_finding(press)
    assert abs(found.fit_layer_mm - 7.5) < 2.0 * found.fit_layer_spread_mm
    assert abs(found.fit_layer_mm - 7.5) < abs(found.fit_layer_mm - 10.0)
    assert found.fit_layer_spread_mm < 3.0


def test_a_measured_foam_is_doubted_less_than_an_assumed_one():
    published = replace(
        FRONT.fit_foam, source=Source("x", "A table", Standing.PUBLISHED), scatter=0.1
    )
    assert prior_sd(published) == pytest.approx(np.hypot(0.1, 0.1))
    assert prior_sd(FRONT.fit_foam) == pytest.approx(np.hypot(0.2, 0.4))


def test_a_pad_carries_what_was_found():
    found = press_finding(read_off(1.5))
    pad = pressed_pad(FRONT, found, "the student, August")
    for strain in (0.05, 0.2, 0.5):
        stress = np.interp(strain, FRONT.fit_foam.strain, FRONT.fit_foam.stress_kpa)
        assert float(pad.fit_foam.strain_at(np.asarray(found.factor * stress))) == pytest.approx(
            strain, abs=1e-6
        )
    assert pad.fit_foam.scatter == pytest.approx(np.hypot(found.spread, 2**0.5 * 0.08))
    assert pad.fit_foam.scatter < FRONT.fit_foam.scatter
    assert (pad.energy_foam, pad.fit_layer_mm) == (FRONT.energy_foam, FRONT.fit_layer_mm)
    assert "the student, August" in pad.fit_foam.source.citation
    assert PIECE_SCATTER.value == 0.08


# The plain sheet's soft foam gives 10 percent at 2 kPa, 50 at 4. The front's
# 30 cm2 at 1 lb bear 1.483 kPa, at 2 lb 2.97, at 4 lb 5.93.
TEST = """
[[press]]
zone = "front"
also = ["rear"]
pad = "3/4 in"
plate = ["3 in", "2 in"]
points = [
  ["0 lb", "3/4 in"],
  ["1 lb", "18.4 mm"],
  ["2 lb", "16.7 mm"],
  ["4 lb", "14.2 mm"],
]
source = "two students, August"
"""


def sheet_with(test: str = TEST) -> ModelSheet:
    return parse_sheet(PLAIN + test, name="plain.toml")


def foam(sheet: ModelSheet, zone: Zone) -> Foam:
    return sheet.pad(zone).fit_foam


def test_a_sheet_applies_its_press_tests_where_they_speak():
    plain, pressed = parse_sheet(PLAIN, name="plain.toml"), sheet_with()
    (finding,) = pressed.presses
    assert finding.zones == (Zone.FRONT, Zone.REAR)
    assert finding.factor == pytest.approx(1.0, abs=0.12)
    assert foam(pressed, Zone.FRONT) == foam(pressed, Zone.REAR) != foam(plain, Zone.FRONT)
    assert foam(pressed, Zone.LEFT) == foam(plain, Zone.LEFT)
    told = [each for each in advise(pressed) if "press test" in each]
    assert len(told) == 1
    assert "(errors of reading assumed)" in told[0]


def test_points_off_any_curve_are_flagged_and_kept():
    """Thick up to 2 lb and then crushed: no factor makes that of this foam."""
    off = TEST.replace('"18.4 mm"', '"19.0 mm"').replace('"14.2 mm"', '"10.4 mm"')
    off = off.replace('source = "two', 'reading_error = "0.1 mm"\nsource = "two')
    (told,) = (each for each in advise(sheet_with(off)) if "press test" in each)
    assert told.endswith("The points lie off any curve of this foam: press again, or another piece")


FAULTS = {
    "a pad that grows": (
        '"14.2 mm"',
        '"18.9 mm"',
        (
            "line 173: press 1, points: under 4 lb the pad is 3/32 in (2.2 mm) thicker than "
            "under 2 lb. No foam does that: press again, or check which reading is which."
        ),
    ),
    "a pad a sixteenth thicker under weight": (
        '"18.4 mm"',
        '"20.65 mm"',
        "under 1 lb the pad is 1/16 in (1.6 mm) thicker than under 0 oz. No foam does that",
    ),
    "a pad that does not give": (
        '["1 lb", "18.4 mm"],\n  ["2 lb", "16.7 mm"],\n  ["4 lb", "14.2 mm"],',
        '["1 lb", "3/4 in"],\n  ["2 lb", "25/32 in"],\n  ["4 lb", "3/4 in"],',
        "between 0 oz and 4 lb the pad gives 0 in (0.0 mm), where even a stiff foam of this kind",
    ),
    "a thickness in the wrong unit": (
        '"16.7 mm"',
        '"1.67 in"',
        (
            "line 172: press 1, points: 1 21/32 in is thicker than the 3/4 in pad. Check the unit, "
            "and which pad was pressed."
        ),
    ),
    "a weight without a unit": (
        '"2 lb"',
        '"2"',
        (
            "line 172: press 1, points: 2 has no unit; write lb, oz, g or kg behind it. Write a "
            'weight with its unit, such as "2 lb", "2 lb 3 oz" or "900 g".'
        ),
    ),
    "another zone": (
        'zone = "front"',
        'zone = "frnt"',
        (
            'line 165: press 1, zone: "frnt" is not one of the words for zone (did you mean '
            '"front"?). Write one of: crown, front, rear, left, right, nape, jaw left, jaw right.'
        ),
    ),
    "another thickness": (
        'pad = "3/4 in"',
        'pad = "1 in"',
        (
            'line 167: press 1, pad: there is no front pad "1 in". Write one of: 5/8 in, 3/4 in, '
            "7/8 in."
        ),
    ),
    "a plate of three sides": (
        '["3 in", "2 in"]',
        '["3 in", "2 in", "1 in"]',
        (
            "line 168: press 1, plate: 3 lengths make no plate. Write its length and width, such "
            'as ["3 in", "2 in"], or one diameter of a round one, ["3 in"].'
        ),
    ),
    "weights like feathers": (
        '["1 lb", "18.4 mm"],\n  ["2 lb", "16.7 mm"],\n  ["4 lb", "14.2 mm"],',
        '["1 g", "19 mm"],\n  ["2 g", "19 mm"],\n  ["4 g", "19 mm"],',
        (
            "line 169: press 1, points: 0 of the weights press the pad as a head does. Take two or "
            "more between 6 oz and 6 lb 12 oz, or check units and plate."
        ),
    ),
    "too few": (
        '["0 lb", "3/4 in"],\n  ["1 lb", "18.4 mm"],',
        "",
        "line 169: press 1, points: 2 readings. Take 3 or more, from no weight upward.",
    ),
    "a point that is none": (
        '["0 lb", "3/4 in"]',
        '["3/4 in"]',
        (
            'line 170: press 1, points: ["3/4 in"] is no reading. Write a weight and a thickness '
            'for each, such as [["0 lb", "7/8 in"], ["2 lb", "3/4 in"]].'
        ),
    ),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_slip_is_named_with_its_line_and_remedy(name):
    old, new, told = FAULTS[name]
    assert old in TEST
    said = complaints(PLAIN + TEST.replace(old, new))
    assert told in said or any(told in each for each in said)


def test_a_clean_press_of_any_likely_foam_is_hardly_ever_refused():
    """400 pads whose foams scatter as the prior has it, read with the errors that are stated."""
    rng = np.random.default_rng(22)
    soft = parse_sheet(PLAIN, name="plain.toml").pad(Zone.FRONT)
    refused = 0
    for _ in range(400):
        factor = float(np.exp(prior_sd(soft.fit_foam) * rng.standard_normal()))
        press = read_off(factor, rng, pad=soft, layer_mm=soft.fit_layer_mm)
        order = press.thicknesses_mm
        risen = (order - np.minimum.accumulate(order)).max() > 2.5 * 2**0.5 * 0.4
        felt = order[0] - order[-1]
        stuck = felt < 1.96 * 2**0.5 * 0.4 < least_give_mm(press) - felt
        refused += bool(risen or stuck)
    assert refused < 0.02 * 400


def test_a_foam_further_off_than_was_likely_is_asked_about_and_kept():
    """3 times as stiff, where 0.4 to 2.4 was held likely: beyond a doubt's 19 of 20."""
    soft = parse_sheet(PLAIN, name="plain.toml").pad(Zone.FRONT)
    for factor, asked in ((1.2, False), (3.3, True)):
        press = read_off(factor, weights=(0.0, 2.0, 4.0, 6.0), pad=soft, layer_mm=8.0)
        rows = ", ".join(
            f'["{kg} kg", "{mm:.2f} mm"]'
            for kg, mm in zip((0, 2, 4, 6), press.thicknesses_mm, strict=True)
        )
        start, end = TEST.index("points = ["), TEST.index("source")
        text = f"{TEST[:start]}points = [{rows}]\n{TEST[end:]}"
        sheet = sheet_with(text.replace('pad = "3/4 in"', 'pad = "7/8 in"'))
        (told,) = (each for each in advise(sheet) if "press test" in each)
        assert ("So far from its curve it was not expected" in told) is asked
        assert is_far(sheet.presses[0]) is asked


def test_ounces_typed_as_pounds_are_asked_about():
    """What 8, 16, 32 and 48 ounces do, written as pounds."""
    soft = parse_sheet(PLAIN, name="plain.toml").pad(Zone.FRONT)
    ounces = (0, 8, 16, 32, 48)
    weights = tuple(each * 0.0283495 for each in ounces)
    press = read_off(1.0, weights=weights, pad=soft, layer_mm=8.0)
    read = zip(ounces, press.thicknesses_mm, strict=True)
    rows = ", ".join(f'["{ounce} lb", "{mm:.2f} mm"]' for ounce, mm in read)
    start, end = TEST.index("points = ["), TEST.index("source")
    slip = TEST[:start] + f"points = [{rows}]\n" + TEST[end:]
    (told,) = complaints(PLAIN + slip.replace('pad = "3/4 in"', 'pad = "7/8 in"'))
    assert "times as stiff as soft; were the weights oz, not lb?" in told
    assert "Check units, plate and pad" in told


def test_a_pad_has_one_test_and_a_cell_has_none():
    twice = complaints(PLAIN + TEST + TEST)
    assert any("another test speaks for the front pad already" in each for each in twice)
    celled = PLAIN.replace(
        'zone = "rear"\nthicknesses = ["5/8 in", "3/4 in", "7/8 in"]\ndelivered = "3/4 in"',
        'zone = "rear"\ncell = { full = "1 1/4 in", flat = "5/8 in" }',
    )
    told = complaints(celled + TEST)
    assert any("the rear has no foam pad that could be pressed" in each for each in told)


def test_a_faulty_pad_does_not_blame_its_press_test():
    told = complaints(PLAIN.replace("area_cm2 = 30", "area_cm2 = 3000", 1) + TEST)
    assert len(told) == 1
    assert "front pad, area_cm2" in told[0]


def test_zones_with_another_foam_need_a_test_of_their_own():
    other = PLAIN.replace('zone = "rear"', 'zone = "rear"', 1)
    place = other.index('fit_foam = "soft"', other.index('zone = "rear"'))
    other = other[:place] + 'fit_foam = "cushion"' + other[place + len('fit_foam = "soft"') :]
    told = complaints(other + TEST)
    assert any("the rear pad has another fit foam than the front pad" in each for each in told)
