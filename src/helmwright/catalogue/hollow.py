"""Which numbers of a shell and a form make a smooth hollow: what a sheet must keep to.

Below the level the sides run in so that the width at the jaw pads is met. The surface has no room
for every width: too small a one would cut it off with an edge, too large a one would bulge.
"""

from math import sqrt

from helmwright.catalogue.sheet import Shell, ShellForm

BOTTOM_MM = 120.0
"""Where the surface closes, below the ear openings [mm]."""

JAW_FORWARD_MM = 35.0
"""Middle of the jaw pads ahead of the ear openings [mm]."""

FRONT_TAPER = 6.0
"""Exponent by which the front runs in below the level; any shell's [1]."""

JAW_BELOW_LEVEL_MM = 10.0
"""Least height of the level above the jaw pads' middle [mm]."""

CROWN_OVER_LEVEL_MM = 20.0
"""Least height of the crown above the level [mm]."""

_NARROWEST, _WIDEST = 0.56, 0.999


def jaw_widths_mm(shell: Shell, form: ShellForm) -> tuple[float, float]:
    """Least and largest inside width at the jaw pads that a shell's other numbers leave room for.

    Parameters
    ----------
    shell
        Its length and breadth are used.
    form
        The jaw pads' height must lie below the level by JAW_BELOW_LEVEL_MM.

    Returns
    -------
    Both ends [mm].

    Notes
    -----
    At the share t of the way from the level down to the bottom, the front has kept
    `f = sqrt(1 - t^6)` of its length, and a section of exponent n at x ahead of the middle has
    the share `s = (1 - (x / (a f))^n)^(1/n)` of its breadth. The sides keep `sqrt(1 - t^k)` of
    theirs. They run in smoothly with k > 1 only, so the width lies above `2 b s sqrt(1 - t)` and
    below `2 b s`.
    """
    t = (form.level_mm - form.jaw_height_mm) / (form.level_mm + BOTTOM_MM)
    ahead = JAW_FORWARD_MM / (0.5 * shell.inside_length_mm * sqrt(1.0 - t**FRONT_TAPER))
    n = form.section_exponent
    straight = shell.inside_breadth_mm * (1.0 - ahead**n) ** (1.0 / n)
    return straight * max(1.005 * sqrt(1.0 - t), _NARROWEST), straight * _WIDEST
