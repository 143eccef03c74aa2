"""One player's page and one head's page."""

import dataclasses

import pytest

from helmwright.anatomy import Reading, estimate_head
from helmwright.catalogue.instruction import FitTopic, Instruction
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.outlook import Build, Fault, FaultKind, MeasureGain, ShellChance
from helmwright.reports import build_page, head_page, reasons
from helmwright.reports.cautions import ASSUMED, CAUTIONS
from helmwright.reports.drawings import drawn_sections
from helmwright.reports.picture import feel_bar, feel_rows, shell_picture
from helmwright.reports.remedy import THICKER, remedy
from helmwright.reports.sentences import is_worth_taking
from tests.reports.answers import answered, proposed
from tests.roster.stand_in import SHEET, outlook

TAPED = estimate_head([Reading("tape_circumference", 575.0)])
TEXT = "Name,tape,length,breadth\nTeal,22 5/8,7 7/8,6 1/8\n"


def squeezed(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_pages_keep_their_width_and_say_the_cautions_once(width):
    answer = answered(TEXT)
    page = build_page(answer, width)
    assert max(len(line) for line in page.splitlines()) <= width
    assert max(len(line) for line in head_page(answer, width).splitlines()) <= width
    for caution in (*CAUTIONS, ASSUMED):
        assert squeezed(page).count(caution) == 1


def test_both_chances_are_told_apart_in_words():
    page = squeezed(build_page(answered(TEXT), 80))
    assert "By this model it fits 46 of 100 heads that these readings allow" in page
    assert "on 32 a fitter finds everything right at the first try-on" in page


def test_the_list_says_why_a_build_may_stand_before_one_with_a_higher_chance():
    page = squeezed(build_page(answered(TEXT), 80))
    assert "Nearly alike: the chart's shell first, then the fewest pads to change." in page


def test_the_picture_holds_every_pad_of_the_build():
    pads = (0, 1, 2, 3, 4, 4, 0, 5)
    best = outlook(SHEET, Build(3, pads), fits=0.5, found=0.3)
    drawn = "\n".join(shell_picture(drawn_sections(TAPED, SHEET, best), 100))
    for zone, pad, index in zip(ZONES, SHEET.pads, pads, strict=True):
        assert pad.labels[index].split(" in")[0] in drawn, zone


def test_the_bar_shares_twenty_marks_between_loose_snug_and_tight():
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, loose=0.2, tight=0.1)
    assert feel_bar(place.zones[0]) == "<<<<" + "=" * 14 + ">>"


def test_a_narrow_bar_has_half_the_marks_and_its_key_says_so():
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, loose=0.2, tight=0.1)
    assert feel_bar(place.zones[0], 10) == "<<" + "=" * 7 + ">"
    assert "Each mark: 10 of 100 heads" in squeezed(" ".join(feel_rows(place, 40)))
    assert "Each mark: 5 of 100 heads" in squeezed(" ".join(feel_rows(place, 80)))
    assert max(len(line) for line in feel_rows(place, 40)) <= 40


def test_what_stands_above_is_not_said_again_among_the_reasons():
    answer = answered(TEXT)
    page = squeezed(build_page(answer, 80))
    assert page.count("a fitter finds everything right") == 1
    assert page.count("The maker says") == 1
    assert "Why this build" in page


@pytest.mark.parametrize(("loose", "tight"), [(1.0, 0.0), (0.0, 1.0), (0.525, 0.475), (0.0, 0.0)])
def test_the_bar_is_always_twenty_marks(loose, tight):
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, loose=loose, tight=tight)
    assert len(feel_bar(place.zones[0])) == 20


def test_a_changed_pad_is_explained_by_what_it_prevents():
    said = " ".join(reasons(proposed(TEXT)))
    assert "front 1 in instead of 7/8 in, with which it is loose in 30 of 100" in said


def test_a_proposal_outside_the_charts_shell_says_so():
    proposal = proposed(TEXT)
    other = outlook(SHEET, Build(6, SHEET.delivered), fits=0.5, found=0.3)
    moved = dataclasses.replace(proposal, ranked=(other,))
    assert "Shell 6 is proposed all the same" in " ".join(reasons(moved))


def test_a_build_with_different_pads_left_and_right_says_that_the_readings_have_no_sides():
    proposal = proposed(TEXT)
    even = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3)
    uneven = outlook(SHEET, Build(3, (2, 2, 2, 1, 2, 2, 3, 4)), fits=0.5, found=0.3)
    crooked = dataclasses.replace(
        SHEET,
        pads=tuple(
            dataclasses.replace(pad, seats=pad.seats[:1]) if pad.zone is Zone.LEFT else pad
            for pad in SHEET.pads
        ),
    )

    def said(best, sheet):
        return " ".join(reasons(dataclasses.replace(proposal, ranked=(best,)), None, sheet))

    start = "Left and right, jaw left and jaw right pads differ, though no reading has a side:"
    assert start in said(uneven, SHEET)
    assert "half step together, and the mirror image would do as well." in said(uneven, SHEET)
    assert "half step together. Feel both sides." in said(uneven, crooked)
    assert "no reading has a side" not in said(even, SHEET)


def test_a_chance_comes_with_the_limit_that_its_count_keeps_nineteen_times_of_twenty():
    best = outlook(SHEET, Build(3, SHEET.delivered), fits=0.28, found=0.2)
    assert best.fits.error == 0.01
    said = " ".join(reasons(dataclasses.replace(proposed(TEXT), ranked=(best,))))
    assert "20 of 100, give or take 2; that it truly fits, 28 of 100, give or take 2." in said
    assert "19 times of 20" in said
    assert "give or take 2, 19 times of 20" in squeezed(build_page(answered(TEXT), 80))


def test_what_is_to_be_said_of_the_readings_stands_before_the_build_is_drawn():
    text = "Name,tape,worn\nTeal,22 5/8,helmet\n"
    page = build_page(answered(text), 80)
    assert "this covering is not known" in page
    assert page.index("this covering is not known") < page.index("from the right side")


def test_a_pad_changed_without_a_fault_of_its_own_claims_no_cause():
    proposal = proposed(TEXT)
    calm = outlook(SHEET, proposal.delivered.build, fits=0.2, found=0.1, loose=0.01, tight=0.02)
    said = " ".join(reasons(dataclasses.replace(proposal, delivered=calm)))
    assert "front 1 in instead of 7/8 in, chosen for the build as a whole" in said
    assert "height and balance" not in said


def test_a_crown_pad_is_explained_by_the_brow_and_never_by_pressure():
    proposal = proposed(TEXT)
    before = outlook(
        SHEET,
        proposal.delivered.build,
        fits=0.2,
        found=0.1,
        tight=0.9,
        faults=(Fault(FaultKind.BROW_LOW, None, 0.4), Fault(FaultKind.BROW_HIGH, None, 0.1)),
    )
    lifted = Build(before.build.shell, (3, *SHEET.delivered[1:]))
    best = outlook(SHEET, lifted, fits=0.5, found=0.3, changes=(Zone.CROWN,))
    said = " ".join(reasons(dataclasses.replace(proposal, ranked=(best,), delivered=before)))
    assert "crown 1 1/8 in instead of 7/8 in, with which the front edge is too low" in said
    assert "in 40 of 100" in said


def test_changes_are_counted_from_what_is_in_the_helmet_now():
    page = squeezed(
        build_page(answered('Name,tape,build now\nTeal,22 5/8,"front 3/4, rear 1"\n'), 80)
    )
    assert "from the build in the helmet now: front 1 in instead of 3/4 in; rear 7/8 in" in page
    other = squeezed(build_page(answered("Name,tape,build now\nTeal,22 5/8,shell 6\n"), 80))
    assert "One pad changes from the build as delivered" in other


@pytest.mark.parametrize(
    ("fault", "index", "words"),
    [
        (Fault(FaultKind.TIGHT, Zone.REAR, 0.2), 2, "try the 3/4 in rear pad instead of 7/8 in"),
        (Fault(FaultKind.LOOSE, Zone.REAR, 0.2), 2, "try the 1 in rear pad instead of 7/8 in"),
        (Fault(FaultKind.GAP, Zone.REAR, 0.2), 4, "no thicker rear pad; try shell 2"),
        (Fault(FaultKind.HOT_SPOT, Zone.REAR, 0.2), 0, "no thinner rear pad; try shell 4"),
        (Fault(FaultKind.BROW_LOW, None, 0.2), 2, "try the 1 1/8 in crown pad instead of 7/8 in"),
        (Fault(FaultKind.BROW_HIGH, None, 0.2), 2, "try the 5/8 in crown pad instead of 7/8 in"),
    ],
)
def test_a_fault_comes_with_the_pad_to_try(fault, index, words):
    assert words in remedy(
        fault, outlook(SHEET, Build(3, (index,) * 8), fits=0.5, found=0.3), SHEET
    )


@pytest.mark.parametrize("kind", [FaultKind.TIGHT, FaultKind.HOT_SPOT, FaultKind.LOOSE])
def test_no_crown_pad_is_offered_against_the_crowns_pressure(kind):
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, loose=0.3, tight=0.2)
    said = remedy(Fault(kind, Zone.CROWN, 0.2), place, SHEET)
    assert "try the" not in said
    assert "look at the sides" in said
    assert ("tight in 20 of 100" if kind is FaultKind.LOOSE else "loose in 30 of 100") in said


def test_a_helmet_that_may_be_held_up_by_tight_sides_is_felt_there_first():
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, tight=0.3)
    said = remedy(Fault(FaultKind.BROW_HIGH, None, 0.2), place, SHEET)
    assert said.startswith("feel the sides first (tight in 30 of 100)")
    assert "else try the 5/8 in crown pad" in said


@pytest.mark.parametrize("zone", [*Zone, None])
@pytest.mark.parametrize("kind", FaultKind)
def test_no_pad_is_advised_that_makes_worse_what_most_heads_find(kind, zone):
    build, thicker = Build(3, SHEET.delivered), kind in THICKER
    loose, tight = (0.2, 0.6) if thicker else (0.6, 0.2)
    place = outlook(SHEET, build, fits=0.5, found=0.3, loose=loose, tight=tight)
    said = remedy(Fault(kind, zone, 0.2), place, SHEET)
    assert "try" not in said.replace("try-on", "")
    assert "60 of 100" in said or zone is Zone.CROWN
    milder = outlook(SHEET, build, fits=0.5, found=0.3, loose=0.5, tight=0.5)
    assert zone is Zone.CROWN or "try the" in remedy(Fault(kind, zone, 0.2), milder, SHEET)


def test_where_no_shell_is_left_another_model_is_named():
    smallest = outlook(SHEET, Build(1, (4,) * 8), fits=0.5, found=0.3)
    assert "no smaller shell; try another model" in remedy(
        Fault(FaultKind.LOOSE, Zone.REAR, 0.2), smallest, SHEET
    )


def test_a_remedy_minds_the_zones_that_must_match():
    matched = dataclasses.replace(SHEET, matched=((Zone.LEFT, Zone.RIGHT),))
    place = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3)
    said = remedy(Fault(FaultKind.TIGHT, Zone.LEFT, 0.2), place, matched)
    assert said.endswith("and the same in right")


def test_every_instruction_of_the_sheet_is_on_the_page():
    hair = Instruction(FitTopic.HAIR, "Wet the hair first")
    answer = answered(TEXT)
    sheet = dataclasses.replace(SHEET, instructions=(*SHEET.instructions, hair))
    page = build_page(dataclasses.replace(answer, sheet=sheet), 80)
    assert "The maker says" in page
    assert "brow height: Invented example:" in page
    assert "Accepted: 3/4 in to 1 1/4 in." in squeezed(page)
    assert "hair: Wet the hair first." in page


def test_a_face_that_looks_to_the_right_is_seen_from_the_right():
    best = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3)
    drawn = shell_picture(drawn_sections(TAPED, SHEET, best), 80)
    assert "from the right side" in drawn[0]
    (both,) = (line for line in drawn if "rear" in line and "front" in line)
    assert both.index("rear") < both.index("front")


@pytest.mark.parametrize(("width", "views"), [(40, 1), (59, 2), (80, 2), (100, 3)])
def test_as_many_views_are_drawn_as_the_page_has_room_for(width, views):
    best = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3)
    drawn = shell_picture(drawn_sections(TAPED, SHEET, best), width)
    told = ("from the right side", "from above", "from behind")
    assert [view in drawn[0] for view in told] == [True] * views + [False] * (3 - views)
    assert max(len(line) for line in drawn) <= width


def test_height_weight_and_sex_are_said_as_they_were_understood():
    text = "Name,tape,height,weight,sex\nTeal,22 5/8,6-2,215,M\n"
    for page in (build_page(answered(text), 80), head_page(answered(text), 80)):
        assert page.startswith("Teal: 6-2, 215 lb, male\n")


def test_a_head_that_nobody_measured_is_a_forecast_and_blames_no_model():
    blind = dataclasses.replace(proposed(TEXT, suits=False), measured=False)
    said = " ".join(reasons(blind))
    assert "This is a forecast" in said
    assert "does not suit" not in said


def test_a_gain_that_cannot_be_told_from_nothing_is_not_proposed():
    assert is_worth_taking(MeasureGain("brow_to_top", 0.05, 0.01))
    assert not is_worth_taking(MeasureGain("brow_to_top", 0.05, 0.03))
    assert not is_worth_taking(MeasureGain("brow_to_top", 0.01, 0.001))


def test_the_measure_to_take_next_comes_with_how_to_take_it():
    page = squeezed(build_page(answered(TEXT), 80))
    assert "How (about 1 minute): Tape just above the brow ridges" in page


def test_a_head_outside_the_size_chart_is_said():
    proposal = dataclasses.replace(proposed(TEXT), shells=(ShellChance(6, 0.04),))
    said = " ".join(reasons(proposal))
    assert "names shell 6 for 4 of 100, no shell for 96 of 100" in said
    assert "outside what the maker made the model for" in said
    none = dataclasses.replace(proposed(TEXT), shells=())
    assert "names no shell for 100 of 100" in " ".join(reasons(none))


def test_a_helmet_that_floats_and_a_model_that_does_not_suit_are_said():
    proposal = proposed(TEXT, suits=False)
    loose = outlook(SHEET, Build(3, SHEET.delivered), fits=0.1, found=0.05, floats=0.4)
    said = " ".join(reasons(dataclasses.replace(proposal, ranked=(loose,))))
    assert "In 40 of 100" in said
    assert "too little to be held" in said
    assert "this model does not suit this head" in said


def test_a_fault_of_height_and_a_fault_of_a_zone_are_both_in_words():
    proposal = proposed(TEXT)
    for fault, words in (
        (Fault(FaultKind.BROW_LOW, None, 0.2), "too low on the brow (20 of 100)"),
        (Fault(FaultKind.HOT_SPOT, Zone.NAPE, 0.004), "nape hot spot (under 1 of 100)"),
    ):
        best = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3, faults=(fault,))
        assert words in " ".join(reasons(dataclasses.replace(proposal, ranked=(best,))))


def test_a_head_page_lists_what_was_read_before_what_was_filled_in():
    page = head_page(answered(TEXT), 80)
    filled = page.index("Not read")
    for words in ("tape around the head", "head length", "head breadth"):
        assert page.index(words) < filled
    for words in ("brow to top", "width at the jaw pads", "tape at brow ridges"):
        assert page.index(words) > filled


def test_the_other_builds_are_listed_by_what_differs_and_a_pair_that_moves_alike_is_one():
    answer = answered(TEXT)
    (each,) = answer.answers
    assert each.proposal is not None
    first = outlook(SHEET, Build(3, SHEET.delivered), fits=0.5, found=0.3)
    pads = list(SHEET.delivered)
    for zone in (Zone.LEFT, Zone.JAW_LEFT, Zone.JAW_RIGHT):
        pads[ZONES.index(zone)] += 1
    second = outlook(SHEET, Build(3, tuple(pads)), fits=0.4, found=0.2)
    proposal = dataclasses.replace(each.proposal, ranked=(first, second))
    page = build_page(
        dataclasses.replace(answer, answers=(dataclasses.replace(each, proposal=proposal),)), 80
    )
    listed = page.partition("Builds, best first")[2].splitlines()[2:4]
    assert listed[0].split(maxsplit=5)[:5] == ["2", "3", "20", "/", "40"]
    assert listed[0].endswith("left 1, both jaws 1")
    assert listed[1].startswith("D ")
