"""Places on a shell where a rest puts them on the head."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from helmwright.fit.contact import Rest, Trial
from helmwright.fit.outlook import Build

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Worn:
    """A build at rest on the first heads of a trial.

    Parameters
    ----------
    trial, build, rest
        Which shell on which heads, which pads, and how it rests on the first of them.
    """

    trial: Trial
    build: Build
    rest: Rest

    def __len__(self) -> int:
        return int(self.rest.pose.shape[0])

    def place(self, ahead_mm: Floats, above_mm: Floats) -> Floats:
        """Places in the shell's middle plane on each head, shape (n, k, 2) [mm].

        Parameters
        ----------
        ahead_mm, above_mm
            Of the ear openings, shape (k,) or (n, k) [mm].

        Notes
        -----
        x' = x + t_x + w_y (z + lift), z' = z + lift + t_z - w_y x, the middle plane's part of
        u = t + w x p, about the height of linearization. What is not known of the brow height
        moves every place alike, so that the front edge lies where the brow height says.
        """
        ahead, above = np.atleast_2d(ahead_mm), np.atleast_2d(above_mm)
        pose, first = self.rest.pose, slice(0, len(self))
        lift = self.trial.lift_mm(self.build)[first, None]
        raised = above + lift
        x = ahead + pose[:, 0, None] + pose[:, 4, None] * raised
        z = raised + pose[:, 2, None] - pose[:, 4, None] * ahead
        return np.stack([x, z + self.trial.unknowns.brow_mm[first, None]], axis=-1)

    def front_edge(self) -> Floats:
        """Middle of the front edge, shape (n, 2) [mm]."""
        edge = self.trial.seating.front_edge
        return self.place(edge[:1], edge[2:])[:, 0]

    def pad_middle(self, zone: int) -> Floats:
        """Middle of a zone's contacts, shape (n, 2) [mm]."""
        points = self.trial.seating.points[self.trial.seating.zones == zone].mean(axis=0)
        return self.place(points[:1], points[2:])[:, 0]
