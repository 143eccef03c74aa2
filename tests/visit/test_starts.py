"""What is expected at a check is told beside it."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from helmwright.anatomy import Reading, estimate_head
from helmwright.catalogue import load_packaged
from helmwright.fit import Rater
from helmwright.fit.cloud import draw_cloud
from helmwright.fit.face_choice import FaceWish
from helmwright.fit.outlook import Build, Spread
from helmwright.units import MM_PER_INCH
from helmwright.visit.protocol import protocol_for
from helmwright.visit.starts import (
    BROW_ASSUMED,
    FACE_ASSUMED,
    FaceStart,
    expectations,
    face_start,
    strap_starts,
)

OUZEL = load_packaged("ouzel")
PROTOCOL = protocol_for(OUZEL)
BUILD = Build(3, OUZEL.delivered)
EIGHTH = MM_PER_INCH / 8.0


@cache
def cloud_of(tape_mm: float = 570.0, chin_arc_mm: float | None = None):
    readings = [Reading("tape_circumference", tape_mm)]
    if chin_arc_mm is not None:
        readings.append(Reading("bitragion_chin_arc", chin_arc_mm))
    estimate = estimate_head(readings)
    return draw_cloud(estimate, OUZEL, 200, np.random.default_rng(3), rater=Rater())


def started(cloud, build=BUILD, **wish) -> FaceStart:
    return face_start(cloud, build, rng=np.random.default_rng(5), wish=FaceWish(**wish))


@cache
def face() -> FaceStart:
    return started(cloud_of())


def guard():
    found = face().guard
    assert found is not None
    return found


def strap():
    found = face().strap
    assert found is not None
    return found


@cache
def expected():
    brow = Spread.of(cloud_of().rest(BUILD).brow_mm)
    return expectations(PROTOCOL, brow_mm=brow, face=face())


def test_brow_nose_sight_and_strap_have_something_to_expect_and_nothing_else_has():
    assert sorted(expected()) == ["brow", "brow strapped", "cup", "nose", "sight"]
    assert all(key == each.check for key, each in expected().items())


def test_where_nothing_is_known_nothing_is_expected():
    assert expectations(PROTOCOL) == {}
    only_brow = expectations(PROTOCOL, brow_mm=Spread(25.4, 20.0, 31.0, 25.4))
    assert sorted(only_brow) == ["brow", "brow strapped"]


def test_what_is_expected_of_the_brow_is_in_inches_and_says_what_it_leans_on():
    told = expectations(PROTOCOL, brow_mm=Spread(25.4, 19.05, 31.75, 28.575))["brow"]
    assert told.says == "Expect about 1 1/8 in (3/4 to 1 1/4, 9 of 10) from brow to edge."
    assert told.assumed == BROW_ASSUMED
    assert "assumed" in told.assumed


def test_all_that_leans_on_the_face_says_that_the_face_is_assumed():
    for key in ("nose", "sight", "cup"):
        assert expected()[key].assumed == FACE_ASSUMED
    assert "assumed" in FACE_ASSUMED


def test_the_strap_starts_at_the_middle_of_what_such_faces_need_to_the_eighth_of_an_inch():
    starts = strap_starts(strap())
    assert [start.place for start in starts] == ["high", "low"]
    for start, point in zip(starts, strap().points, strict=True):
        assert start.start_mm / EIGHTH == pytest.approx(round(start.start_mm / EIGHTH))
        assert abs(start.start_mm - point.start_mm.median) <= EIGHTH / 2 + 1e-9
        assert start.low_mm < start.start_mm < start.high_mm
    assert "Left and right alike" in expected()["cup"].says


def test_a_longer_way_around_the_chin_makes_longer_straps():
    starts = []
    for arc in (310.0, 350.0):
        found = started(cloud_of(570.0, arc))
        assert found.strap is not None
        starts.append([point.start_mm.median for point in found.strap.points])
    assert all(longer > shorter + 5.0 for shorter, longer in zip(*starts, strict=True))


def test_a_buckle_that_falls_short_is_told():
    first, *others = strap().points
    far = replace(strap(), points=(replace(first, in_reach=0.5), *others))
    told = expectations(PROTOCOL, face=FaceStart(None, far))["cup"].says
    assert "more or less than the buckle gives: high." in told


def test_a_strap_without_places_of_its_snaps_begins_with_all_points_alike():
    bare = replace(strap(), points=(), sizes=())
    told = expectations(PROTOCOL, face=FaceStart(None, bare))["cup"]
    assert told.strap == ()
    assert "begin with all points alike" in told.says


def test_a_bar_before_the_eyes_is_named():
    barred = replace(guard(), level_clear=0.4, level_bar=2)
    told = expectations(PROTOCOL, face=FaceStart(barred, None))["sight"].says
    assert "free on 40 of 100" in told
    assert "bar 2 from the top" in told


@pytest.mark.parametrize(("median", "warned"), [(40.0, True), (55.0, False), (75.0, True)])
def test_an_expected_distance_that_would_not_be_accepted_is_told_beforehand(median, warned):
    near = replace(guard(), nose_mm=Spread(median, median - 5.0, median + 5.0, median))
    told = expectations(PROTOCOL, face=FaceStart(near, None))["nose"].says
    assert ("have another guard at hand" in told) is warned


def test_the_expected_guard_is_one_that_the_player_may_wear():
    found = started(cloud_of(), glasses=True).guard
    assert found is not None
    assert found.guard.glasses


def bare_cloud(sheet):
    estimate = estimate_head([Reading("tape_circumference", 570.0)])
    return draw_cloud(estimate, sheet, 50, np.random.default_rng(3), rater=Rater())


def test_a_sheet_without_guards_and_straps_leads_to_no_expectation_of_a_face():
    siskin = load_packaged("siskin")
    assert (siskin.face_guards, siskin.chin_straps) == ((), ())
    build = Build(siskin.shells[0].number, siskin.delivered)
    found = started(bare_cloud(siskin), build)
    assert found == FaceStart(None, None)
    assert expectations(protocol_for(siskin), face=found) == {}


def test_a_sheet_with_straps_alone_still_has_its_starting_lengths():
    straps_alone = replace(OUZEL, face_guards=())
    found = started(bare_cloud(straps_alone))
    assert found.guard is None
    assert list(expectations(PROTOCOL, face=found)) == ["cup"]


def test_the_same_draws_lead_to_the_same_expectation():
    again = started(cloud_of()).guard
    assert again is not None
    assert again.nose_mm == guard().nose_mm
