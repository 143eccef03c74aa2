"""How a helmet rests on a head.

A rest is found in four phases, each with its own loads. In each, the pose q (three translations,
three small rotations, about the pose in which the shell is drawn) minimizes

    E(q) = sum_i A_i f_z P_z(s_i) + sum_i H(|d_i|; k_i, mu N_i) - F . u_F - S . u_S + R(q)

    u_i = t + w x p_i                    displacement of contact i
    s_i = T_z + e_z - g_i - n_i . u_i    its stroke: thickness, what the head adds, bare gap
    P_z' = p_z                           the pad's law (`helmwright.fit.law`)
    d_i = u_i - n_i (n_i . u_i) - a_i    its drag: tangential displacement from its anchor a_i
    H(r; k, c) = k r^2 / 2 up to r = c / k, then c r - c^2 / (2 k): a spring that slips at c
    F, S                                 weight and hands at their point, strap at its own
    R(q) = a whisper of stiffness (0.001 N/mm), so that a helmet that touches nothing has a pose

P is convex because p never falls, H is convex for a fixed cap, s and d are linear in q: each
phase is a convex problem. The caps are those of the phase's own normal forces N, found with it.

1. push    weight and 50 N from above; anchors lie the slide-in above: every contact is dragged
           the way it came
2. let go  the hands off; anchors moved so that each contact still holds its drag
3. strap   the strap's pull as well
4. shake   a part of the drag is let go; the rest is what the player feels

A gap is measured along the seat's direction and closes along the head's normal. The two lie 2 to 4
degrees apart on ordinary heads, under 10 for 95 of 100 contacts, which is at most 1.5 percent.

The kinematics are linear about the height that the crown pad and the head imply: over the rests
of ordinary heads right to 0.1 mm (root mean square), one contact in a hundred by more than 0.5;
after 6 mm and 5 degrees together right to 0.4. The long slide-in is not solved, only its drag.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.anatomy.surface import HeadShapes
from helmwright.catalogue.sheet import ModelSheet, Shell
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.kernels.batch import judge
from helmwright.fit.kernels.lanes import rest_on_heads_in_lanes
from helmwright.fit.outlook import Build
from helmwright.fit.seating import PadLaws, Seating, seat_shell
from helmwright.fit.unknowns import Unknowns
from helmwright.fit.verdict import Bands
from helmwright.geometry.kernels.rays import clearances
from helmwright.sources import Figure
from helmwright.sources.records import ASSUMED, EN_397

Floats = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Bits = npt.NDArray[np.bool_]

GRAVITY = 9.80665
PUSH = Figure(50.0, "N", EN_397, note="force that seats a helmet on a head")
SLIDE_IN = Figure(23.0, "mm", ASSUMED, note="how far a helmet slides down in contact")
SHAKEN = Figure(0.6, "1", ASSUMED, note="share of the drag that a shake lets go")
STRAP_POINT = Figure(25.0, "mm", ASSUMED, note="strap's pull: ahead of and below the ear openings")
CROWN_STROKE = Figure(4.0, "mm", ASSUMED, note="stroke of the crown at the height of linearization")
MOST_LIFT_MM = 18.0
START_MM = -4.0
"""Rests are sought from a little below the drawing: pads that press are smooth, touches kink."""

_CROWN = ZONES.index(Zone.CROWN)


@dataclass(frozen=True)
class Rest:
    """n heads at rest in one build.

    Parameters
    ----------
    stroke_mm, force_n
        Of each contact, shape (n, s); a negative stroke is a gap [mm], [N].
    pose
        Translations and rotations from the drawing, shape (n, 6) [mm], [rad].
    brow_mm
        Eyebrow to front edge, shape (n,) [mm].
    zone_stroke_mm, zone_pressure_kpa, zone_peak_kpa, zone_gap_mm
        Shape (n, 8).
    right
        Everything in its band at once, shape (n,).
    unsettled
        How many rests did not settle.
    """

    stroke_mm: Floats
    force_n: Floats
    pose: Floats
    brow_mm: Floats
    zone_stroke_mm: Floats
    zone_pressure_kpa: Floats
    zone_peak_kpa: Floats
    zone_gap_mm: Floats
    right: npt.NDArray[np.bool_]
    unsettled: int

    @property
    def tilt_deg(self) -> Floats:
        """Nose-down tilt, shape (n,) [deg]."""
        return np.degrees(self.pose[:, 4])


@dataclass
class _Bare:
    """Gaps and normals of the first `known` heads, and the lifts of all."""

    gaps: Floats
    normals: Floats
    lifts: Floats
    known: int = 0

    def chosen(self, which: Integers) -> "_Bare":
        """Some of the heads; all of them must be known."""
        return _Bare(self.gaps[which], self.normals[which], self.lifts[which], which.size)

    def taking(self, other: "_Bare", taken: Bits) -> "_Bare":
        """The other's where taken, as far as both are known."""
        return _Bare(
            np.where(taken[:, None], other.gaps, self.gaps),
            np.where(taken[:, None, None], other.normals, self.normals),
            np.where(taken, other.lifts, self.lifts),
            min(self.known, other.known),
        )

    def bumped(self, more_mm: Floats) -> "_Bare":
        """The same where the contacts stand out further, shape (n, s) [mm]."""
        gaps = self.gaps.copy()
        gaps[: self.known] -= more_mm[: self.known]
        return replace(self, gaps=gaps)


@dataclass(frozen=True)
class Trial:
    """One shell on n heads, ready for any build.

    Parameters
    ----------
    sheet, shell
        The model and one of its shells.
    laws
        Its pads' laws, with whatever is worn between pad and head.
    heads, unknowns
        n draws of both, row by row.
    bands
        What counts as right.
    """

    sheet: ModelSheet
    shell: Shell
    laws: PadLaws
    heads: HeadShapes
    unknowns: Unknowns
    bands: Bands

    def __len__(self) -> int:
        return len(self.heads)

    def under(self, *, unknowns: Unknowns | None = None, bands: Bands | None = None) -> "Trial":
        """The same heads with other unknowns or bands; the gaps that are known are not sought anew.

        Parameters
        ----------
        unknowns, bands
            What changes; as they are where None.
        """
        other = replace(self, unknowns=unknowns or self.unknowns, bands=bands or self.bands)
        known = {"seating": self.seating, "drawn": self.drawn, "bare": self.bare}
        if other.unknowns.contact_mm is not self.unknowns.contact_mm:
            more = other.unknowns.contact_mm - self.unknowns.contact_mm
            known["bare"] = {crown: bare.bumped(more) for crown, bare in self.bare.items()}
        return _knowing(other, known)

    def on(self, heads: HeadShapes, unknowns: Unknowns) -> "Trial":
        """The same shell and pads on other heads."""
        other = replace(self, heads=heads, unknowns=unknowns)
        return _knowing(other, {"seating": self.seating})

    def chosen(self, which: Integers) -> "Trial":
        """Some of the heads, or some of them several times, with what is known of their gaps."""
        other = replace(self, heads=self.heads.chosen(which), unknowns=self.unknowns.chosen(which))
        bare = {c: each.chosen(which) for c, each in self.bare.items() if each.known == len(self)}
        known: dict[str, object] = {"seating": self.seating, "bare": bare}
        if "drawn" in vars(self):
            known["drawn"] = (self.drawn[0][which], self.drawn[1][which])
        return _knowing(other, known)

    def taking(self, other: "Trial", taken: Bits) -> "Trial":
        """Another trial's heads and unknowns where taken, shape (n,), with what both know."""
        merged = replace(
            self,
            heads=self.heads.taking(other.heads, taken),
            unknowns=self.unknowns.taking(other.unknowns, taken),
        )
        both = self.bare.keys() & other.bare.keys()
        bare = {crown: self.bare[crown].taking(other.bare[crown], taken) for crown in both}
        known: dict[str, object] = {"seating": self.seating, "bare": bare}
        if "drawn" in vars(self) and "drawn" in vars(other):
            pairs = zip(self.drawn, other.drawn, strict=True)
            known["drawn"] = tuple(np.where(taken, theirs, mine) for mine, theirs in pairs)
        return _knowing(merged, known)

    @cached_property
    def seating(self) -> Seating:
        """Where the shell's pads bear."""
        return seat_shell(self.shell, self.sheet)

    @cached_property
    def drawn(self) -> tuple[Floats, Floats]:
        """Mean crown gap in the drawing's pose and how it grows with height, shape (n,)."""
        crown = self.seating.zones == _CROWN
        gaps, normals = self._clear(np.zeros(len(self)), crown, slice(None))
        return gaps.mean(axis=1), normals[..., 2].mean(axis=1)

    @cached_property
    def bare(self) -> dict[int, "_Bare"]:
        """By crown pad: gaps, normals and lifts, as far as they were asked for."""
        return {}

    def _bare_under(self, crown: int, heads: int) -> tuple[Floats, Floats, Floats]:
        """Gaps, normals and lifts under one crown pad, right for the first heads at least."""
        if crown not in self.bare:
            gap, growth = self.drawn
            stroke = CROWN_STROKE.value + self.laws.collapse_mm
            wanted = self.laws.thickness_mm[_CROWN, crown] - stroke
            lifts = np.clip((wanted - gap) / growth, -MOST_LIFT_MM, MOST_LIFT_MM)
            shape = (len(self), self.seating.zones.size)
            self.bare[crown] = _Bare(np.empty(shape), np.empty((*shape, 3)), lifts)
        bare = self.bare[crown]
        if bare.known < heads:
            part = slice(bare.known, heads)
            everywhere = np.ones_like(self.seating.zones, dtype=bool)
            gaps, bare.normals[part] = self._clear(bare.lifts, everywhere, part)
            bare.gaps[part] = gaps - self.unknowns.contact_mm[part]
            bare.known = heads
        return bare.gaps, bare.normals, bare.lifts

    def _clear(
        self, lifts: Floats, chosen: npt.NDArray[np.bool_], part: slice
    ) -> tuple[Floats, Floats]:
        points, inward = self.seating.points[chosen], self.seating.inward[chosen]
        heights = lifts[part, None]
        shape = (*heights.shape, points.shape[0])
        gaps, normals = np.empty(shape), np.empty((*shape, 3))
        clearances(self.heads.ovoids.rows[part], points, inward, heights, gaps, normals)
        return gaps[:, 0], normals[:, 0]

    def contacts(self, build: Build) -> tuple[Floats, Floats]:
        """Contacts on each head, and the head's outward normals there, shapes (n, s, 3)."""
        _, normals, lifts = self._bare_under(build.pads[_CROWN], len(self))
        raised = self.seating.points + lifts[:, None, None] * np.array([0.0, 0.0, 1.0])
        return raised, normals

    def lift_mm(self, build: Build) -> Floats:
        """Height at which each head's rest is linearized, shape (n,) [mm]."""
        return self._bare_under(build.pads[_CROWN], 0)[2]

    def part(self, build: Build, chosen: Integers, laws: PadLaws, unknowns: Unknowns) -> "Trial":
        """Some of the heads under other laws, for builds with one build's crown pad.

        Parameters
        ----------
        build
            Whose crown pad; what was found out about the gaps under it is taken over.
        chosen
            Which heads.
        laws, unknowns
            Of those heads.
        """
        some = replace(self, laws=laws, heads=self.heads.chosen(chosen), unknowns=unknowns)
        crown = build.pads[_CROWN]
        gaps, normals, lifts = (each[chosen] for each in self._bare_under(crown, len(self)))
        # Casting the rays again would cost more than the rests.
        vars(some)["seating"] = self.seating
        vars(some)["bare"] = {crown: _Bare(gaps, normals, lifts, len(some))}
        return some

    def pads(self, build: Build) -> tuple[Floats, Floats, Floats]:
        """Thickness, knots and weights of a build's pads, shapes (8,), (8, k), (8, k)."""
        zones, chosen = np.arange(len(ZONES)), np.array(build.pads)
        laws = self.laws
        return (
            laws.thickness_mm[zones, chosen],
            laws.knots[zones, chosen],
            laws.weights[zones, chosen],
        )

    def rest(self, build: Build, first: int = 0, last: int | None = None) -> Rest:
        """Rest one build on heads first to last - 1.

        Parameters
        ----------
        build
            Which pads; its shell must be this one.
        first, last
            Which heads.
        """
        end = len(self) if last is None else last
        poses = np.zeros((len(self), 4, 6))
        poses[:, 0, 2] = START_MM
        seat, (thickness, knots, weights) = self.seating, self.pads(build)
        stroke, force = np.empty((2, len(self), seat.zones.size))
        gaps, normals, lifts = self._bare_under(build.pads[_CROWN], end)
        unknown = self.unknowns
        unsettled = rest_on_heads_in_lanes(
            first, end, seat.points, seat.areas_cm2, seat.zones, seat.drag_n_per_mm,
            gaps, normals, lifts, unknown.zone_mm, unknown.foam,
            unknown.friction, unknown.pull, thickness, knots, weights, SLIDE_IN.value,
            *self.loads, poses, stroke, force,
        )  # fmt: skip
        part = slice(first, end)
        pose = poses[part, -1]
        brow = self._brow(build, pose, part)
        return self.judge(build, stroke[part], force[part], pose, brow, part, unsettled)

    def judge(
        self, build: Build, stroke: Floats, force: Floats, pose: Floats, brow: Floats,
        part: slice, unsettled: int = 0,
    ) -> Rest:  # fmt: skip
        """Zone means and verdict of strokes and brow heights, however they were found."""
        count, (_, knots, weights) = stroke.shape[0], self.pads(build)
        zone = np.empty((4, count, len(ZONES)))
        right = np.empty(count, dtype=np.uint8)
        judge(
            0, count, stroke, brow, self.seating.zones, self.seating.areas_cm2,
            self.unknowns.foam[part], knots, weights, self.bands.row(), zone[0], zone[1],
            zone[2], zone[3], right,
        )  # fmt: skip
        means = (zone[0], zone[1], zone[2], zone[3])
        return Rest(stroke, force, pose, brow, *means, right.astype(bool), unsettled)

    def _brow(self, build: Build, pose: Floats, part: slice) -> Floats:
        lift = self.lift_mm(build)[part]
        edge = self.seating.front_edge
        rise = pose[:, 2] + pose[:, 3] * edge[1] - pose[:, 4] * edge[0]
        here = edge[2] + lift + rise
        return np.asarray(here - self.heads.brow_mm[part] + self.unknowns.brow_mm[part])

    @cached_property
    def loads(self) -> tuple[Floats, Floats, Floats, Floats, Floats, Floats]:
        """Loads of the phases, their points, the strap's, when it is on, and the drag kept."""
        weight = self.shell.mass_kg * GRAVITY
        ahead, above = self.shell.center_of_mass_mm
        push = PUSH.value
        force = np.array([[0, 0, -weight - push], *[[0.0, 0.0, -weight]] * 3], dtype=float)
        point = np.array([[ahead * weight / (weight + push), 0, above], *[[ahead, 0, above]] * 3])
        forward, down = self.sheet.strap_pull_n
        strap = np.array([forward, 0.0, -down])
        strap_point = np.array([STRAP_POINT.value, 0.0, -STRAP_POINT.value])
        on = np.array([0.0, 0.0, 1.0, 1.0])
        kept = np.array([0.0, 1.0, 1.0, 1.0 - SHAKEN.value])
        return force, np.asarray(point, dtype=float), strap, strap_point, on, kept


def _knowing(trial: Trial, known: Mapping[str, object]) -> Trial:
    """The trial with what was found already, under the names of its cached properties."""
    # Where a cached property keeps what it found; a frozen dataclass has no other door.
    vars(trial).update(known)
    return trial
