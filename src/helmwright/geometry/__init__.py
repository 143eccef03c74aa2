"""Curves and surfaces, without any knowledge of heads or helmets."""

from helmwright.geometry.ellipse import ellipse_perimeter
from helmwright.geometry.superellipse import section_exponent, superellipse_perimeter

__all__ = ["ellipse_perimeter", "section_exponent", "superellipse_perimeter"]
