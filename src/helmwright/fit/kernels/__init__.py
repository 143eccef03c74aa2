"""Compiled inner loops of the fit room."""

from pathlib import Path

from helmwright.geometry.compiled import kept_by_content

with kept_by_content(Path(__file__).parent):
    from helmwright.fit.kernels import batch, contact, each, lanes, law, linear

__all__ = ["batch", "contact", "each", "lanes", "law", "linear"]
