"""Modules stay small, and none is a drawer for what had no place."""

import ast
import io
import tokenize
from pathlib import Path

import pytest

from tests.house.tree import ROOT

LARGEST = 300
DRAWERS = {"utils", "util", "helpers", "helper", "common", "misc", "manager", "service", "services"}
MODULES = sorted(
    path
    for folder in ("src", "docs", "bench", "tests")
    for path in (ROOT / folder).rglob("*.py")
    if path.parent.name != "migrations"  # written by Django from the models
)
NO_CODE = {tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT}


def code_lines(source: str) -> int:
    """Lines that hold code: no blank lines, no comments, no docstrings."""
    lines: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type not in NO_CODE and token.type != tokenize.ENDMARKER:
            lines.update(range(token.start[0], token.end[0] + 1))
    return len(lines - docstring_lines(ast.parse(source)))


def docstring_lines(tree: ast.Module) -> set[int]:
    holders = [
        n for n in ast.walk(tree) if isinstance(n, (ast.Module, ast.ClassDef, ast.FunctionDef))
    ]
    found: set[int] = set()
    for holder in holders:
        if ast.get_docstring(holder) is not None:
            docstring = holder.body[0]
            found.update(range(docstring.lineno, (docstring.end_lineno or 0) + 1))
    return found


def is_data_table(source: str) -> bool:
    """A module that only names values: no function, no class."""
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
    return not any(isinstance(node, kinds) for node in ast.walk(ast.parse(source)))


@pytest.mark.parametrize("path", MODULES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_a_module_is_short_or_a_data_table(path: Path):
    source = path.read_text(encoding="utf-8")
    assert is_data_table(source) or code_lines(source) <= LARGEST


def test_no_module_or_folder_is_a_drawer():
    names = {part for path in MODULES for part in path.relative_to(ROOT).with_suffix("").parts}
    assert not names & DRAWERS


def test_comments_docstrings_and_blank_lines_are_not_code():
    assert code_lines('"""Says\nmuch."""\n\n# Why.\nx = 1\n\n\ndef f():\n    """Says."""\n') == 2


def test_every_line_of_a_long_statement_is_code():
    assert code_lines('x = (\n    1,\n    2,\n)\ny = """a\nb"""\n') == 6


def test_a_module_with_a_function_is_no_data_table():
    assert is_data_table("X = {1: 2}\n")
    assert not is_data_table("X = 1\ndef f():\n    return X\n")
