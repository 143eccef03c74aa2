"""The middle head of an estimate at rest in one build: what a drawing shows."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadEstimate
from helmwright.anatomy.surface import HeadShapes, head_shapes
from helmwright.catalogue.sheet import ModelSheet
from helmwright.catalogue.zone import ZONES, Zone
from helmwright.fit.contact import Trial
from helmwright.fit.covering import covered, covering_layers
from helmwright.fit.outlook import Build
from helmwright.fit.seating import PadLaws, Seating, pad_laws, shell_surface
from helmwright.fit.unknowns import middle_unknowns
from helmwright.fit.verdict import Bands
from helmwright.geometry import Ovoids

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class MiddleRest:
    """One head and the helmet on it, in the head frame.

    Parameters
    ----------
    sheet, build
        The model and the parts.
    head
        The middle head: every measure at its mean.
    shell
        The bare inside of the shell, as it is drawn.
    seating
        Its contacts, as they are drawn.
    laws
        The pads' laws, with whatever is worn between pad and head.
    lift_mm
        How far the drawing is raised before the pose turns and moves it [mm].
    pose
        Translations and rotations, shape (6,) [mm], [rad].
    stroke_mm
        Of each contact; negative is a gap, shape (s,) [mm].
    brow_mm
        Eyebrow to front edge [mm].
    """

    sheet: ModelSheet
    build: Build
    head: HeadShapes
    shell: Ovoids
    seating: Seating
    laws: PadLaws
    lift_mm: float
    pose: Floats
    stroke_mm: Floats
    brow_mm: float

    @cached_property
    def turn(self) -> Floats:
        """Rotation of the helmet about the head frame's origin, shape (3, 3).

        Notes
        -----
        The rest itself is linear in its angles; to the first order this is the same.
        """
        x, y, z = self.pose[3:]
        skew = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
        left, _, right = np.linalg.svd(np.eye(3) + skew)
        return np.asarray(left @ right)

    def placed(self, points: Floats) -> Floats:
        """Points of the drawn shell where they lie on the head, shape (n, 3) [mm]."""
        raised = np.asarray(points) + np.array([0.0, 0.0, self.lift_mm])
        return np.asarray(raised @ self.turn.T + self.pose[:3])

    def drawn(self, points: Floats) -> Floats:
        """The other way: points in the head frame, in the shell's drawing, shape (n, 3) [mm]."""
        level = (np.asarray(points) - self.pose[:3]) @ self.turn
        return np.asarray(level - np.array([0.0, 0.0, self.lift_mm]))

    def contacts(self, zone: Zone) -> Floats:
        """Where the contacts of a zone lie on the shell, shape (k, 3) [mm]; none without a pad."""
        return self.placed(self.seating.points[self.seating.zones == ZONES.index(zone)])

    def strokes(self, zone: Zone) -> Floats:
        """Strokes of the contacts of a zone, shape (k,) [mm]."""
        return np.asarray(self.stroke_mm[self.seating.zones == ZONES.index(zone)])

    @property
    def front_edge(self) -> Floats:
        """Middle of the shell's front edge, shape (3,) [mm]."""
        return np.asarray(self.placed(self.seating.front_edge[None, :])[0])


def middle_rest(estimate: HeadEstimate, sheet: ModelSheet, build: Build) -> MiddleRest:
    """The middle head of an estimate at rest in a build, with nothing unknown.

    Parameters
    ----------
    estimate
        What is believed of the head.
    sheet, build
        The model and one of its builds.

    Notes
    -----
    The head whose measures are the means is one head among the possible ones. Its strokes lie
    near the means over all of them, and are not those means.
    """
    middle = estimate.middle
    trial = Trial(
        sheet=sheet,
        shell=sheet.shell(build.shell),
        laws=pad_laws(sheet, zones_over=covering_layers(estimate)),
        heads=head_shapes(middle),
        unknowns=covered(middle_unknowns(sheet), middle, estimate),
        bands=Bands.of(sheet),
    )
    rest = trial.rest(build)
    return MiddleRest(
        sheet=sheet,
        build=build,
        head=trial.heads,
        shell=shell_surface(trial.shell, sheet.form),
        seating=trial.seating,
        laws=trial.laws,
        lift_mm=float(trial.lift_mm(build)[0]),
        pose=rest.pose[0],
        stroke_mm=rest.stroke_mm[0],
        brow_mm=float(rest.brow_mm[0]),
    )
