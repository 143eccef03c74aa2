"""Published criteria of a helmet's fit: the usual protocol asks for each, at least as strictly.

The seven of the survey of Wisconsin helmets are those of its abstract. The thirteen of the youth
checklist are those that a news report on the first study lists; the table of the paper itself was
not at hand, so that how each was judged is not known. Where a criterion is a length, the interval
of ours must lie inside the published one, or around the published value; where it is words, the
check must ask for each of the words' points.
"""

import re
from dataclasses import dataclass

import pytest

from helmwright.catalogue import load_packaged, packaged_models
from helmwright.fit.face import nose_interval
from helmwright.fit.sight import FINGER
from helmwright.sources import Source
from helmwright.sources.fit_checks import YOUTH_CHECKLIST_2020
from helmwright.sources.records import MCGUINE_1997
from helmwright.units import MM_PER_INCH
from helmwright.visit.check import Check, Part, Stage, SubScore
from helmwright.visit.protocol import protocol_for, usual_protocol

USUAL = usual_protocol()
INCH = MM_PER_INCH


@dataclass(frozen=True)
class Criterion:
    """One published criterion: the checks that carry it, and words that each of them must have.

    Parameters
    ----------
    says
        The criterion, shortened.
    checks
        Keys of ours.
    points
        Words, one of each group in every check's text.
    """

    says: str
    checks: tuple[str, ...]
    points: tuple[tuple[str, ...], ...]


SEVEN = (
    Criterion("an inch clear above the eyebrows", ("brow",), (("inch",), ("eyebrow",))),
    Criterion("two inches at least, nose to guard", ("nose",), (("2 inches",), ("nose",))),
    Criterion("strap centered and tight", ("cup",), (("center",), ("tight",))),
    Criterion("jaw pads snug to the face", ("jaw left", "jaw right"), (("firm",), ("cheek",))),
    Criterion(
        "ear openings aligned and tight",
        ("ears",),
        (("opening",), ("ear canal",), ("close around the ear",)),
    ),
    Criterion("back of the head covered", ("cover",), (("covered",), ("back of the head",))),
    Criterion("little movement front to back", ("nod", "pull"), (("forward", "front to back"),)),
)

ROUND = ("front", "left", "right", "rear", "nape")

THIRTEEN = (
    Criterion("in good condition", ("whole shell",), (("crack",), ("dent",))),
    Criterion("all padding in place", ("parts",), (("every pad",),)),
    Criterion("all snaps and screws in place", ("parts",), (("snap",), ("screw",))),
    Criterion("the standard's mark to be seen", ("marks",), (("mark",),)),
    Criterion(
        "snug on all sides", ROUND, (("no gap", "no daylight", "no room", "firm"), ("snug",))
    ),
    Criterion("covers the base of the skull", ("cover",), (("base of the skull",),)),
    Criterion("1 to 2 fingers above the eyebrows", ("brow",), (("eyebrow",),)),
    Criterion("does not hinder the neck", ("neck",), (("neck moves freely",),)),
    Criterion(
        "eyes free when it is pressed down", ("crown",), (("press",), ("clear of the eyes",))
    ),
    Criterion("strap points of equal tension", ("tension",), (("equally tight",),)),
    Criterion("guard does not slip left and right", ("turn",), (("guard do not slip",),)),
    Criterion("guard does not slip up and down", ("nod",), (("guard does not slip",),)),
    Criterion(
        "skin of the forehead moves with it",
        ("turn", "nod"),
        (("skin of forehead", "skin of the forehead"), ("moves with it",)),
    ),
)


def text_of(check: Check) -> str:
    answers = [part for each in check.answers for part in (each.word, each.says)]
    return " ".join([check.title, *check.how, check.accept, *answers]).lower()


def asked(criterion: Criterion) -> None:
    """Each check that carries a criterion is there and asks for every point of it."""
    for key in criterion.checks:
        text = text_of(USUAL.check(key))
        for group in criterion.points:
            assert any(word in text for word in group), f"{key} lacks {group}"


@pytest.mark.outside("mcguine_1997")
@pytest.mark.parametrize("criterion", SEVEN, ids=lambda each: each.says)
def test_the_protocol_asks_for_each_of_the_seven_criteria_of_the_survey_of_helmets(criterion):
    asked(criterion)


@pytest.mark.outside("yeargin_2021", "youth_checklist_2020")
@pytest.mark.parametrize("criterion", THIRTEEN, ids=lambda each: each.says)
def test_the_protocol_asks_for_each_of_the_thirteen_items_of_the_youth_checklist(criterion):
    asked(criterion)


def listed(source: Source) -> list[str]:
    """What a record lists, point by point."""
    points = source.note.partition(": ")[2] if "criteria: " in source.note else source.note
    return re.split(r"; |, nor ", points.partition(". ")[0])


def words_of(text: str) -> set[str]:
    """Words that tell one point from another."""
    return set(re.findall(r"[a-z]{4,}", text.lower())) - {"both", "with", "when", "more", "from"}


@pytest.mark.outside("mcguine_1997", "youth_checklist_2020")
@pytest.mark.parametrize(
    ("source", "criteria", "count"),
    [(MCGUINE_1997, SEVEN, 7), (YOUTH_CHECKLIST_2020, THIRTEEN, 13)],
    ids=lambda each: getattr(each, "key", ""),
)
def test_every_published_criterion_stands_in_the_tables_in_its_place(source, criteria, count):
    points = listed(source)
    assert len(points) == count
    for point, criterion in zip(points, criteria, strict=True):
        assert words_of(point) & words_of(criterion.says), f"{point!r} is not {criterion.says!r}"


@pytest.mark.outside("mcguine_1997")
def test_an_inch_of_brow_is_right_and_half_an_inch_more_or_less_is_not():
    length = USUAL.check("brow").length
    assert length is not None
    assert [length.grade(inches * INCH) for inches in (0.5, 1.0, 1.5)] == [-1, 0, 1]


@pytest.mark.outside("mcguine_1997")
def test_less_than_two_inches_from_nose_to_guard_is_not_accepted():
    length = USUAL.check("nose").length
    assert length is not None
    assert length.accept_mm[0] >= 2.0 * INCH
    assert length.grade(1.99 * INCH) == -1


@pytest.mark.outside("mcguine_1997")
@pytest.mark.parametrize("model", packaged_models())
def test_a_guard_nearer_than_two_inches_is_not_called_right_before_it_is_on(model):
    (low, high), by_maker = nose_interval(load_packaged(model))
    assert not by_maker
    assert low == pytest.approx(2.0 * INCH)
    assert high > low


@pytest.mark.outside("youth_checklist_2020")
def test_the_accepted_brow_lies_within_one_to_two_fingers():
    """To a tenth of a millimeter: a finger is assumed to be 3/4 in."""
    length = USUAL.check("brow").length
    assert length is not None
    low, high = length.accept_mm
    assert low >= FINGER.value - 0.1
    assert high <= 2.0 * FINGER.value


@pytest.mark.outside("lininger_2021")
def test_the_five_scores_bear_the_published_names_and_each_has_checks():
    names = ["stability", "snugness", "size", "integrity", "accessory"]
    assert list(SubScore) == names
    assert {check.sub_score for check in USUAL.checks} == set(names)


@pytest.mark.outside("common_practice")
def test_the_brow_is_an_inch_within_a_quarter_inch():
    length = USUAL.check("brow").length
    assert length is not None
    low, high = length.accept_mm
    assert (low + high) / 2.0 == pytest.approx(INCH, abs=0.1)
    assert (high - low) / 2.0 == pytest.approx(0.25 * INCH, abs=0.1)


@pytest.mark.outside("common_practice")
def test_skin_of_the_forehead_that_moves_with_the_shell_is_what_is_asked_for_and_not_a_fault():
    for key in ("turn", "nod"):
        check = USUAL.check(key)
        assert "skin" in check.accept.lower()
        assert "moves with it" in check.accept
        right = next(answer for answer in check.answers if answer.grade == 0)
        assert "together" in right.says


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("model", packaged_models())
def test_every_strap_point_is_counted_and_there_are_at_least_four(model):
    text = protocol_for(load_packaged(model)).check("tension").accept
    assert "four" in text or "six" in text
    assert "All" in text


@pytest.mark.outside("common_practice")
@pytest.mark.parametrize("part", [Part.PAD, Part.CROWN, Part.JAW, Part.AIR, Part.SHELL])
def test_after_every_change_of_the_inside_contact_and_movement_are_checked_again(part):
    again = USUAL.repeated_after([part])
    assert set(USUAL.stage(Stage.CONTACT)) <= set(again)
    assert {"turn", "nod", "pull", "cup", "hot spots"} <= {check.key for check in again}


@pytest.mark.outside("common_practice")
def test_the_helmet_is_fitted_with_the_guard_on_and_the_hair_as_it_will_be_worn():
    before = [check.key for check in USUAL.stage(Stage.BEFORE)]
    assert "guard on" in before
    assert "wet" in text_of(USUAL.check("hair"))
    assert "headwear" in text_of(USUAL.check("hair"))
