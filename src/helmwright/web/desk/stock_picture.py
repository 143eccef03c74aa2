"""Stock against expected need: pieces that are there, and those that will be wanted."""

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from helmwright.records.readers.need import Need, PartNeed
from helmwright.web.desk import svg
from helmwright.web.desk.part_words import place_words, size_words
from helmwright.web.desk.parts_lane import judged, left_words, wanted_words

LANE, TOP, BAR, TAPE = 44.0, 8.0, 28.0, 44.0
ROOM = 1
"""Pieces that the scale goes past the most."""


@dataclass(frozen=True, slots=True)
class NeedRow:
    """One part: its words, and its drawing."""

    model: str
    place: str
    size: SafeString
    left: str
    wanted: str
    short: str
    mark: str
    word: str
    drawing: SafeString


@dataclass(frozen=True, slots=True)
class Pieces:
    """The scale: a number of pieces."""

    most: int

    @classmethod
    def of(cls, parts: Sequence[PartNeed]) -> "Pieces":
        """As far as the most that are there or wanted."""
        most = [max(part.outlook.on_hand, part.outlook.high) for part in parts]
        return cls(max([4, *most]) + ROOM)

    def at(self, count: float) -> float:
        """Where a number is [percent]."""
        return 100.0 * min(max(count, 0.0), self.most) / self.most

    def tape(self, pulled: int) -> SafeString:
        """The tape of pieces, pulled out as far as the most that are there."""
        step = max(1, self.most // 12)
        parts = [
            svg.box(0, 0, 100, TAPE, "blank"),
            svg.box(0, 0, self.at(pulled), TAPE, "tape"),
        ]
        for count in range(self.most + 1):
            side = "past" if count <= pulled else "ahead"
            x, tall = self.at(count), count % step == 0
            parts.append(svg.line(x, TAPE - (14 if tall else 7), x, TAPE, f"tick {side}"))
            if tall and 0 < count < self.most:
                parts.append(svg.words(x, 22, count, f"year {side} middle"))
        parts += [svg.line(0, 1, 100, 1, "edge"), svg.line(0, TAPE - 1, 100, TAPE - 1, "edge")]
        return svg.drawing(TAPE, parts, told=f"Pieces, 0 to {self.most}.", kind="life pieces")


def need_rows(parts: Sequence[PartNeed], need: Need, scale: Pieces) -> tuple[NeedRow, ...]:
    """A row for each of the parts."""
    return tuple(_row(part, need, scale) for part in parts)


def _row(part: PartNeed, need: Need, scale: Pieces) -> NeedRow:
    mark, word = judged(part)
    left = left_words(part.outlook.on_hand)
    wanted = wanted_words(part, need)
    short = f"too few: {100 * part.outlook.short:.0f} in 100"
    told = f"{place_words(part.place)} {part.size}: {left}; {wanted}; {short}"
    drawn = svg.drawing(LANE, _drawn(part, scale), told=told, kind="need")
    size = size_words(part.size, part.thickness_mm)
    return NeedRow(
        part.model, place_words(part.place), size, left, wanted, short, mark, word, drawn
    )


def _drawn(part: PartNeed, scale: Pieces) -> list[SafeString]:
    """A step for every piece that is there; hatched from the least to the most wanted."""
    there = max(part.outlook.on_hand, 0)
    one = scale.at(1)
    pieces = [svg.box(scale.at(piece), TOP, one, BAR, "piece") for piece in range(there)]
    parts = [svg.hatch("wanted"), *pieces]
    low, high = scale.at(part.outlook.low), scale.at(part.outlook.high)
    parts.append(svg.filled(low, TOP - 4, max(high - low, 0.4), BAR + 8, "wanted", "wanted"))
    parts.append(svg.line(0, TOP + BAR, 100, TOP + BAR, "floor"))
    return parts
