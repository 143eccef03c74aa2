"""Face guards and chin straps before the face that goes with a head, in the proposed build."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from helmwright.anatomy import HeadDraws
from helmwright.anatomy.face import Faces, draw_faces
from helmwright.catalogue.instruction import FitTopic
from helmwright.catalogue.sheet import ModelSheet
from helmwright.fit.contact import Trial
from helmwright.fit.face_outlook import FaceOutlook, StrapOutlook
from helmwright.fit.guard import (
    First,
    draw_guard,
    guard_outlook,
    rested_with,
    with_guard,
)
from helmwright.fit.outlook import Build
from helmwright.fit.sight import LEAST_NOSE, MOST_NOSE
from helmwright.fit.strap import strap_outlook

Floats = npt.NDArray[np.float64]

FACE_DRAWS = 200


def face_outlook(
    trial: Trial,
    heads: HeadDraws,
    build: Build,
    *,
    rng: np.random.Generator,
    labels: Sequence[str] = ("male",),
    weights: Floats | None = None,
) -> FaceOutlook:
    """Every guard and strap that the sheet lists for a build's shell, before this face.

    Parameters
    ----------
    trial
        The build's shell on possible heads.
    heads
        Those heads.
    build
        The build.
    rng
        The random generator.
    labels, weights
        Whose heads they may be; see `draw_faces`.

    Notes
    -----
    On the first 200 heads. Each guard's own weight goes into the rest: a heavier guard sits lower
    in front. The mass of a shell on the sheet is taken to be with the guard listed first for it.
    """
    count = min(FACE_DRAWS, len(trial))
    shown = HeadDraws(heads.values[:count])
    faces = draw_faces(shown, rng, labels=labels, weights=weights)
    accept, by_maker = nose_interval(trial.sheet)
    edge = trial.seating.front_edge[[0, 2]]
    guards = [
        draw_guard(guard, edge, count, rng)
        for guard in trial.sheet.face_guards
        if build.shell in guard.shells
    ]
    worn = [
        rested_with(trial, build, with_guard(trial.shell, each, guards[0]), count)
        for each in guards
    ]
    first = First(guards[0], worn[0]) if guards else None
    return FaceOutlook(
        shell=build.shell,
        guards=tuple(
            guard_outlook(rest, faces, each, first, accept)
            for rest, each in zip(worn, guards, strict=True)
            if first is not None
        ),
        straps=_straps(trial, build, faces, first),
        nose_accept_mm=accept,
        nose_by_maker=by_maker,
        draws=count,
    )


def _straps(
    trial: Trial, build: Build, faces: Faces, first: First | None
) -> tuple[StrapOutlook, ...]:
    """The straps on the shell with its first guard; a bare shell is pushed at its front edge."""
    rest = first.worn if first else rested_with(trial, build, trial.shell, len(faces))
    front = rest.front_edge()[:, 0]
    if first is not None:
        front = front + first.guarded.ahead_mm.max(axis=1)
    return tuple(
        strap_outlook(rest, faces, strap, front)
        for strap in trial.sheet.chin_straps
        if build.shell in strap.shells
    )


def nose_interval(sheet: ModelSheet) -> tuple[tuple[float, float], bool]:
    """Accepted distance from nose to bar [mm], and whether it is the maker's own."""
    said = sheet.instruction(FitTopic.FACE_GUARD_DISTANCE)
    if said is None or said.accept_mm is None:
        return (LEAST_NOSE.value, MOST_NOSE.value), False
    return said.accept_mm, True
