"""Drawings: sections of a helmet on a head as plain data, as SVG and in plain characters."""

from helmwright.drawing.characters import characters
from helmwright.drawing.parts import Ink, Label, Line, Section, Size
from helmwright.drawing.sections import MOST_KPA, NUMBERS, sections
from helmwright.drawing.svg import drawing_svg, screen_svg, section_svg

__all__ = [
    "MOST_KPA",
    "NUMBERS",
    "Ink",
    "Label",
    "Line",
    "Section",
    "Size",
    "characters",
    "drawing_svg",
    "screen_svg",
    "section_svg",
    "sections",
]
