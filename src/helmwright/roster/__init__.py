"""Rosters: from a file to players, and from players to a build for each."""

from helmwright.roster.answer import (
    PlayerAnswer,
    Proposer,
    RosterAnswer,
    answer_player,
    answer_roster,
)
from helmwright.roster.build_now import build_now
from helmwright.roster.cell import CellError
from helmwright.roster.columns import MEASURE_FIELDS, SYNONYMS, Column, Field, read_heading
from helmwright.roster.demonstration import demo_roster_bytes, roster_template
from helmwright.roster.estimate import estimate_player
from helmwright.roster.intake import read_roster
from helmwright.roster.player import Player, Roster
from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.row import RowRead, read_row
from helmwright.roster.spreadsheet import fraction_behind
from helmwright.roster.table import decode_roster

__all__ = [
    "MEASURE_FIELDS",
    "SYNONYMS",
    "CellError",
    "Column",
    "Field",
    "Player",
    "PlayerAnswer",
    "Proposer",
    "Remark",
    "Roster",
    "RosterAnswer",
    "RosterError",
    "RowRead",
    "answer_player",
    "answer_roster",
    "build_now",
    "decode_roster",
    "demo_roster_bytes",
    "estimate_player",
    "fraction_behind",
    "read_heading",
    "read_roster",
    "read_row",
    "roster_template",
]
