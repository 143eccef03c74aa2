"""Which model sheet a visit was made with: a digest of what the sheet holds."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from typing import Any

import numpy as np

from helmwright.catalogue.sheet import ModelSheet

DIGITS = 9
"""Significant digits that count; the last of a double differ from machine to machine where a
sheet's unmeasured numbers are computed."""


def sheet_digest(sheet: ModelSheet) -> str:
    """SHA-256 over the sheet's content, in hexadecimal.

    Notes
    -----
    Equal for sheets that say the same, however their files are written; another for every number,
    label or word that differs. What a sheet leaves at its default does not count, so that a later
    version of the program with more to say on a sheet knows the same sheet again.
    """
    return content_digest(sheet)


def content_digest(content: object) -> str:
    """The same of any data: of a protocol, for one.

    Raises
    ------
    TypeError
        Where it holds something that is no data.
    """
    text = json.dumps(_canonical(content), sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return hashlib.sha256(text.encode("ascii")).hexdigest()


def _canonical(value: Any) -> Any:
    """Lists, texts and mappings with texts for keys: nothing that JSON could write in two ways."""
    if is_dataclass(value) and not isinstance(value, type):
        said = {f.name: getattr(value, f.name) for f in fields(value) if not _is_usual(value, f)}
        return {name: _canonical(each) for name, each in said.items()}
    if isinstance(value, np.ndarray):
        return [_canonical(each) for each in value.tolist()]
    if isinstance(value, Mapping):
        return [[_canonical(key), _canonical(each)] for key, each in value.items()]
    if isinstance(value, (set, frozenset)):
        return sorted(_canonical(each) for each in value)
    if isinstance(value, (tuple, list)):
        return [_canonical(each) for each in value]
    if isinstance(value, bool) or value is None:
        return value
    if isinstance(value, (int, float)):
        return format(float(value) + 0.0, f".{DIGITS}g")
    if isinstance(value, str):
        return str(value)
    raise TypeError(f"a sheet holds {type(value).__name__}, of which no digest is made")


def _is_usual(owner: Any, field: Field[Any]) -> bool:
    """Whether a field is left at its default."""
    if field.default is MISSING:
        return False
    value = getattr(owner, field.name)
    return type(value) is type(field.default) and bool(value == field.default)
