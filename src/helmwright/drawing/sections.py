"""The three sections of a helmet on a head: from the side, from above, and at the jaw pads."""

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt

from helmwright.catalogue.zone import Zone
from helmwright.drawing.fill import DOT_MM, dots, hatches
from helmwright.drawing.outline import (
    SHELL_THICKNESS,
    Fill,
    PadCut,
    cut_off,
    head_cut,
    inward_of,
    pad_cut,
    shell_cut,
)
from helmwright.drawing.parts import Ink, Label, Line, Section, Size
from helmwright.drawing.plane import Plane, jaw_plane, level_plane, side_plane
from helmwright.fit.middle import MiddleRest
from helmwright.fit.outlook import BuildOutlook, ZoneOutlook

Floats = npt.NDArray[np.float64]

NUMBERS: Mapping[Zone, int] = {
    Zone.FRONT: 1,
    Zone.CROWN: 2,
    Zone.REAR: 3,
    Zone.NAPE: 4,
    Zone.LEFT: 5,
    Zone.RIGHT: 6,
    Zone.JAW_LEFT: 7,
    Zone.JAW_RIGHT: 8,
}
"""The numbers that the zones carry in drawings and in the lists beside them."""

SIDE = (Zone.FRONT, Zone.CROWN, Zone.REAR, Zone.NAPE)
LEVEL = (Zone.FRONT, Zone.LEFT, Zone.REAR, Zone.RIGHT)
JAW = (Zone.JAW_RIGHT, Zone.RIGHT, Zone.CROWN, Zone.LEFT, Zone.JAW_LEFT)

HATCH_MM, WORN_MM = 3.6, 1.8
LEAST_WORN_MM = 0.5
"""What is worn is drawn where it is thicker than this under the pad [mm]."""

COMB_MM = 3.4
"""Distance of the strokes of the pressure comb [mm]."""

COMB_MM_PER_KPA = 2.6
"""Length of a stroke of the comb [mm per kPa]."""

MOST_KPA = 14.0
"""Pressure past which the comb grows no longer [kPa]: harder is out of every band anyhow."""

LEAST_CLEAR_MM = 0.8
"""A pad that stands clear by less is drawn as touching, without a measure of the gap [mm]."""

INSIDE_MM, LETTER_MM = 14.0, 1.2
"""How far past comb or arrows a thickness is written, and more for each letter sideways [mm]."""

CLEAR_OF_ORIGIN_MM = 20.0
"""A thickness that would stand nearer to the head frame's origin is written below it [mm]."""

LEAST_PAST_MM = 9.0
"""Length of a gap's arrow [mm]."""

SIDE_RAISED_MM = 15.0
"""How much higher numbers stand in the side section, clear of the trace of A-A [mm]."""

CHIN_MM = -84.0
"""Where the drawn head ends below the ear openings [mm]; the model knows nothing of a neck."""

HEAD_POINTS, SHELL_POINTS = 109, 91
"""Points around a head and along a shell: chords are off by less than 0.1 mm."""

RIM_BELOW_PADS = 0.07
"""How far past the lowest pad a shell is drawn, as an angle at its middle [rad]."""


def sections(
    rest: MiddleRest, outlook: BuildOutlook, inches: Mapping[Zone, str]
) -> tuple[Section, Section, Section]:
    """The three sections, to scale, in millimeters of the thing itself.

    Parameters
    ----------
    rest
        The middle head at rest in the build.
    outlook
        What is expected of that build; the combs show its mean pressures.
    inches
        Thickness of each zone's pad as it is to be written.

    Notes
    -----
    The geometry is that of one head, the middle one, and of the pads pressed by it. The comb's
    strokes stand where the pad touches that head, and are as long as the zone's mean pressure over
    all possible heads says, up to 14 kPa: the number that stands in every list.
    """
    told = {place.zone: place for place in outlook.zones}
    return (
        _side(rest, told, inches),
        _level(rest, told, inches),
        _jaw(rest, told, inches),
    )


def _side(
    rest: MiddleRest, told: Mapping[Zone, ZoneOutlook], inches: Mapping[Zone, str]
) -> Section:
    plane = side_plane(rest)
    edge = float(plane.angles(rest.front_edge[None, :])[0])
    pads = [cut_off(pad, plane, edge) if pad.zone is Zone.FRONT else pad for pad in
            _pads(rest, plane, SIDE)]  # fmt: skip
    last = max((_angles(plane, pad)[1] for pad in pads), default=np.pi)
    shell = _shell(rest, plane, edge, max(last, np.pi) + RIM_BELOW_PADS)
    head = head_cut(rest, plane, np.linspace(-0.5 * np.pi, 1.5 * np.pi, HEAD_POINTS))
    a_a = _trace(level_plane(rest), shell)
    lines = [
        *_behind(rest, shell),
        *_pad_lines(pads, told),
        *(Line(Ink.HEAD, part) for part in _above(head, CHIN_MM)),
        *_face(rest, head),
        *(Line(Ink.PLANE, end) for end in a_a),
        *_origin(),
    ]
    marks = [Label("A", _pair(end[1] - [0.0, 8.0]), Size.WORD) for end in a_a]
    return Section(
        name="side",
        caption="from the right side, through the middle",
        told=_told("Section through the middle, face to the right", rest, pads, inches),
        shell=shell,
        lines=tuple(lines),
        labels=(*_labels(pads, told, inches, raised=SIDE_RAISED_MM), *marks),
    )


def _level(
    rest: MiddleRest, told: Mapping[Zone, ZoneOutlook], inches: Mapping[Zone, str]
) -> Section:
    plane = level_plane(rest)
    pads = _pads(rest, plane, LEVEL)
    shell = _shell(rest, plane, 0.0, 2.0 * np.pi)
    head = head_cut(rest, plane, np.linspace(0.0, 2.0 * np.pi, HEAD_POINTS))
    lines = [
        *_pad_lines(pads, told),
        Line(Ink.HEAD, head[:-1], closed=True),
        *_origin(),
    ]
    return Section(
        name="level",
        caption="A\u2013A from above, face to the top",
        told=_told("Level section from above, nose up, left at the left", rest, pads, inches),
        shell=shell,
        lines=tuple(lines),
        labels=_labels(pads, told, inches),
    )


def _jaw(rest: MiddleRest, told: Mapping[Zone, ZoneOutlook], inches: Mapping[Zone, str]) -> Section:
    plane = jaw_plane(rest)
    pads = _pads(rest, plane, JAW)
    spans = [_angles(plane, pad) for pad in pads]
    low = min((span[0] for span in spans), default=-0.3) - RIM_BELOW_PADS
    high = max((span[1] for span in spans), default=np.pi + 0.3) + RIM_BELOW_PADS
    shell = _shell(rest, plane, low, high)
    head = head_cut(rest, plane, np.linspace(-0.5 * np.pi, 1.5 * np.pi, HEAD_POINTS))
    lines = [
        *_pad_lines(pads, told),
        *(Line(Ink.HEAD, part) for part in _above(head, CHIN_MM)),
        *_origin(),
    ]
    shown = [pad for pad in pads if pad.zone in (Zone.JAW_LEFT, Zone.JAW_RIGHT)]
    return Section(
        name="jaw",
        caption="at the jaw pads, from behind",
        told=_told("Upright section at the jaw pads, seen from behind", rest, shown, inches),
        shell=shell,
        lines=tuple(lines),
        labels=_labels(shown, told, inches),
    )


def _pads(rest: MiddleRest, plane: Plane, zones: Sequence[Zone]) -> list[PadCut]:
    return [pad_cut(rest, plane, zone) for zone in zones if rest.sheet.pad(zone).seats]


def _angles(plane: Plane, pad: PadCut) -> tuple[float, float]:
    """Both ends of a pad as angles at the plane's origin, from straight down around [rad]."""
    ends = pad.back[[0, -1]] - plane.flat(plane.origin[None, :])
    low, high = np.mod(np.arctan2(ends[:, 1], ends[:, 0]) + 0.5 * np.pi, 2.0 * np.pi)
    return float(low - 0.5 * np.pi), float(high - 0.5 * np.pi)


def _shell(rest: MiddleRest, plane: Plane, low: float, high: float) -> Floats:
    """The cut shell as one outline: along the inside, and back along the outside."""
    inside = shell_cut(rest, plane, np.linspace(low, high, SHELL_POINTS))
    outside = inside - SHELL_THICKNESS.value * inward_of(inside)
    return np.concatenate([inside, outside[::-1]])


def _above(curve: Floats, height: float) -> list[Floats]:
    """The parts of a curve above a height."""
    return _runs(curve, curve[:, 1] >= height)


def _pad_lines(pads: Sequence[PadCut], told: Mapping[Zone, ZoneOutlook]) -> list[Line]:
    return [line for pad in pads for line in _pad(pad, told[pad.zone].pressure_kpa.median)]


def _pad(pad: PadCut, pressure_kpa: float) -> list[Line]:
    """One pad: its two layers, itself before it was pressed, its pressure and its clearance."""
    face = pad.at(pad.face_mm)
    lines = [line for area in _areas(pad) for line in area]
    lines.append(Line(Ink.PAD, np.concatenate([pad.back, face[::-1]]), closed=True))
    if np.any(pad.touches):
        free = np.where(pad.touches[:, None], pad.at(pad.free_mm), face)
        lines += [Line(Ink.FREE, part) for part in _runs(free, pad.touches)]
        lines += _worn(pad)
        lines += _comb(pad, pressure_kpa)
    return lines + _clearance(pad)


def _areas(pad: PadCut) -> Iterable[list[Line]]:
    """Each layer filled, and the line where the next begins; air is left white."""
    before = np.zeros_like(pad.skin_mm)
    for fill, depth in pad.layers:
        outline = np.concatenate([pad.at(before), pad.at(depth)[::-1]])
        if fill is Fill.SOFT:
            points = dots(outline, DOT_MM)
            yield [Line(Ink.DOT, points)] if len(points) else []
        if fill is Fill.STIFF:
            yield [Line(Ink.HATCH, stroke) for stroke in hatches(outline, HATCH_MM)]
        if depth is not pad.face_mm:
            yield [Line(Ink.LAYER, pad.at(depth))]
        before = depth


def _worn(pad: PadCut) -> list[Line]:
    """What is worn between pad and head: strokes the other way."""
    under = pad.touches & (pad.skin_mm - pad.face_mm > LEAST_WORN_MM)
    found = []
    for face, skin in zip(
        _runs(pad.at(pad.face_mm), under), _runs(pad.at(pad.skin_mm), under), strict=True
    ):
        outline = np.concatenate([face, skin[::-1]])
        found += [Line(Ink.WORN, stroke) for stroke in hatches(outline, WORN_MM, 135.0)]
    return found


def _runs(curve: Floats, chosen: npt.NDArray[np.bool_]) -> list[Floats]:
    """The stretches of a curve where something holds."""
    kept = np.flatnonzero(chosen)
    breaks = np.flatnonzero(np.diff(kept) > 1) + 1
    return [curve[part] for part in np.split(kept, breaks) if len(part) > 1]


def _comb(pad: PadCut, pressure_kpa: float) -> list[Line]:
    """Strokes from the skin into the head, as long as the pressure is hard."""
    skin = pad.at(pad.skin_mm)
    along = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(skin, axis=0), axis=1))])
    at = np.arange(0.5 * COMB_MM, along[-1], COMB_MM)
    at = at[np.interp(at, along, pad.touches.astype(float)) > 0.5]
    roots, ways = (
        np.column_stack([np.interp(at, along, each[:, k]) for k in (0, 1)])
        for each in (skin, pad.inward)
    )
    length = comb_mm(pressure_kpa)
    pairs = zip(roots, ways, strict=True) if length > 0.0 else ()
    return [Line(Ink.PRESSURE, np.array([root, root + length * way])) for root, way in pairs]


def comb_mm(pressure_kpa: float) -> float:
    """Length of a stroke of the comb at a pressure [mm]."""
    return COMB_MM_PER_KPA * min(max(pressure_kpa, 0.0), MOST_KPA)


def _clearance(pad: PadCut) -> list[Line]:
    """Arrows on both sides of a gap, where the middle of the pad stands clear of the head."""
    middle = len(pad.back) // 2
    clear = float(pad.clear_mm[middle])
    if clear < LEAST_CLEAR_MM:
        return []
    way, face = pad.inward[middle], pad.at(pad.skin_mm - pad.clear_mm)[middle]
    across = np.array([-way[1], way[0]])
    lines = []
    for tip, turn in ((face, -1.0), (face + clear * way, 1.0)):
        barbs = [tip + 3.2 * turn * way + 1.4 * side * across for side in (-1.0, 1.0)]
        lines.append(Line(Ink.CLEARANCE, np.array([tip, barbs[0], barbs[1]]), closed=True))
        lines.append(Line(Ink.CLEARANCE, np.array([tip, tip + LEAST_PAST_MM * turn * way])))
    return lines


def _labels(
    pads: Sequence[PadCut],
    told: Mapping[Zone, ZoneOutlook],
    inches: Mapping[Zone, str],
    *,
    raised: float = 0.0,
) -> tuple[Label, ...]:
    """The zone's number outside the shell, and its pad's thickness inside the head.

    Numbers of the pads that A-A cuts are raised clear of its trace.
    """
    found = []
    for pad in pads:
        middle = len(pad.back) // 2
        back, way = pad.back[middle], pad.inward[middle]
        up = np.array([0.0, raised if pad.zone in LEVEL else 0.0])
        outside = back - (SHELL_THICKNESS.value + 13.0) * way + up
        skin = pad.skin_mm[middle]
        comb = comb_mm(told[pad.zone].pressure_kpa.median)
        past = max(comb, LEAST_PAST_MM, pad.free_mm - skin)
        wide = LETTER_MM * len(inches[pad.zone]) * abs(way[0])
        inside = back + (skin + past + INSIDE_MM + wide) * way
        if np.hypot(*inside) < CLEAR_OF_ORIGIN_MM:
            inside -= np.array([0.0, CLEAR_OF_ORIGIN_MM])
        found += [
            Label(str(NUMBERS[pad.zone]), _pair(outside), Size.ZONE, pad.zone),
            Label(inches[pad.zone], _pair(inside), Size.THICKNESS, pad.zone),
        ]
    return tuple(found)


def _pair(point: Floats) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _trace(level: Plane, shell: Floats) -> list[Floats]:
    """The plane A-A as the middle plane shows it: a stroke on each side of the shell."""
    rear, front = shell[:, 0].min(), shell[:, 0].max()
    found = []
    for start, end in ((rear - 4.0, rear - 24.0), (front + 4.0, front + 24.0)):
        away = (np.array([start, end]) - level.origin[0]) / level.up[0]
        ends = level.origin + away[:, None] * level.up
        found.append(np.asarray(ends[:, [0, 2]]))
    return found


def _origin() -> list[Line]:
    """The head frame's origin, midway between the ear openings: a crossed circle."""
    turn = np.linspace(0.0, 2.0 * np.pi, 25)[:-1]
    ring = 4.0 * np.column_stack([np.cos(turn), np.sin(turn)])
    cross = ([[-7.0, 0.0], [7.0, 0.0]], [[0.0, -7.0], [0.0, 7.0]])
    return [
        Line(Ink.ORIGIN, ring, closed=True),
        *(Line(Ink.ORIGIN, np.array(stroke)) for stroke in cross),
    ]


def _face(rest: MiddleRest, head: Floats) -> list[Line]:
    """The eyebrow, and a plain nose that only shows which way the face looks."""
    brow = float(rest.head.brow_mm[0])
    front = head[head[:, 0] > 0.0]

    def skin(height: float) -> Floats:
        return np.asarray(front[np.argmin(np.abs(front[:, 1] - height))])

    at = skin(brow)
    mark = _rounded(at + np.array([[-17.0, -1.0], [-9.0, 5.0], [1.0, 0.0]]))
    bridge, base = skin(brow - 22.0), skin(brow - 62.0)
    tip = bridge + np.array([[0.0, 0.0], [15.0, -32.0], [13.0, -38.0]])
    nose = np.concatenate([tip, base[None, :]])
    return [Line(Ink.BROW, mark), Line(Ink.BEHIND, nose)]


def _behind(rest: MiddleRest, shell: Floats) -> list[Line]:
    """The shell's lower edge behind the cut: drawn by the contacts, for no sheet describes it."""
    half = len(shell) // 2
    front, rear = shell[0], shell[half - 1]
    jaws = np.concatenate([rest.contacts(zone) for zone in (Zone.JAW_LEFT, Zone.JAW_RIGHT)])
    if len(jaws) == 0:
        return [Line(Ink.BEHIND, np.array([front, rear]))]
    low = float(jaws[:, 2].min()) - 17.0
    ahead = float(jaws[:, 0].max()) + 14.0
    cheek = np.array(
        [[ahead + 8.0, 4.0], [ahead + 4.0, low + 22.0], [ahead - 8.0, low], [ahead - 44.0, low]]
    )
    start = front + np.array([[0.0, 0.0], [-6.0, -16.0]])
    end = rear + np.array([[34.0, -5.0], [0.0, 0.0]])
    return [Line(Ink.BEHIND, _rounded(np.concatenate([start, cheek, end])))]


def _rounded(knots: Floats, times: int = 3) -> Floats:
    """A polyline with its corners cut, ends kept."""
    for _ in range(times):
        cut = [knots[:1]]
        for start, end in pairwise(knots):
            cut.append(np.array([0.75 * start + 0.25 * end, 0.25 * start + 0.75 * end]))
        knots = np.concatenate([*cut, knots[-1:]])
    return knots


def _told(what: str, rest: MiddleRest, pads: Sequence[PadCut], inches: Mapping[Zone, str]) -> str:
    """What a section shows, in words."""
    parts = [
        f"{NUMBERS[pad.zone]} {pad.zone} pad {inches[pad.zone]} in{_state(pad)}" for pad in pads
    ]
    return f"{what}: shell {rest.build.shell} on the middle head; {'; '.join(parts)}."


def _state(pad: PadCut) -> str:
    """Whether the pad touches the middle head."""
    if np.all(pad.touches):
        return ", touching"
    return ", touching in part" if np.any(pad.touches) else ", clear of the head"
