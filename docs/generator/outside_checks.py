"""The page of outside checks: which tests hold the project to something outside it."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from docs.generator.markdown import document, table

INTRODUCTION = """\
Tests that compare the program with something it did not make: a survey, a published table, a
closed form, an independent solver. The [sources](sources.md) say where each comes from."""


@dataclass(frozen=True, slots=True)
class OutsideCheck:
    """One test in tests/outside, and the sources that its mark names.

    `keys` is empty for a test without the mark, or with one that names nothing.
    """

    file: str
    test: str
    keys: tuple[str, ...]


def page(folder: Path) -> str:
    """Every outside check, by file."""
    rows = [
        (check.test.removeprefix("test_").replace("_", " "), ", ".join(check.keys), check.file)
        for check in outside_checks(folder)
    ]
    return document("Outside checks", INTRODUCTION, table(("what is held", "source", "file"), rows))


def outside_checks(folder: Path) -> Iterator[OutsideCheck]:
    """Every test function under a folder, in the order of files and lines."""
    for path in sorted(folder.rglob("test_*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
                file = path.relative_to(folder).as_posix()
                yield OutsideCheck(file, node.name, _keys(node))


def _keys(test: ast.FunctionDef) -> tuple[str, ...]:
    return tuple(
        argument.value
        for mark in test.decorator_list
        if isinstance(mark, ast.Call) and ast.unparse(mark.func) == "pytest.mark.outside"
        for argument in mark.args
        if isinstance(argument, ast.Constant) and isinstance(argument.value, str)
    )
