"""Positions as rosters write them."""

import re

from helmwright.catalogue.parts import Position

_SPELLED = {
    Position.OFFENSIVE_LINE: "ol|offensive line|offensive lineman|c|center|g|og|lg|rg|guard|"
    "offensive guard|t|ot|lt|rt|tackle|offensive tackle|ls|long snapper",
    Position.DEFENSIVE_LINE: "dl|defensive line|defensive lineman|de|dt|nt|ng|nose|nose tackle|"
    "nose guard|defensive end|defensive tackle",
    Position.LINEBACKER: "lb|ilb|olb|mlb|linebacker|inside linebacker|outside linebacker|"
    "middle linebacker",
    Position.DEFENSIVE_BACK: "db|cb|s|fs|ss|defensive back|cornerback|corner|safety|free safety|"
    "strong safety|nickel",
    Position.TIGHT_END: "te|tight end|y",
    Position.RECEIVER: "wr|receiver|wide receiver|se|fl|split end|flanker|slot",
    Position.RUNNING_BACK: "rb|hb|fb|tb|running back|halfback|fullback|tailback",
    Position.QUARTERBACK: "qb|quarterback",
    Position.KICKER: "k|pk|kicker|place kicker",
    Position.PUNTER: "p|punter",
}
_KNOWN = {word: position for position, words in _SPELLED.items() for word in words.split("|")}


def read_positions(text: str) -> tuple[Position, ...]:
    """The positions that a cell names, each once, in its order; none where no word is known.

    Examples
    --------
    >>> read_positions("QB/WR")
    (<Position.QUARTERBACK: 'quarterback'>, <Position.RECEIVER: 'receiver'>)
    """
    words = (" ".join(word.split()) for word in re.split(r"[/,;&+-]", text.lower()))
    found = (_KNOWN.get(word.rstrip(".")) for word in words)
    return tuple(dict.fromkeys(position for position in found if position is not None))
