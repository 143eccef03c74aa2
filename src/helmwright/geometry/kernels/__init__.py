"""Compiled inner loops of the geometry room."""

from pathlib import Path

from helmwright.geometry.compiled import kept_by_content

with kept_by_content(Path(__file__).parent):
    from helmwright.geometry.kernels import level, rays

__all__ = ["level", "rays"]
