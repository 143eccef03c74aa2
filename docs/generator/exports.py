"""The page of exports: what each room offers to the rooms above it."""

import importlib
import inspect
import pkgutil

import helmwright
from docs.generator.markdown import document, first_sentence, table

INTRODUCTION = """\
Each room offers what its `__all__` names; all else inside a room is its own affair and may change
without notice."""


def page() -> str:
    """Every room with what it offers."""
    return document("Exports", INTRODUCTION, *map(_room, rooms()))


def rooms() -> list[str]:
    """The names of the rooms, in alphabetical order."""
    return sorted(
        f"helmwright.{module.name}" for module in pkgutil.iter_modules(helmwright.__path__)
    )


def _room(name: str) -> str:
    room = importlib.import_module(name)
    rows = [(f"`{export}`", *_described(getattr(room, export))) for export in room.__all__]
    return f"## {name}\n\n{room.__doc__}\n\n{table(('name', 'kind', 'what it is'), rows)}"


def _described(value: object) -> tuple[str, str]:
    if inspect.isclass(value):
        return ("error" if issubclass(value, Exception) else "class"), _says(value)
    if callable(value):
        return "function", _says(value)
    return "value", f"a {type(value).__name__}"


def _says(value: object) -> str:
    return first_sentence(inspect.getdoc(value))
