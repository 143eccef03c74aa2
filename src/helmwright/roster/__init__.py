"""Rosters: from a file to players, and from players to a build for each."""

from helmwright.roster.answer import (
    PlayerAnswer,
    Proposer,
    RosterAnswer,
    answer_player,
    answer_roster,
)
from helmwright.roster.build_now import build_now, stated_pads
from helmwright.roster.cell import CellError
from helmwright.roster.columns import (
    ANSWER_MARK,
    MEASURE_FIELDS,
    SYNONYMS,
    Column,
    Field,
    read_heading,
)
from helmwright.roster.demonstration import TEMPLATE, demo_roster_bytes, roster_template
from helmwright.roster.estimate import estimate_player
from helmwright.roster.face import face_choice, face_wish
from helmwright.roster.helmet_columns import HELMET_SYNONYMS, HelmetField
from helmwright.roster.helmet_list import HelmetList, HelmetRow, read_helmets
from helmwright.roster.helmet_template import HELMET_TEMPLATE, helmet_template
from helmwright.roster.intake import read_roster, read_roster_file
from helmwright.roster.player import Player, Roster
from helmwright.roster.positions import read_positions
from helmwright.roster.remark import Remark, RosterError
from helmwright.roster.row import RowRead, read_row
from helmwright.roster.spreadsheet import column_letters, fraction_behind
from helmwright.roster.stock import (
    Stock,
    StockError,
    StockRow,
    StockRows,
    read_stock,
    read_stock_rows,
    stock_of,
)
from helmwright.roster.stock_place import read_shell
from helmwright.roster.stock_template import demo_stock_bytes, stock_template
from helmwright.roster.table import Table, decode_roster

__all__ = [
    "ANSWER_MARK",
    "HELMET_SYNONYMS",
    "HELMET_TEMPLATE",
    "MEASURE_FIELDS",
    "SYNONYMS",
    "TEMPLATE",
    "CellError",
    "Column",
    "Field",
    "HelmetField",
    "HelmetList",
    "HelmetRow",
    "Player",
    "PlayerAnswer",
    "Proposer",
    "Remark",
    "Roster",
    "RosterAnswer",
    "RosterError",
    "RowRead",
    "Stock",
    "StockError",
    "StockRow",
    "StockRows",
    "Table",
    "answer_player",
    "answer_roster",
    "build_now",
    "column_letters",
    "decode_roster",
    "demo_roster_bytes",
    "demo_stock_bytes",
    "estimate_player",
    "face_choice",
    "face_wish",
    "fraction_behind",
    "helmet_template",
    "read_heading",
    "read_helmets",
    "read_positions",
    "read_roster",
    "read_roster_file",
    "read_row",
    "read_shell",
    "read_stock",
    "read_stock_rows",
    "roster_template",
    "stated_pads",
    "stock_of",
    "stock_template",
]
