"""The page of exports: what each room offers to the rooms above it."""

import ast
import importlib
import inspect
import pkgutil
from itertools import pairwise
from types import ModuleType

import helmwright
from docs.generator.markdown import document, first_sentence, table

INTRODUCTION = """\
Each room offers what its `__all__` names; all else inside a room is its own affair and may change
without notice."""

APPS = ("helmwright.config", "helmwright.records", "helmwright.web")
"""Rooms that offer tables, pages and settings; their modules are loaded by name."""


def page() -> str:
    """Every room with what it offers."""
    return document("Exports", INTRODUCTION, *map(_room, rooms()))


def rooms() -> list[str]:
    """The names of the rooms, in alphabetical order."""
    modules = pkgutil.iter_modules(helmwright.__path__, "helmwright.")
    return sorted(module.name for module in modules if module.ispkg and module.name not in APPS)


def _room(name: str) -> str:
    room = importlib.import_module(name)
    notes = _notes_on_values(room)
    rows = [
        (f"`{export}`", *_described(getattr(room, export), notes.get(export)))
        for export in room.__all__
    ]
    return f"## {name}\n\n{room.__doc__}\n\n{table(('name', 'kind', 'what it is'), rows)}"


def _described(value: object, note: str | None) -> tuple[str, str]:
    if inspect.isclass(value):
        kind = "error" if issubclass(value, Exception) else "class"
        return kind, first_sentence(inspect.getdoc(value))
    if callable(value):
        return "function", first_sentence(inspect.getdoc(value))
    return "value", first_sentence(note) or f"a {type(value).__name__}"


def _notes_on_values(room: ModuleType) -> dict[str, str]:
    """The strings that stand under assignments in a room's modules, by the name assigned."""
    notes = {}
    for module in pkgutil.walk_packages(room.__path__, f"{room.__name__}."):
        body = ast.parse(inspect.getsource(importlib.import_module(module.name))).body
        for above, below in pairwise(body):
            match above, below:
                case (
                    ast.Assign(targets=[ast.Name(id=name)])
                    | ast.AnnAssign(target=ast.Name(id=name)),
                    ast.Expr(value=ast.Constant(value=str(note))),
                ):
                    notes[name] = note
                case _:
                    pass
    return notes
