"""Why a build is tried, as data."""

from helmwright.catalogue import ZONES, Zone
from helmwright.fit.finding import Finding, Grade, Sign
from helmwright.fit.next_build import Option
from helmwright.fit.next_build_why import why
from helmwright.fit.outlook import Build, Chance
from tests.fit.ordinary import MIDDLE, OUZEL, delivered, moved
from tests.fit.plain_draws import findings

UNDER, RIGHT, OVER = Grade
HALF = Chance(0.5, 0.01)


def option(build: Build, lying: Build, *touched: Zone, saved: float = 0.0) -> Option:
    changes = build.changes_from(lying)
    return Option(build, HALF, HALF, 1.0, 5.0, lying, changes, touched, saved)


def test_it_names_what_was_found_wrong_what_changes_and_what_stays():
    current = delivered()
    found = findings(front=UNDER, jaw_left=OVER, brow=OVER)
    build = moved(current, front=1, jaw_left=-2, crown=-1)
    told = why(option(build, current), found, OUZEL, current)
    assert told.answers == (
        Finding(Sign.BROW, OVER),
        Finding(Sign.ZONE, UNDER, Zone.FRONT),
        Finding(Sign.ZONE, OVER, Zone.JAW_LEFT),
    )
    assert [(m.zone, m.before, m.after, round(m.by_mm, 3)) for m in told.moves] == [
        (Zone.CROWN, "7/8 in", "5/8 in", -6.35),
        (Zone.FRONT, "7/8 in", "1 in", 3.175),
        (Zone.JAW_LEFT, "7/8 in", "5/8 in", -6.35),
    ]
    assert told.shells is None
    assert set(told.stay) == set(ZONES) - {Zone.CROWN, Zone.FRONT, Zone.JAW_LEFT}


def test_a_snug_pad_that_changes_does_not_stay_and_is_told_with_what_it_saves():
    current = delivered()
    build = moved(current, front=1, nape=1)
    told = why(option(build, current, Zone.NAPE, saved=0.2), findings(front=UNDER), OUZEL, current)
    assert told.touched_snug == (Zone.NAPE,)
    assert told.saved == 0.2
    assert Zone.NAPE not in told.stay


def test_in_another_shell_pads_count_from_what_lies_there_and_nothing_stays():
    current, lying = delivered(), moved(delivered(MIDDLE + 1), jaw_left=-1)
    build = moved(lying, nape=1)
    found = findings(front=OVER, rear=OVER)
    told = why(option(build, lying), found, OUZEL, current)
    assert told.shells == (MIDDLE, MIDDLE + 1)
    assert [move.zone for move in told.moves] == [Zone.NAPE]
    assert told.stay == ()


def test_an_answer_that_was_taken_back_at_a_second_look_is_not_answered():
    current = delivered()
    found = [*findings(front=UNDER), Finding(Sign.ZONE, RIGHT, Zone.FRONT)]
    found += [Finding(Sign.TURN, UNDER)]
    told = why(option(moved(current, left=1), current), found, OUZEL, current)
    assert told.answers == (Finding(Sign.TURN, UNDER),)


def test_before_the_first_try_on_it_answers_nothing():
    told = why(option(moved(delivered(), crown=1), delivered()), (), OUZEL, delivered())
    assert told.answers == ()
    assert told.stay == ()
    assert [move.zone for move in told.moves] == [Zone.CROWN]
