"""PDF pages, read and looked at."""

import ctypes

import numpy as np
import pypdfium2.raw as pdfium

INCH = 288
"""Pixels of an inch at a scale of 4."""


def words(page):
    return " ".join(page.get_textpage().get_text_range().split())


def picture(page):
    """Ink of a page, 0 to 1, at INCH pixels an inch."""
    return 1.0 - page.render(scale=INCH / 72).to_numpy()[:, :, :3].mean(axis=2) / 255.0


def alternatives(page):
    """Alternative texts of a page, in reading order."""
    tree = pdfium.FPDF_StructTree_GetForPage(page)
    found: list[str] = []
    for at in range(pdfium.FPDF_StructTree_CountChildren(tree)):
        follow(pdfium.FPDF_StructTree_GetChildAtIndex(tree, at), found)
    pdfium.FPDF_StructTree_Close(tree)
    return found


def follow(element, found):
    if not element:
        return
    size = pdfium.FPDF_StructElement_GetAltText(element, None, 0)
    if size > 2:
        held = ctypes.create_string_buffer(size)
        pdfium.FPDF_StructElement_GetAltText(element, held, size)
        found.append(held.raw.decode("utf-16-le").rstrip("\0"))
    for at in range(pdfium.FPDF_StructElement_CountChildren(element)):
        follow(pdfium.FPDF_StructElement_GetChildAtIndex(element, at), found)


def runs(rows):
    """Rows that follow one another, together."""
    return np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1)


def reading_boxes(page, numbers):
    """Left, bottom, right, top of each text [pt]."""
    text = page.get_textpage()
    found = []
    for number in numbers:
        start, count = text.search(number).get_next()
        corners = np.array([text.get_charbox(at) for at in range(start, start + count)])
        found.append((*corners[:, :2].min(axis=0), *corners[:, 2:].max(axis=0)))
    return found


def pad_figures(page):
    """Heights of the figures in the pad column, downward [px]."""
    text = page.get_textpage()
    start, _ = text.search("pad, in").get_next()
    left, bottom = text.get_charbox(start)[:2]
    ink = picture(page)[:, round(left * INCH / 72) : round((left + 20.0) * INCH / 72)]
    first = round((page.get_size()[1] - bottom) * INCH / 72) + 6
    rows = ink[first : first + round(0.47 * INCH)] > 0.5
    # What runs across the whole column is a rule; what is low is a fraction's bar.
    rows[rows.mean(axis=1) > 0.95] = False
    found = runs(np.flatnonzero(rows.any(axis=1)))
    return [len(each) for each in found if len(each) > 8]
