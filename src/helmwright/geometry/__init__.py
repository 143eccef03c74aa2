"""Curves and surfaces, without any knowledge of heads or helmets."""

from helmwright.geometry.ellipse import ellipse_perimeter
from helmwright.geometry.hull import hull_perimeter
from helmwright.geometry.ovoid import Ovoids
from helmwright.geometry.superellipse import section_exponent, superellipse_perimeter

__all__ = [
    "Ovoids",
    "ellipse_perimeter",
    "hull_perimeter",
    "section_exponent",
    "superellipse_perimeter",
]
