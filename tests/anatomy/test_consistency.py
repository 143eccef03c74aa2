"""Readings held against each other."""

import pytest

from helmwright.anatomy import (
    FindingKind,
    Over,
    Reading,
    Sex,
    Touch,
    check_readings,
    excess_over_ellipse,
    group_excess_finding,
)

GIRTH, LENGTH, BREADTH = 570.0, 200.0, 154.0


def head(**changed: float) -> list[Reading]:
    values = {
        "tape_circumference": GIRTH,
        "head_length": LENGTH,
        "head_breadth": BREADTH,
        "brow_to_top": 101.0,
        "jaw_pad_width": 132.0,
    }
    return [Reading(key, value) for key, value in {**values, **changed}.items()]


def test_clean_readings_raise_no_finding():
    assert check_readings(head()) == ()
    assert check_readings([]) == ()


def test_swapped_length_and_breadth_are_asked_about_and_block():
    (finding,) = check_readings(head(head_length=BREADTH, head_breadth=LENGTH))
    assert finding.kind is FindingKind.SWAPPED
    assert finding.blocks
    assert finding.suggestion == "Swapped: length 200 mm and breadth 154 mm?"


@pytest.mark.parametrize(
    ("key", "value", "question"),
    [
        ("tape_circumference", 226.2, "Cm and inches mixed up: 22 5/8 in"),
        ("head_breadth", 60.6, "Cm and inches mixed up: 6 in (154 mm)"),
        ("head_breadth", 15.4, "Mm and cm mixed up: 6 1/8 in (154 mm)"),
        ("jaw_pad_width", 300.0, "Cm and inches mixed up: 4 5/8 in (118 mm)"),
        ("tape_circumference", 30.0, "Measure again?"),
    ],
)
def test_a_value_of_nobody_blocks_and_says_what_may_have_been_meant(key, value, question):
    (finding,) = check_readings(head(**{key: value}))
    assert finding.kind is FindingKind.OUT_OF_RANGE
    assert finding.blocks
    assert finding.measures == (key,)
    assert question in str(finding.suggestion)


@pytest.mark.parametrize("off", [-1.0, 1.0])
@pytest.mark.parametrize(("key", "true"), [("head_length", LENGTH), ("head_breadth", BREADTH)])
def test_a_reading_an_inch_off_is_named_with_the_likely_value(key, true, off):
    findings = check_readings(head(**{key: true + off * 25.4}), sex=Sex.MALE)
    odd = next(each for each in findings if each.kind is FindingKind.ODD_ONE_OUT)
    assert odd.measures == (key,)
    assert str(odd.suggestion).startswith("An inch off: ")
    assert f"({true:.0f} mm)" in str(odd.suggestion)
    assert not odd.blocks


def test_a_circumference_out_of_line_with_both_calipers_is_found_by_the_ellipse():
    (first, *_) = check_readings(head(tape_circumference=625.0), sex=Sex.MALE)
    assert first.kind is FindingKind.OUTLINE
    assert "too large for length 200 and breadth 154" in first.message
    (first, *_) = check_readings(head(tape_circumference=530.0), sex=Sex.MALE)
    assert first.kind is FindingKind.OUTLINE
    assert "too small" in first.message


def test_a_head_nearly_as_broad_as_long_is_asked_about():
    kinds = {each.kind for each in check_readings(head(head_length=170.0, head_breadth=165.0))}
    assert FindingKind.PROPORTION in kinds


def test_two_readings_far_apart_ask_for_one_more():
    (finding,) = check_readings([*head(), Reading("tape_circumference", GIRTH + 12.0)])
    assert finding.kind is FindingKind.REPEATS_APART
    assert "12 mm apart" in finding.message


def test_of_three_readings_the_one_that_stands_apart_is_set_aside_and_named():
    more = [Reading("tape_circumference", GIRTH + 12.0), Reading("tape_circumference", GIRTH + 1.0)]
    (finding,) = check_readings([*head(), *more])
    assert finding.kind is FindingKind.SET_ASIDE
    assert "22 7/8 in (582 mm) stands more than 8 mm from the others" in finding.message
    assert "left out of their mean" in finding.message
    assert not finding.blocks
    more[1] = Reading("tape_circumference", GIRTH + 24.0)
    kinds = {each.kind for each in check_readings([*head(), *more])}
    assert FindingKind.REPEATS_APART in kinds


def test_a_breadth_an_inch_too_large_is_named_against_the_other_three():
    readings = [
        Reading(key, inches * 25.4)
        for key, inches in (
            ("tape_circumference", 21.75),
            ("head_length", 7.8),
            ("head_breadth", 6.75),
            ("brow_to_top", 4.0),
        )
    ]
    (odd,) = [
        each
        for each in check_readings(readings, sex=Sex.MALE)
        if each.kind is FindingKind.ODD_ONE_OUT
    ]
    assert odd.message.startswith(
        "Head breadth 6 3/4 in (171 mm) does not go with the other three readings: too large"
    )
    assert odd.suggestion == "An inch off: 5 3/4 in (146 mm)?"


def braided(over: Over) -> list[Reading]:
    return [
        Reading("tape_circumference", 618.0, over),
        Reading("head_length", 200.0, over),
        Reading("head_breadth", 156.0, over),
    ]


def test_an_outline_too_large_for_a_head_may_be_hair_where_hair_was_said():
    def kinds(over: Over) -> set[FindingKind]:
        return {each.kind for each in check_readings(braided(over), sex=Sex.MALE)}

    assert FindingKind.OUTLINE in kinds(Over.BARE)
    assert FindingKind.OUTLINE not in kinds(Over.BRAIDS)


def test_a_woman_said_to_be_bare_is_held_against_heads_without_hair():
    over_hair, bare = (
        {
            each.kind
            for each in check_readings(
                [
                    Reading("tape_circumference", 575.0, over),
                    Reading("head_length", 184.0, over),
                    Reading("head_breadth", 144.0, over),
                ],
                sex=Sex.FEMALE,
            )
        }
        for over in (Over.UNSTATED, Over.BARE)
    )
    assert FindingKind.OUTLINE not in over_hair
    assert FindingKind.OUTLINE in bare


def test_a_single_reading_is_held_against_the_population():
    (finding,) = check_readings([Reading("tape_circumference", 655.0)])
    assert finding.kind is FindingKind.ODD_ONE_OUT
    assert "people of the surveys" in finding.message


def test_the_readings_are_left_as_they_were():
    readings = head(tape_circumference=625.0)
    check_readings(readings)
    assert readings == head(tape_circumference=625.0)


def test_a_round_head_has_the_excess_of_its_circumference_over_the_circle():
    assert excess_over_ellipse(600.0, 180.0, 180.0) == pytest.approx(600.0 - 565.487, abs=1e-3)


def test_a_group_is_held_against_the_surveys_more_tightly_than_one_head():
    assert group_excess_finding([]) is None
    assert group_excess_finding([32.0]) is None
    long = group_excess_finding([32.0] * 30)
    assert long is not None
    assert "run long" in long.message
    short = group_excess_finding([8.0] * 30)
    assert short is not None
    assert "run short" in short.message


def youth(**read: float) -> list[Reading]:
    return [Reading(key, value) for key, value in read.items()]


BOY_OF_TEN = {"tape_circumference": 533.0, "head_length": 187.0, "head_breadth": 145.0}


def test_a_clean_boy_of_ten_raises_no_finding():
    assert check_readings(youth(**BOY_OF_TEN), sex=Sex.MALE, age_years=10) == ()
    assert check_readings(youth(**BOY_OF_TEN), ages=(8, 12)) == ()


@pytest.mark.parametrize(
    ("age", "girth", "word"), [(9, 575.0, "large"), (13, 600.0, "large"), (17, 505.0, "small")]
)
def test_a_head_that_does_not_go_with_the_age_is_asked_about_once(age, girth, word):
    (finding,) = check_readings(youth(tape_circumference=girth), sex=Sex.MALE, age_years=age)
    assert finding.kind is FindingKind.AGE
    assert finding.measures == ("tape_circumference",)
    assert f"is {word} for {age} years" in finding.message
    assert str(finding.suggestion).startswith("Is the age right?")
    assert not finding.blocks


def test_an_adult_head_that_goes_together_is_still_asked_about_for_a_boy_of_nine():
    readings = youth(tape_circumference=575.0, head_length=199.0, head_breadth=154.0)
    kinds = [each.kind for each in check_readings(readings, sex=Sex.MALE, age_years=9)]
    assert FindingKind.AGE in kinds
    assert check_readings(readings, sex=Sex.MALE, age_years=25) == ()
    assert check_readings(readings, sex=Sex.MALE) == ()


def test_where_no_circumference_was_read_the_length_stands_for_the_size():
    (finding,) = check_readings(youth(head_length=212.0), sex=Sex.MALE, age_years=9)
    assert (finding.kind, finding.measures) == (FindingKind.AGE, ("head_length",))
    assert check_readings(youth(jaw_pad_width=112.0), sex=Sex.MALE, age_years=9) == ()


def test_an_old_reading_is_held_against_the_age_at_which_it_was_taken():
    # 505 mm is small for a boy of 13, and was not two years and a half ago.
    old = [Reading("tape_circumference", 505.0, months_ago=30.0)]
    assert check_readings(old, sex=Sex.MALE, age_years=13) == ()
    new = youth(tape_circumference=505.0)
    assert [each.kind for each in check_readings(new, sex=Sex.MALE, age_years=13)] == [
        FindingKind.AGE
    ]


def test_a_youth_s_reading_an_inch_off_is_named_with_the_likely_value():
    for key in ("head_length", "head_breadth"):
        for off in (-25.4, 25.4):
            found = check_readings(
                youth(**BOY_OF_TEN | {key: BOY_OF_TEN[key] + off}), sex=Sex.MALE, age_years=10
            )
            assert any(each.measures == (key,) for each in found)


def test_the_outline_has_other_limits_for_youths():
    # 10 mm under the ellipse: one boy in forty, and no man of the surveys.
    flat = youth(head_circumference=535.0, head_length=190.0, head_breadth=156.0)
    excess = excess_over_ellipse(535.0, 190.0, 156.0)
    assert -12.0 < excess < -9.0
    boys, men = (
        [each.kind for each in check_readings(flat, sex=Sex.MALE, age_years=age)]
        for age in (10, None)
    )
    assert FindingKind.OUTLINE not in boys
    assert FindingKind.OUTLINE in men


def test_between_youth_and_adult_both_limits_hold():
    for excess in (-8.0, 44.0):
        girth = 530.0 + excess - excess_over_ellipse(530.0, 188.0, 145.0)
        read = youth(head_circumference=girth, head_length=188.0, head_breadth=145.0)
        for stated in ({"age_years": 18}, {"ages": (10, 30)}):
            found = check_readings(read, sex=Sex.MALE, **stated)
            assert FindingKind.OUTLINE not in [each.kind for each in found]


def test_a_group_of_youths_is_held_against_youths():
    assert group_excess_finding([9.0] * 30, young=True) is None
    assert group_excess_finding([9.0] * 30) is not None
    assert "run long" in str(group_excess_finding([40.0] * 30, young=True))
    assert group_excess_finding([9.0] * 30, Sex.FEMALE, young=True) is None


def two_touches(drawn: float, light: float, over: Over = Over.THICK_HAIR, **changed):
    taped = [
        Reading("tape_circumference", drawn, over),
        Reading("tape_circumference", light, over, touch=Touch.LIGHT),
    ]
    return taped + [Reading(key, value) for key, value in changed.items()]


@pytest.mark.parametrize("over", [Over.UNSTATED, Over.BARE, Over.THICK_HAIR, Over.WINTER_CAP])
@pytest.mark.parametrize("less", [12.7, 25.4])
def test_a_light_tape_that_reads_less_than_a_drawn_in_one_is_asked_about_once(over, less):
    (finding,) = check_readings(two_touches(560.0, 560.0 - less, over), sex=Sex.MALE)
    assert finding.kind is FindingKind.LIGHT_TAPE
    assert "The light tape" in finding.message
    assert "(560 mm)" in finding.message
    assert "swapped" in str(finding.suggestion)
    assert not finding.blocks


def test_two_touches_within_the_errors_of_reading_are_not_asked_about():
    # Single readings: TEM 3 and bias 1.5 each, so 1.96 sqrt(2 (9 + 2.25)) = 9.3 mm.
    assert check_readings(two_touches(570.0, 561.0, Over.BARE), sex=Sex.MALE) == ()
    (finding,) = check_readings(two_touches(570.0, 560.5, Over.BARE), sex=Sex.MALE)
    assert finding.kind is FindingKind.LIGHT_TAPE
    assert check_readings(two_touches(570.0, 585.0), sex=Sex.MALE) == ()


def test_only_touches_over_the_same_on_the_same_day_are_held_against_each_other():
    drawn = Reading("tape_circumference", 582.0, Over.THICK_HAIR)
    bare = Reading("tape_circumference", 566.0, Over.BARE, touch=Touch.LIGHT)
    kinds = [each.kind for each in check_readings([drawn, bare], sex=Sex.MALE)]
    assert FindingKind.LIGHT_TAPE not in kinds
    once = Reading("tape_circumference", 552.0, Over.THICK_HAIR, 24.0, touch=Touch.LIGHT)
    kinds = [each.kind for each in check_readings([drawn, once], sex=Sex.MALE)]
    assert FindingKind.LIGHT_TAPE not in kinds


def test_a_light_tape_too_large_for_the_head_is_called_the_light_tape():
    found = check_readings(
        two_touches(GIRTH, GIRTH + 75.0, Over.BARE, head_length=LENGTH, head_breadth=BREADTH),
        sex=Sex.MALE,
    )
    assert any(each.message.startswith("Light tape 25 3/8 in") for each in found)
