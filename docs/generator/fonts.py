"""Make the fonts that paper is set in: static, with built fractions.

    python -m docs.generator.fonts FOLDER

FOLDER holds Latin and Latin Extended files of Besley and Atkinson Hyperlegible Next, as the
projects of the same name publish them for the web (`besley-latin-700-normal.woff` and so on). Needs
the package fonttools, which nothing else here needs.

Each pair of files becomes one, without hints. Built fractions, numerator over bar over denominator,
are added under the OpenType feature `afrc` as ligatures of what is typed, so that "5/8" is drawn as
a built fraction and copied out of a document as "5/8".
"""

import sys
import tempfile
from pathlib import Path

from fontTools import subset
from fontTools.merge import Merger
from fontTools.otlLib.builder import buildLigatureSubstSubtable, buildLookup
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables import otTables

TARGET = Path(__file__).parents[2] / "src" / "helmwright" / "reports" / "paper" / "fonts"
FACES = (
    ("besley", 700),
    ("atkinson-hyperlegible-next", 400),
    ("atkinson-hyperlegible-next", 700),
)
DENOMINATORS = (2, 4, 8, 16, 32)
SIZE = {"besley": 0.58, "atkinson-hyperlegible-next": 0.66}
"""Height of a numerator beside a whole number, larger where the whole is text."""


def main(folder: Path) -> None:
    """Make all faces."""
    for family, weight in FACES:
        font = merged(folder, family, weight)
        add_fractions(font, SIZE[family])
        font.save(TARGET / f"{family}-{weight}.ttf")


def merged(folder: Path, family: str, weight: int) -> TTFont:
    """Latin and Latin Extended as one font, without hints."""
    with tempfile.TemporaryDirectory() as scratch:
        parts = []
        for part in ("latin", "latin-ext"):
            font = TTFont(folder / f"{family}-{part}-{weight}-normal.woff")
            font.flavor = None
            parts.append(str(Path(scratch) / f"{part}.ttf"))
            font.save(parts[-1])
        whole = Merger().merge(parts)
        options = subset.Options()
        options.hinting, options.layout_features, options.name_IDs = False, ["*"], ["*"]
        options.glyph_names, options.notdef_outline = True, True
        keep = subset.Subsetter(options)
        keep.populate(unicodes=whole.getBestCmap())
        keep.subset(whole)
        return whole


def add_fractions(font: TTFont, size: float) -> None:
    """Glyphs for every fraction of an inch, and the ligatures that call them."""
    cmap = font.getBestCmap()
    digits = {str(value): cmap[ord(str(value))] for value in range(10)}
    slash = cmap[ord("/")]
    ligatures = {}
    for below in DENOMINATORS:
        for above in range(1, below, 2):
            name = f"{above}over{below}"
            rows = [[digits[each] for each in str(number)] for number in (above, below)]
            draw(font, name, rows, size)
            ligatures[*rows[0], slash, *rows[1]] = name
    add_feature(font, ligatures)


def draw(font: TTFont, name: str, rows: list[list[str]], size: float) -> None:
    """One built fraction: its bar in the middle of the height of a figure."""
    units, glyphs = font["head"].unitsPerEm, font.getGlyphSet()
    tall = figure_height(font)
    thick, gap, edge = round(0.055 * units), round(0.05 * units), round(0.05 * units)
    widths = [size * sum(glyphs[each].width for each in row) for row in rows]
    wide = round(max(widths)) + 2 * edge
    middle = 0.5 * tall
    pen = TTGlyphPen(None)
    lows = (middle + 0.5 * thick + gap, middle - 0.5 * thick - gap - size * tall)
    for row, low, own in zip(rows, lows, widths, strict=True):
        at = 0.5 * (wide - own)
        for each in row:
            glyphs[each].draw(TransformPen(pen, (size, 0, 0, size, at, low)))
            at += size * glyphs[each].width
    bar_low, bar_high = round(middle - 0.5 * thick), round(middle + 0.5 * thick)
    bar = [(edge // 2, bar_low), (edge // 2, bar_high), (wide - edge // 2, bar_high),
           (wide - edge // 2, bar_low)]  # fmt: skip
    pen.moveTo(bar[0])
    for corner in bar[1:]:
        pen.lineTo(corner)
    pen.closePath()
    font["glyf"][name] = pen.glyph()
    font["hmtx"][name] = (wide, edge // 2)
    font.setGlyphOrder(list(dict.fromkeys([*font.getGlyphOrder(), name])))


def figure_height(font: TTFont) -> float:
    """Height of the figure 1."""
    return float(font["glyf"][font.getBestCmap()[ord("1")]].yMax)


def add_feature(font: TTFont, ligatures: dict[tuple[str, ...], str]) -> None:
    """Put the ligatures into the font under `afrc`, for every script and language."""
    table = font["GSUB"].table
    lookup = buildLookup([buildLigatureSubstSubtable(ligatures)])
    table.LookupList.Lookup.append(lookup)
    feature = otTables.FeatureRecord()
    feature.FeatureTag, feature.Feature = "afrc", otTables.Feature()
    feature.Feature.FeatureParams = None
    feature.Feature.LookupListIndex = [len(table.LookupList.Lookup) - 1]
    feature.Feature.LookupCount = 1
    table.FeatureList.FeatureRecord.append(feature)
    place = len(table.FeatureList.FeatureRecord) - 1
    for script in table.ScriptList.ScriptRecord:
        languages = [each.LangSys for each in script.Script.LangSysRecord]
        for language in filter(None, [script.Script.DefaultLangSys, *languages]):
            language.FeatureIndex.append(place)
            language.FeatureCount += 1


if __name__ == "__main__":
    main(Path(sys.argv[1]))
