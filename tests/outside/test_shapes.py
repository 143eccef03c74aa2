"""Curves and head surfaces against closed forms, quadrature, a survey and a scanned surface."""

import numpy as np
import pytest
from scipy.integrate import quad

from helmwright.anatomy import HeadDraws, Sex, adult_prior
from helmwright.anatomy.measures import MEASURE_KEYS
from helmwright.anatomy.surface import HeadShapes, head_shapes
from helmwright.geometry import ellipse_perimeter, hull_perimeter, superellipse_perimeter

AXES = [(100.0, 77.0), (99.75, 77.15), (94.9, 73.9), (105.8, 84.4), (120.0, 60.0), (90.0, 90.0)]
"""Half length and half breadth of heads, and of two sections that are none [mm]."""


@pytest.mark.outside("dlmf_elliptic_integrals", "scipy_stats")
@pytest.mark.parametrize(("a", "b"), AXES)
def test_the_ellipses_perimeter_is_the_complete_elliptic_integral(a, b):
    around, _ = quad(
        lambda t: np.sqrt((a * np.sin(t)) ** 2 + (b * np.cos(t)) ** 2), 0.0, np.pi / 2, epsabs=1e-11
    )
    assert ellipse_perimeter(a, b) == pytest.approx(4.0 * around, rel=1e-10)


@pytest.mark.outside("ramanujan_1914")
@pytest.mark.parametrize(("a", "b"), AXES)
def test_ramanujans_second_formula_agrees(a, b):
    h = ((a - b) / (a + b)) ** 2
    around = np.pi * (a + b) * (1.0 + 3.0 * h / (10.0 + np.sqrt(4.0 - 3.0 * h)))
    # Its error begins with 3 h^5 / 2^17 of the perimeter: nothing for heads.
    assert ellipse_perimeter(a, b) == pytest.approx(around, rel=6.0 * h**5 / 2**17 + 1e-12)


@pytest.mark.outside("scipy_stats")
@pytest.mark.parametrize("exponent", [1.6, 2.0, 2.34, 3.0, 5.0, 8.0])
@pytest.mark.parametrize(("a", "b"), AXES[:4])
def test_the_superellipses_perimeter_is_the_integral_of_its_arc(a, b, exponent):
    assert superellipse_perimeter(a, b, exponent) == pytest.approx(
        arc_length(a, b, exponent), rel=2e-6
    )


def arc_length(a: float, b: float, n: float) -> float:
    """Four quarters, each split where the outline is as steep as the other axis is flat.

    Up to the diagonal y is a smooth function of x, beyond it x is one of y.
    """
    corner = 0.5 ** (1.0 / n)

    def part(long: float, short: float) -> float:
        def length(x: float) -> float:
            slope = -(short / long) * x ** (n - 1.0) * (1.0 - x**n) ** (1.0 / n - 1.0)
            return float(np.hypot(1.0, slope))

        return long * quad(length, 0.0, corner, epsabs=1e-11)[0]

    return 4.0 * (part(a, b) + part(b, a))


@pytest.mark.outside("us_army_2012")
def test_an_exponent_near_two_and_a_third_gives_the_mean_mans_circumference():
    # Mean length 199.5, breadth 154.3 and circumference 574.4 of 4082 men.
    assert superellipse_perimeter(99.75, 77.15, 2.34) == pytest.approx(574.4, abs=0.5)


def coronal_arc(shapes: HeadShapes, index: int) -> float:
    """A taut tape from ear opening over the crown to ear opening [mm]."""
    upright = np.linspace(0.0, np.pi, 721)
    rays = np.column_stack([np.zeros_like(upright), np.cos(upright), np.sin(upright)])
    points = [shapes.ovoids.ray(index, np.zeros(3), ray)[1:] for ray in rays[::4]]
    around = np.array(points)
    return hull_perimeter(around) - float(np.linalg.norm(around[0] - around[-1]))


# Mean and SD of the arc, and its correlation with the circumference.
CORONAL = {Sex.MALE: (350.74, 14.09, 0.499), Sex.FEMALE: (341.05, 15.59, 0.44)}


@pytest.mark.outside("niosh_2003")
@pytest.mark.parametrize("sex", list(Sex))
def test_the_arc_over_the_crown_is_the_surveys(sex):
    """The mean is a check in part only, the rise of the dome having been chosen by it for men.

    Its spread and its tie to the circumference were not: over 1500 heads ours are 12.1 mm and 0.48
    for men, 12.6 and 0.44 for women. Ours runs 3 mm short for men, 6 for women.
    """
    mean, spread, tie = CORONAL[sex]
    heads = HeadDraws(adult_prior(sex).draw(400, np.random.default_rng(1)))
    shapes = head_shapes(heads)
    arcs = np.array([coronal_arc(shapes, index) for index in range(len(heads))])
    assert arcs.mean() == pytest.approx(mean, abs=5.0 if sex is Sex.MALE else 8.0)
    assert arcs.std() == pytest.approx(spread, rel=0.25)
    # Fisher's z of 400 heads has SD 0.05.
    found = np.corrcoef(arcs, heads.of("head_circumference"))[0, 1]
    assert np.arctanh(found) == pytest.approx(np.arctanh(tie), abs=0.2)


@pytest.mark.outside("fsaverage_head")
def test_the_trades_tape_on_an_averaged_head_is_as_much_shorter_as_on_its_scanned_surface():
    """Length 211.6, breadth 168.8, tape 603.7 through glabella, 598.7 an inch above it.

    Heights were not given with those: they are a mean man's, scaled by the length.
    """
    measured = {"head_circumference": 603.7, "head_length": 211.6, "head_breadth": 168.8}
    scale = 211.6 / 199.5
    measured |= {"tragion_to_top": scale * 131.1, "brow_to_top": scale * 101.1}
    measured |= {"jaw_pad_width": scale * 131.7}
    values = np.array([[measured.get(key, 100.0) for key in MEASURE_KEYS]])
    shapes = head_shapes(HeadDraws(values))
    assert shapes.survey_tape(0) == pytest.approx(603.7, abs=0.1)
    assert shapes.trade_tape(0) == pytest.approx(598.7, abs=2.0)
