"""Guards and straps on the proposed build: places, weight, lengths and what they hold."""

from dataclasses import replace

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws, Sex
from helmwright.anatomy.face import draw_faces
from helmwright.anatomy.head_prior import head_prior
from helmwright.anatomy.part import part_label
from helmwright.anatomy.surface import head_shapes
from helmwright.catalogue import FitTopic, Instruction, Zone, load_packaged
from helmwright.fit import Bands
from helmwright.fit.contact import Trial
from helmwright.fit.face import face_outlook, nose_interval
from helmwright.fit.guard import draw_guard, rested_with, with_guard
from helmwright.fit.seating import pad_laws
from helmwright.fit.strap import (
    face_fullness,
    front_pivot,
    moment_arms_mm,
    rear_pivot,
    start_lengths_mm,
    strap_outlook,
    unit_ways,
)
from helmwright.fit.unknowns import draw_unknowns
from helmwright.fit.worn import Worn
from tests.fit.ordinary import OUZEL, delivered, drawn, men, trial_of

HEADS = men(60)
BUILD = delivered()
SMALLEST = 1
UNKNOWN = draw_unknowns(OUZEL, len(HEADS), np.random.default_rng(2))
TRIAL = trial_of(HEADS, unknowns=UNKNOWN)
EDGE = TRIAL.seating.front_edge[[0, 2]]
OPEN, CLOSED, HALF = OUZEL.face_guards
SOFT, HARD = OUZEL.chin_straps


def outlook(sheet=OUZEL, *, seed=4):
    trial = trial_of(HEADS, sheet=sheet, unknowns=UNKNOWN)
    return face_outlook(trial, HEADS, BUILD, rng=np.random.default_rng(seed))


def sheet_with(guard):
    return replace(OUZEL, face_guards=(guard,))


@pytest.fixture(scope="module")
def worn() -> Worn:
    return Worn(TRIAL, BUILD, TRIAL.rest(BUILD))


def test_the_front_edge_lies_where_the_brow_height_says(worn):
    assert worn.front_edge()[:, 1] - TRIAL.heads.brow_mm == pytest.approx(worn.rest.brow_mm)


def test_places_move_as_contacts_do(worn):
    """u = t + w x p, about the height of linearization, as the contact model has it."""
    pose = np.tile([1.5, 0.0, -2.5, 0.0, 0.04, 0.0], (len(worn), 1))
    put = Worn(TRIAL, BUILD, replace(worn.rest, pose=pose))
    raised = np.array([170.0, 0.0, -30.0]) + TRIAL.lift_mm(BUILD)[:, None] * [0.0, 0.0, 1.0]
    moved = raised + pose[:, :3] + np.cross(pose[:, 3:], raised)
    moved[:, 2] += UNKNOWN.brow_mm
    found = put.place(np.array([170.0]), np.array([-30.0]))[:, 0]
    assert found == pytest.approx(moved[:, [0, 2]])


def test_places_move_as_a_rigid_body_turns(worn):
    """To first order in the rotation, as the contacts do: no distance changes by a hundredth."""
    one, other = worn.place(np.array([150.0, 30.0]), np.array([-40.0, 60.0])).transpose(1, 0, 2)
    apart = np.linalg.norm(one - other, axis=1)
    assert apart == pytest.approx(np.full(len(worn), np.hypot(120.0, 100.0)), rel=0.01)


def test_the_answer_is_the_same_for_the_same_draws():
    assert outlook() == outlook()


def test_only_what_the_sheet_lists_for_the_shell_is_computed():
    small = delivered(SMALLEST)
    trial = trial_of(HEADS, shell=SMALLEST, unknowns=UNKNOWN)
    found = face_outlook(trial, HEADS, small, rng=np.random.default_rng(1))
    assert [each.guard.name for each in found.guards] == [OPEN.name, CLOSED.name]


def test_bars_further_out_leave_more_before_the_nose_and_change_nothing_above():
    out = tuple(replace(place, ahead_mm=place.ahead_mm + 10.0) for place in OPEN.places)
    here, there = (
        outlook(sheet_with(guard)).guards[0] for guard in (OPEN, replace(OPEN, places=out))
    )
    assert there.nose_mm.mean - here.nose_mm.mean == pytest.approx(10.0, abs=1.5)
    assert there.up_deg == here.up_deg


def test_wider_sides_leave_more_to_see_and_a_silent_sheet_says_nothing_of_it():
    ahead, across = OPEN.side_opening_mm or (0.0, 0.0)
    wider = replace(OPEN, side_opening_mm=(ahead, across + 20.0))
    here, there = (outlook(sheet_with(guard)).guards[0].side_deg for guard in (OPEN, wider))
    assert here is not None
    assert there is not None
    assert there.low > here.low > 45.0
    silent = replace(OPEN, side_opening_mm=None)
    assert outlook(sheet_with(silent)).guards[0].side_deg is None


def test_a_sheet_that_is_silent_gets_usual_places_and_a_wider_spread():
    here = outlook(sheet_with(OPEN)).guards[0]
    there = outlook(sheet_with(replace(OPEN, places=()))).guards[0]
    assert here.from_sheet
    assert not there.from_sheet
    assert there.nose_mm.high - there.nose_mm.low > 1.3 * (here.nose_mm.high - here.nose_mm.low)
    assert there.nose_mm.mean == pytest.approx(here.nose_mm.mean, abs=6.0)


def test_the_makers_interval_wins_over_the_usual_one():
    said = Instruction(FitTopic.FACE_GUARD_DISTANCE, "An example.", (60.0, 70.0))
    sheet = replace(sheet_with(OPEN), instructions=(said,))
    usual, by_maker = nose_interval(OUZEL)
    assert usual == pytest.approx((2.0 * 25.4, 2.75 * 25.4))
    assert not by_maker
    assert nose_interval(sheet) == ((60.0, 70.0), True)
    assert outlook(sheet).guards[0].nose_right < outlook(sheet_with(OPEN)).guards[0].nose_right


def men_and_women():
    return [(men(200), "male"), (drawn(Sex.FEMALE, 200, low=560.0, high=580.0), "female")]


def youths():
    for sex in Sex:
        values = head_prior(sex, age_years=11.0).draw(8000, np.random.default_rng(7))
        tape = HeadDraws(values).of("tape_circumference")
        fits = (tape >= 520.0) & (tape < 540.0)
        yield HeadDraws(values[fits][:200]), part_label(sex, 11.0)


@pytest.mark.parametrize(
    ("model", "shell", "whose"),
    [("ouzel", 3, men_and_women), ("redstart", 3, men_and_women), ("wren", 2, youths)],
)
def test_every_invented_guard_stands_right_before_three_of_four_usual_noses(model, shell, whose):
    sheet = load_packaged(model)
    for heads, label in whose():
        rng = np.random.default_rng(2)
        trial = Trial(
            sheet, sheet.shell(shell), pad_laws(sheet), head_shapes(heads),
            draw_unknowns(sheet, len(heads), rng), Bands.of(sheet),
        )  # fmt: skip
        found = face_outlook(trial, heads, delivered(shell, sheet), rng=rng, labels=(label,))
        assert {each.guard.name for each in found.guards} == {
            guard.name for guard in sheet.face_guards
        }
        for each in found.guards:
            assert each.nose_right >= 0.75, (each.guard.name, label)
            assert each.sight >= 0.9, (each.guard.name, label)


def test_usual_places_are_right_more_often_than_not_where_the_sheet_is_silent():
    silent = tuple(replace(guard, places=()) for guard in OUZEL.face_guards)
    for each in outlook(replace(OUZEL, face_guards=silent)).guards:
        assert each.nose_right > 0.5


def test_a_shell_weighs_what_it_does_with_the_guard_that_is_on_it():
    rng = np.random.default_rng(1)
    first, other = (draw_guard(guard, EDGE, 50, rng) for guard in (OPEN, CLOSED))
    shell = TRIAL.shell
    assert with_guard(shell, first, first).mass_kg == pytest.approx(shell.mass_kg)
    changed = with_guard(shell, other, first)
    assert changed.mass_kg == pytest.approx(shell.mass_kg + 0.52 - 0.34)
    back = with_guard(changed, first, other)
    assert back.center_of_mass_mm == pytest.approx(shell.center_of_mass_mm)
    assert changed.center_of_mass_mm[0] > shell.center_of_mass_mm[0]
    assert with_guard(shell, other, None) is shell


def test_a_heavier_guard_brings_the_front_edge_down():
    heavy = replace(TRIAL.shell, mass_kg=2.6, center_of_mass_mm=(40.0, 45.0))
    light, laden = (rested_with(TRIAL, BUILD, shell, 60) for shell in (TRIAL.shell, heavy))
    assert (laden.rest.brow_mm - light.rest.brow_mm).mean() < -0.3


def test_a_guard_turns_the_head_more_the_further_back_the_axis_lies():
    for each in outlook().guards:
        assert each.load is not None
        assert each.load.head_nm.mean < each.load.tragion_nm.mean < each.load.neck_nm.mean
        assert each.load.neck_nm.mean < each.load.helmet_neck_nm.mean


def test_changing_the_guard_changes_mass_and_moment_by_what_the_two_weigh():
    first, second, _ = (each.load for each in outlook().guards)
    assert first is not None
    assert second is not None
    assert (first.change_kg, first.change_nm) == (0.0, 0.0)
    assert second.change_kg == pytest.approx(0.18)
    assert second.change_nm == pytest.approx(
        second.helmet_neck_nm.mean - first.helmet_neck_nm.mean, abs=0.02
    )


def test_a_guard_without_a_mass_on_the_sheet_has_no_moment():
    assert outlook(sheet_with(replace(OPEN, mass_kg=None))).guards[0].load is None


def test_a_wider_cup_leaves_less_of_each_strap():
    soft, hard = outlook().straps
    less = ((HARD.cup_mm or 0.0) - (SOFT.cup_mm or 0.0)) / 2.0
    assert less > 0.0
    for one, other in zip(soft.points, hard.points, strict=True):
        assert one.start_mm.mean - other.start_mm.mean == pytest.approx(less)


def test_a_start_length_reaches_a_buckle_or_not():
    strap = replace(SOFT, snaps=tuple(replace(snap, longest_mm=110.0) for snap in SOFT.snaps))
    (found,) = outlook(replace(OUZEL, chin_straps=(strap,))).straps
    assert all(point.in_reach < 0.1 for point in found.points)


def test_sizes_share_the_chins_among_them_and_a_longer_chin_arc_takes_a_larger_cup(worn):
    faces = draw_faces(HEADS, np.random.default_rng(1))
    front = worn.front_edge()[:, 0] + 50.0
    here = strap_outlook(worn, faces, SOFT, front)
    larger = replace(faces, chin_arc_mm=faces.chin_arc_mm + 25.0)
    there = strap_outlook(worn, larger, SOFT, front)
    assert sum(chance for _, chance in here.sizes) == pytest.approx(1.0)
    assert there.size == "large"
    assert dict(there.sizes)["small"] <= dict(here.sizes)["small"]
    assert all(
        after.start_mm.mean > before.start_mm.mean
        for before, after in zip(here.points, there.points, strict=True)
    )


def test_a_strap_without_snaps_still_has_its_sizes():
    (found, _) = outlook(replace(OUZEL, chin_straps=(replace(SOFT, snaps=()), HARD))).straps
    assert found.points == ()
    assert found.off_forward is None
    assert found.size is not None


def test_a_stronger_pull_of_the_strap_holds_more_and_takes_no_more():
    here, there = (
        outlook(replace(OUZEL, strap_pull_n=pull)).straps[0] for pull in ((8.0, 11.0), (16.0, 22.0))
    )
    assert here.off_forward is not None
    assert there.off_forward is not None
    assert there.pull_n.mean == pytest.approx(2.0 * here.pull_n.mean, rel=0.1)
    assert there.off_forward.pull_n.mean > here.off_forward.pull_n.mean
    assert there.off_forward.strap_n.mean == pytest.approx(here.off_forward.strap_n.mean, rel=0.03)


def test_shares_of_the_hold_make_one():
    for strap in outlook().straps:
        assert sum(point.hold_share for point in strap.points) == pytest.approx(1.0)


def test_the_way_along_the_face_is_never_shorter_than_a_straight_one():
    chin = np.array([[90.0, -87.0]])
    assert face_fullness(np.array([200.0]), chin, np.array([72.0]))[0] == 1.0
    assert 1.1 < face_fullness(np.array([332.0]), chin, np.array([72.0]))[0] < 1.2


def test_a_start_length_is_never_below_nothing():
    chin, snaps = np.zeros((1, 3)), np.array([[[20.0, 0.0, 0.0]]])
    assert start_lengths_mm(chin, snaps, np.ones(1), 45.0)[0, 0] == 0.0


def test_a_snap_on_the_axis_makes_no_moment():
    snaps = np.array([[[10.0, 0.0, 20.0]]])
    ways = unit_ways(snaps, np.array([[90.0, 30.0, -80.0]]))
    assert np.linalg.norm(ways, axis=-1) == pytest.approx(np.ones((1, 1)))
    assert moment_arms_mm(snaps[..., [0, 2]], ways, np.array([[10.0, 20.0]]))[0, 0] == 0.0


def test_snaps_from_which_a_strap_cannot_hold_are_told_as_such():
    forward = tuple(replace(snap, ahead_mm=125.0, above_mm=125.0) for snap in SOFT.snaps)
    (found,) = outlook(replace(OUZEL, chin_straps=(replace(SOFT, snaps=forward),))).straps
    assert found.off_forward is None
    assert all(np.isfinite(point.hold_share) for point in found.points)


@pytest.mark.parametrize("bare", [(Zone.FRONT,), (Zone.NAPE,), (Zone.NAPE, Zone.REAR)])
def test_a_helmet_without_pads_in_front_or_behind_still_rolls_about_something(bare):
    pads = tuple(replace(pad, seats=()) if pad.zone in bare else pad for pad in OUZEL.pads)
    sheet = replace(OUZEL, pads=pads)
    seats = np.array([pad.zone not in bare for pad in OUZEL.pads for _ in pad.seats])
    unknowns = replace(UNKNOWN, contact_mm=UNKNOWN.contact_mm[:, seats])
    worn = Worn(trial_of(HEADS, sheet=sheet, unknowns=unknowns), BUILD, TRIAL.rest(BUILD))
    front, rear = front_pivot(worn), rear_pivot(worn)
    assert front[:, 0].mean() > 90.0
    assert rear[:, 0].mean() < -70.0
