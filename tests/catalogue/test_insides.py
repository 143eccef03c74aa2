"""Sheets that leave insides out: what is taken for them, and how wide it is."""

import re
from dataclasses import replace

import numpy as np
import pytest

from helmwright.belief import exactly
from helmwright.catalogue import (
    INSIDE_NUMBERS,
    ZONES,
    ModelSheet,
    Zone,
    load_packaged,
    packaged_models,
    packaged_text,
    parse_sheet,
)
from helmwright.catalogue.hollow import jaw_widths_mm
from helmwright.catalogue.insides import InsideBelief, quantity
from helmwright.catalogue.unlikely import unlikely_insides
from helmwright.catalogue.usual import (
    COMMON_SPREAD,
    OWN_SHARE,
    USUAL_FOAM,
    filled_mm,
    relearned,
)
from tests.catalogue.plain_sheet import PLAIN, complaints, edited

SISKIN = load_packaged("siskin")
NOT_ON_THE_BAG = r"(inside_|jaw_width|front_edge|mass_|area|fit_|energy_|seats)"


def bared(text: str, *, keep: str = "nothing") -> str:
    """A sheet's text without what only calipers, scales and pencils tell."""
    lines = [
        line
        for line in text.splitlines()
        if line.startswith(keep) or not re.match(NOT_ON_THE_BAG, line)
    ]
    return re.sub(r"\[form\].*?(?=\[cert)", "", "\n".join(lines), flags=re.DOTALL)


def read(text: str) -> ModelSheet:
    return parse_sheet(text, name="sheet")


def numbers(sheet: ModelSheet, shell: int) -> np.ndarray:
    return np.array([getattr(sheet.shell(shell), f"{number}_mm") for number in INSIDE_NUMBERS])


def belief(sheet: ModelSheet) -> InsideBelief:
    assert sheet.insides is not None
    return sheet.insides


def test_a_sheet_with_chart_and_thicknesses_alone_is_a_sheet():
    assert belief(SISKIN).guessed == INSIDE_NUMBERS
    assert [len(pad.seats) for pad in SISKIN.pads] == [5, 3, 3, 3, 3, 3, 2, 2]
    assert SISKIN.strap_assumed
    assert {pad.fit_foam for pad in SISKIN.pads} == {USUAL_FOAM}


@pytest.mark.parametrize("name", ["ouzel", "wren"])
def test_a_sheet_that_says_all_of_its_insides_holds_nothing_for_usual(name):
    sheet = load_packaged(name)
    assert sheet.insides is None
    assert not sheet.strap_assumed
    assert {part.assumed for part in sheet.pads} == {()}
    assert {part.assumed for part in sheet.shells} == {()}


def test_the_usual_insides_of_the_invented_adult_model_come_near_its_own():
    ouzel, guess = load_packaged("ouzel"), read(bared(packaged_text("ouzel")))
    for shell in ouzel.shells:
        missed = numbers(guess, shell.number) - numbers(ouzel, shell.number)
        assert np.abs(missed[[0, 1, 2, 4]]).max() < 4.5
        assert abs(missed[3]) < 8.0


def test_the_shells_of_a_chart_only_sheet_hold_what_is_believed_of_them():
    for shell in SISKIN.shells:
        believed = belief(SISKIN).of(shell.number).mean
        np.testing.assert_allclose(numbers(SISKIN, shell.number), believed, atol=0.006)


def test_every_usual_shell_is_larger_than_the_one_before_and_smooth():
    for smaller, larger in zip(SISKIN.shells, SISKIN.shells[1:], strict=False):
        assert (numbers(SISKIN, larger.number) - numbers(SISKIN, smaller.number) >= 0).all()
    for shell in SISKIN.shells:
        low, high = jaw_widths_mm(shell, SISKIN.form)
        assert low <= shell.jaw_width_mm <= high


def test_a_thicker_delivered_pad_means_a_roomier_shell_by_what_it_fills():
    text = packaged_text("siskin")
    place = text.index('zone = "front"')
    thicker = text[:place] + text[place:].replace('delivered = "3/4 in"', 'delivered = "7/8 in"', 1)
    here, there = SISKIN, read(thicker)
    more = filled_mm(there.pad(Zone.FRONT)) - filled_mm(here.pad(Zone.FRONT))
    assert more == pytest.approx(3.2, abs=0.1)
    gained = numbers(there, 2) - numbers(here, 2)
    np.testing.assert_allclose(gained, [more, 0, 0, 0, 0], atol=0.02)


def test_the_spread_of_one_size_is_its_own_and_that_of_all_sizes():
    spread = belief(SISKIN).of(2).sd
    common = np.array([COMMON_SPREAD[number].value for number in INSIDE_NUMBERS])
    np.testing.assert_allclose(spread, common * np.sqrt(1 + OWN_SHARE.value**2))


def test_a_zone_whose_delivered_pad_is_unknown_widens_what_hangs_on_it():
    text = packaged_text("siskin").replace('delivered = "3/4 in"\n', "", 1)
    sheet = read(text)
    assert "delivered" in sheet.pad(Zone.CROWN).assumed
    wider = belief(sheet).of(1).sd > belief(SISKIN).of(1).sd + 1e-9
    assert [n for n, more in zip(INSIDE_NUMBERS, wider, strict=True) if more] == ["inside_depth"]


def test_what_the_sheet_gives_is_taken_as_exact_and_corrects_the_rest():
    given = packaged_text("siskin").replace(
        'chart = ["21 1/2 in", "22 1/2 in"]',
        'chart = ["21 1/2 in", "22 1/2 in"]\ninside_length = "232 mm"',
    )
    sheet = read(given)
    insides = belief(sheet)
    assert insides.unmeasured(2) == INSIDE_NUMBERS[1:]
    assert sheet.shell(2).inside_length_mm == 232.0
    before, after = belief(SISKIN), insides
    assert after.of(2).sd[0] == pytest.approx(0.0, abs=1e-6)
    surprise = 232.0 - before.of(2).mean[0]
    share = 1.0 / (1.0 + OWN_SHARE.value**2)
    assert after.of(3).mean[0] - before.of(3).mean[0] == pytest.approx(share * surprise)
    assert after.of(3).sd[0] < 0.6 * before.of(3).sd[0]


def test_calipers_of_one_shell_teach_the_belief_about_all_later_too():
    name = quantity(1, "inside_breadth")
    before = belief(SISKIN)
    seen = before.of(1).mean[1] + 6.0
    after = before.given([exactly(name, float(seen), 1.0)])
    assert after.measured == frozenset()
    for shell in before.shells:
        assert after.of(shell).mean[1] > before.of(shell).mean[1] + 3.0
        assert after.of(shell).sd[1] < before.of(shell).sd[1]
    assert before.given([exactly(name, float(seen))]).measured == {name}


def test_what_is_learned_moves_the_shells_of_the_sheet():
    name = quantity(2, "inside_length")
    seen = float(belief(SISKIN).of(2).mean[0]) + 5.0
    wiser = relearned(SISKIN, [exactly(name, seen, 4.0)])
    for shell in SISKIN.shells:
        moved = wiser.shell(shell.number).inside_length_mm - shell.inside_length_mm
        assert 2.5 < moved < 5.0
    assert wiser.pads == SISKIN.pads
    assert belief(wiser).guessed == INSIDE_NUMBERS


def test_there_is_nothing_to_learn_of_a_measured_helmet():
    with pytest.raises(ValueError, match="are all measured; correct its sheet instead"):
        relearned(load_packaged("ouzel"), [])


def test_errors_are_drawn_as_wide_and_as_tied_as_they_are_believed():
    drawn = belief(SISKIN).errors(20_000, np.random.default_rng(3))
    np.testing.assert_allclose(drawn[2].std(axis=0), belief(SISKIN).of(2).sd, rtol=0.03)
    tie = np.corrcoef(drawn[1][:, 0], drawn[4][:, 0])[0, 1]
    assert tie == pytest.approx(1.0 / (1.0 + OWN_SHARE.value**2), abs=0.02)


def test_a_youth_sheet_has_lower_crowns_narrower_jaws_and_a_lighter_helmet():
    youth = read(packaged_text("siskin").replace("[[shell]]", "ages = [8, 14]\n\n[[shell]]", 1))
    assert youth.ages == (8.0, 14.0)
    adult, child = SISKIN.shell(1), youth.shell(1)
    assert child.crown_mm < adult.crown_mm
    assert child.jaw_width_mm < adult.jaw_width_mm
    assert child.mass_kg < adult.mass_kg


def test_a_sheet_without_ages_is_for_adults():
    assert SISKIN.ages is None
    assert load_packaged("ouzel").ages is None


def test_a_helmet_without_a_nape_pad_needs_no_thickness_there():
    text = packaged_text("siskin")
    start = text.index('[[pad]]\nzone = "nape"')
    end = text.index('[[pad]]\nzone = "jaw left"')
    sheet = read(text[:start] + text[end:] + '\n[without_pad]\nnape = "open there"\n')
    assert sheet.pad(Zone.NAPE).seats == ()
    assert sheet.form.rear_taper == 1.35
    assert len(sheet.pads) == len(ZONES)


def test_without_a_form_the_rear_runs_in_so_that_the_nape_pad_meets_the_head():
    thin = read(packaged_text("siskin").replace('delivered = "7/8 in"', 'delivered = "5/8 in"'))
    assert thin.form.rear_taper < SISKIN.form.rear_taper


def test_part_of_the_insides_may_be_missing_on_any_sheet():
    sheet = read(edited({46: "", 33: ""}))
    assert belief(sheet).unmeasured(1) == ("inside_depth",)
    assert belief(sheet).unmeasured(2) == ("jaw_width",)
    low, high = jaw_widths_mm(sheet.shell(2), sheet.form)
    assert low <= sheet.shell(2).jaw_width_mm <= high


BROKEN = {
    "ages that run down": (
        {3: "invented = true\nages = [14, 8]"},
        ("line 4: ages: [14.0, 8.0] is no span of ages. Write the youngest and the oldest age in "
        "years, such as [8, 14]; leave it out for adults."),
    ),
    "one age": (
        {3: "invented = true\nages = [8]"},
        ("line 4: ages: [8.0] is no span of ages. Write the youngest and the oldest age in "
        "years, such as [8, 14]; leave it out for adults."),
    ),
    "a school year for an age": (
        {3: 'invented = true\nages = ["8th grade", 14]'},
        ('line 4: ages: "8th grade" is not a number from 5 to 25. Write the youngest and the '
        "oldest age in years, such as [8, 14]; leave it out for adults."),
    ),
    "ages of infants": (
        {3: "invented = true\nages = [2, 4]"},
        ("line 4: ages: 2 is not a number from 5 to 25. Write the youngest and the oldest age in "
        "years, such as [8, 14]; leave it out for adults."),
    ),
    "a usual number that somebody wrote without its unit": (
        {33: "inside_depth = 86"},
        ('line 33: shell 1, inside_depth: 86 has no unit; 86 mm? Write a length with its unit in '
        'quotation marks, such as "7/8 in" or "22 mm".'),
    ),
    "a measured jaw that no usual breadth goes with": (
        {32: "", 34: 'jaw_width = "120 mm"'},
        ("line 34: shell 1, jaw_width: 120 mm does not go with a breadth of 180.44 mm at a level "
        "of 30 mm. At -35 mm the inside can be 133 to 175 mm (5.24 to 6.89 in) wide: measure "
        "jaw_width and inside_breadth again, or correct jaw_height under [form]."),
    ),
    "a shell without its band": (
        {30: ""},
        ("line 27: shell 1: chart is missing. Add chart: the two ends of the band, such as "
        '["560 mm", "580 mm"].'),
    ),
}  # fmt: skip


@pytest.mark.parametrize(("changes", "message"), BROKEN.values(), ids=BROKEN.keys())
def test_a_fault_of_the_new_forms_is_named_on_its_line(changes, message):
    found = complaints(edited(changes))
    assert message in found, found


def test_measured_numbers_must_grow_though_a_shell_between_was_not_measured():
    text = PLAIN.replace('inside_breadth = "188 mm"\n', "")
    assert belief(read(text)).unmeasured(1) == ("inside_breadth",)


def test_a_misspelled_key_that_must_be_there_is_both_missing_and_unknown():
    missing, unknown = complaints(edited({42: 'chrat = ["22 in", "23 in"]'}))
    assert missing.startswith("line 40: shell 2: chart is missing. Add chart: the two ends of")
    assert unknown.startswith(
        'line 42: shell 2, chrat: there is no such key here (did you mean "chart"?)'
    )


@pytest.mark.parametrize("name", packaged_models())
def test_nothing_is_asked_of_the_insides_of_a_packaged_sheet(name):
    assert unlikely_insides(load_packaged(name)) == ()


def test_a_measured_inside_that_does_not_go_with_chart_and_bags_is_asked_about():
    """A caliper read 3 1/2 in too long, in a sheet that guesses the rest and in a whole one."""
    chart = 'chart = ["20 1/2 in", "21 1/2 in"]'
    text = packaged_text("siskin").replace(chart, f'{chart}\ninside_length = "12 in"')
    (said,) = unlikely_insides(read(text))
    assert said.startswith("shell 1, inside length: 12 in (305 mm) does not go with its band")
    assert "(217 mm) would (assumed)" in said
    whole = load_packaged("ouzel")
    third = replace(whole.shells[2], front_edge_mm=25.4)
    slipped = replace(whole, shells=(*whole.shells[:2], third, *whole.shells[3:]))
    assert [each.split(":")[0] for each in unlikely_insides(slipped)] == ["shell 3, front edge"]
