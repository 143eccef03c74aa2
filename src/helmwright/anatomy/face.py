"""Where eye, nose tip and chin lie: the face in the head frame, with what is not known of it."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.estimate import HeadDraws
from helmwright.anatomy.part import age_of, sex_of
from helmwright.anatomy.sex import Sex
from helmwright.sources import Figure
from helmwright.sources.records import (
    ASSUMED,
    BROW_ABOVE_LIMBUS,
    EYE_PROTRUSION_1986,
    NIOSH_2003_FACE,
    US_ARMY_2012,
)

Floats = npt.NDArray[np.float64]

FACE_LENGTH_MEN = (
    Figure(
        45.09, "mm", US_ARMY_2012, spread=6.31, note="men's chin to bridge, at no circumference"
    ),
    Figure(0.1350, "1", US_ARMY_2012, note="and how it grows with head circumference"),
)
FACE_LENGTH_WOMEN = (
    Figure(47.2, "mm", US_ARMY_2012, spread=5.73, note="women's chin to bridge, likewise"),
    Figure(
        0.1201,
        "1",
        US_ARMY_2012,
        note=(
            "And how it grows with head circumference: the records' covariance of 35.5 mm2, the "
            "hair in women's circumferences taken off."
        ),
    ),
)
GROWN_FACE = Figure(
    0.85,
    "1",
    ASSUMED,
    note="length of a face at 8 years over a grown face's on a head of that circumference",
)
BRIDGE_BELOW_BROW = Figure(
    10.0, "mm", ASSUMED, spread=3.0, note="bridge of the nose below the eyebrow's upper edge"
)
BRIDGE_BEHIND_FOREHEAD = Figure(
    3.0, "mm", ASSUMED, spread=4.0, note="bridge of the nose behind the foremost of the forehead"
)
LIMBUS_TO_BROW = Figure(
    19.5, "mm", BROW_ABOVE_LIMBUS, note="lower edge of the cornea up to the lowest brow hairs"
)
CORNEA_HEIGHT = Figure(11.0, "mm", ASSUMED, note="height of the cornea; its middle is the pupil")
BROW_THICKNESS = Figure(
    6.0, "mm", ASSUMED, spread=3.5, note="eyebrow's lowest hairs to its upper edge above the pupil"
)
EYE_BEHIND_BRIDGE = Figure(
    12.0,
    "mm",
    ASSUMED,
    spread=3.0,
    note=(
        "Pupil as seen from outside, behind the bridge of the nose; some 3 behind the cornea. "
        f"Corneas stand 16 ahead of the outer rim of the orbit ({EYE_PROTRUSION_1986.key})."
    ),
)
PUPILS_APART = Figure(
    65.0, "mm", EYE_PROTRUSION_1986, spread=3.5, note="men 65.9, women 62.9; spread assumed"
)
NOSE_SHARE = Figure(
    0.424,
    "1",
    NIOSH_2003_FACE,
    spread=0.025,
    note="base of the nose below its bridge, over the length of the face: 52 of 122.6 mm",
)
TIP_SHARE = Figure(
    0.83, "1", ASSUMED, spread=0.04, note="tip of the nose below its bridge, over the nose's length"
)
TIP_AHEAD = Figure(
    0.196, "1", ASSUMED, spread=0.03, note="tip of the nose ahead of its bridge, over face length"
)
CHIN_BEHIND_BRIDGE = Figure(
    8.0, "mm", ASSUMED, spread=5.0, note="foremost of the chin behind the bridge of the nose"
)
CHIN_HEIGHT = Figure(
    0.13, "1", ASSUMED, spread=0.02, note="foremost of the chin above its lowest, over face length"
)


@dataclass(frozen=True, eq=False)
class Faces:
    """The faces of n heads, in the middle plane of the head frame.

    Parameters
    ----------
    eye_mm, nose_tip_mm, chin_mm
        Ahead of and above the tragions, shape (n, 2) [mm]: the pupils, the tip of the nose, the
        foremost of the chin.
    length_mm
        Bridge of the nose to the lowest of the chin, shape (n,) [mm].
    bridge_mm
        Bridge of the nose, ahead of and above the tragions, shape (n, 2) [mm].
    chin_arc_mm
        From one ear notch around the chin to the other, shape (n,) [mm].
    half_breadth_mm
        Half the breadth of the face at the ears, shape (n,) [mm].
    """

    eye_mm: Floats
    nose_tip_mm: Floats
    chin_mm: Floats
    length_mm: Floats
    bridge_mm: Floats
    chin_arc_mm: Floats
    half_breadth_mm: Floats

    def __len__(self) -> int:
        return int(self.chin_arc_mm.shape[0])


def draw_faces(
    heads: HeadDraws,
    rng: np.random.Generator,
    *,
    labels: Sequence[str] = ("male",),
    weights: Floats | None = None,
) -> Faces:
    """Faces that may go with heads.

    Parameters
    ----------
    heads
        Heads drawn from an estimate.
    rng
        The random generator.
    labels, weights
        Whose heads they may be, by the labels of the belief (`helmwright.anatomy.part`), and the
        chance of each, all alike where None [1]. Under 18 years a face is shorter than its head
        says; without an age it is grown.

    Notes
    -----
    Length of the face from head circumference by regression on a survey's records; heights hang
    from the eyebrow, depths from half the head length, because tape and caliper tell those. What
    is assumed has a spread, independent of all else; so has whose head it may be, which a draw of
    a head does not tell. The breadth between the ear notches is taken
    to be that of the cheekbones.
    """
    count = len(heads)
    whose = rng.choice(len(labels), count, p=weights)
    male = np.array([sex_of(label) is Sex.MALE for label in labels])[whose]
    grown = np.array([face_growth(age_of(label)) for label in labels])[whose]
    length = _face_length(heads, male, rng) * grown
    brow = heads.of("tragion_to_top") - heads.of("brow_to_top")
    bridge = np.column_stack(
        [
            heads.of("head_length") / 2.0 - _drawn(BRIDGE_BEHIND_FOREHEAD, count, rng),
            brow - _drawn(BRIDGE_BELOW_BROW, count, rng),
        ]
    )
    below_brow = LIMBUS_TO_BROW.value - CORNEA_HEIGHT.value / 2.0
    eye_height = brow - below_brow - _drawn(BROW_THICKNESS, count, rng)
    nose = length * _drawn(NOSE_SHARE, count, rng)
    return Faces(
        eye_mm=np.column_stack([bridge[:, 0] - _drawn(EYE_BEHIND_BRIDGE, count, rng), eye_height]),
        nose_tip_mm=bridge
        + np.column_stack(
            [length * _drawn(TIP_AHEAD, count, rng), -nose * _drawn(TIP_SHARE, count, rng)]
        ),
        chin_mm=bridge
        - np.column_stack(
            [
                _drawn(CHIN_BEHIND_BRIDGE, count, rng),
                length * (1.0 - _drawn(CHIN_HEIGHT, count, rng)),
            ]
        ),
        length_mm=length,
        bridge_mm=bridge,
        chin_arc_mm=heads.of("bitragion_chin_arc"),
        half_breadth_mm=heads.of("bizygomatic_breadth") / 2.0,
    )


def face_growth(age_years: float | None) -> float:
    """Length of a face over its length when grown [1]; straight from 8 to 18 years (assumed)."""
    if age_years is None:
        return 1.0
    grown = min(max((age_years - 8.0) / 10.0, 0.0), 1.0)
    return GROWN_FACE.value + (1.0 - GROWN_FACE.value) * grown


def _face_length(heads: HeadDraws, male: npt.NDArray[np.bool_], rng: np.random.Generator) -> Floats:
    around = heads.of("head_circumference")
    lengths = [
        start.value + slope.value * around + rng.standard_normal(len(heads)) * (start.spread or 0.0)
        for start, slope in (FACE_LENGTH_MEN, FACE_LENGTH_WOMEN)
    ]
    return np.where(male, lengths[0], lengths[1])


def _drawn(figure: Figure, count: int, rng: np.random.Generator) -> Floats:
    return figure.value + rng.standard_normal(count) * (figure.spread or 0.0)
