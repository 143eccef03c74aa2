"""In which form an answer is written: by option, or by the ending of the file's name."""

from enum import StrEnum
from pathlib import PurePath

from helmwright.cli.stop import NothingRan


class Form(StrEnum):
    """What an answer can be written as."""

    PAGE = "a page"
    TABLE = "a table (CSV)"
    DOCUMENT = "a document (JSON)"
    WORKBOOK = "a workbook (XLSX)"


ENDINGS = {".csv": Form.TABLE, ".json": Form.DOCUMENT, ".xlsx": Form.WORKBOOK}


def chosen_form(out: str | None, *, as_json: bool, as_csv: bool) -> Form:
    """The form that the options ask for; without one, what the file's name ends in.

    Raises
    ------
    NothingRan
        Where what is written would not be what the name says.

    """
    ending = PurePath(out or "").suffix.lower()
    by_name = ENDINGS.get(ending, Form.PAGE)
    by_option = Form.DOCUMENT if as_json else Form.TABLE if as_csv else None
    if by_option and by_name is Form.WORKBOOK:
        raise NothingRan(f"{out} is the name of a workbook; leave {_option(as_json)} out")
    if ending in (".xls", ".xlsm", ".xlsb", ".ods"):
        raise NothingRan(f"a workbook is written as .xlsx, not as {ending}; give --out FILE.xlsx")
    if ending == ".pdf":
        raise NothingRan("a PDF is written by --cards FILE or --roster-sheet FILE, not by --out")
    return by_option or by_name


def _option(as_json: bool) -> str:  # noqa: FBT001 - the option itself
    return "--json" if as_json else "--csv"
