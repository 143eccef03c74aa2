"""Faces hang from heads, and what is not known of them has a spread."""

import numpy as np
import pytest

from helmwright.anatomy import HeadDraws, Sex, adult_prior
from helmwright.anatomy.face import draw_faces, face_growth
from helmwright.anatomy.measures import MEASURE_KEYS

HEADS = HeadDraws(adult_prior(Sex.MALE).draw(4000, np.random.default_rng(3)))


def faces(heads=HEADS, *, seed=5, **whose):
    return draw_faces(heads, np.random.default_rng(seed), **whose)


def shifted(measure: str, by_mm: float) -> HeadDraws:
    values = np.array(HEADS.values)
    values[:, MEASURE_KEYS.index(measure)] += by_mm
    return HeadDraws(values)


def test_a_face_runs_down_from_brow_to_eye_to_nose_to_chin():
    face = faces()
    brow = HEADS.of("tragion_to_top") - HEADS.of("brow_to_top")
    heights = [brow, face.eye_mm[:, 1], face.nose_tip_mm[:, 1], face.chin_mm[:, 1]]
    assert np.all(np.diff([each.mean() for each in heights]) < -15.0)
    assert np.mean(np.diff(heights, axis=0) < 0.0) > 0.999


def test_a_nose_stands_ahead_of_bridge_eye_and_chin():
    face = faces()
    ahead = face.nose_tip_mm[:, 0]
    for other in (face.bridge_mm, face.eye_mm, face.chin_mm):
        assert np.mean(ahead > other[:, 0]) > 0.99


def test_a_longer_head_brings_the_face_forward_by_half_of_it():
    here, there = faces(), faces(shifted("head_length", 8.0))
    for part in ("eye_mm", "nose_tip_mm", "chin_mm"):
        moved = getattr(there, part) - getattr(here, part)
        assert moved == pytest.approx(np.tile([4.0, 0.0], (len(here), 1)))


def test_a_brow_nearer_the_top_lifts_the_face_with_it():
    here, there = faces(), faces(shifted("brow_to_top", -6.0))
    assert there.eye_mm[:, 1] - here.eye_mm[:, 1] == pytest.approx(np.full(len(here), 6.0))


def test_women_have_shorter_faces_and_a_mixture_lies_between():
    men, women = faces(labels=("male",)), faces(labels=("female",))
    both = faces(labels=("male", "female"), weights=np.array([0.5, 0.5]))
    assert women.length_mm.mean() < both.length_mm.mean() < men.length_mm.mean()
    assert both.length_mm.std() > men.length_mm.std()


def test_a_child_has_a_shorter_face_on_the_same_head():
    child, grown = faces(labels=("male at 9.5",)), faces(labels=("male at 25.0",))
    assert child.length_mm == pytest.approx(grown.length_mm * face_growth(9.5))
    assert child.nose_tip_mm[:, 0].mean() < grown.nose_tip_mm[:, 0].mean()
    assert faces().length_mm == pytest.approx(grown.length_mm)


def test_faces_grow_from_8_to_18_and_no_further():
    ages = np.arange(8.0, 18.5, 0.5)
    growth = [face_growth(age) for age in ages]
    assert np.all(np.diff(growth) > 0)
    assert growth[0] == pytest.approx(0.85)
    assert face_growth(18.0) == face_growth(40.0) == face_growth(None) == 1.0
