"""Every figure that the package holds at module level, and every source it names."""

import ast
import importlib
import inspect
import pkgutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass
from types import ModuleType

import helmwright
from helmwright.sources import Figure, Source, fit_checks, records, standards

RECORD_MODULES = (records, fit_checks, standards)
"""The modules that hold the source records."""


@dataclass(frozen=True, slots=True)
class Use:
    """One place in the code that leans on a source; `figure` is None where it is no number."""

    place: str
    source: Source
    figure: Figure | None


def all_records() -> dict[str, Source]:
    """The source records by key; ValueError where two share one."""
    found: dict[str, Source] = {}
    named = (value for module in RECORD_MODULES for value in vars(module).values())
    for source in (value for value in named if isinstance(value, Source)):
        if found.setdefault(source.key, source) is not source:
            raise ValueError(f"two source records share the key {source.key}")
    return found


def uses() -> list[Use]:
    """Every use of a source by a module-level value, in the order of modules and names."""
    seen: set[int] = set()
    found: list[Use] = []
    for module in _modules():
        for name in _assigned_names(module):
            place = f"{module.__name__}.{name}".removeprefix("helmwright.")
            found.extend(_uses_in(vars(module)[name], place, seen))
    return found


def _modules() -> Iterator[ModuleType]:
    recorded = {module.__name__ for module in RECORD_MODULES}
    for module in pkgutil.walk_packages(helmwright.__path__, "helmwright."):
        if module.name not in recorded:
            yield importlib.import_module(module.name)


def _assigned_names(module: ModuleType) -> list[str]:
    """Names that a module assigns itself, so that an import is not taken for a second figure."""
    names = []
    for statement in ast.parse(inspect.getsource(module)).body:
        match statement:
            case ast.Assign(targets=[ast.Name(id=name)]) | ast.AnnAssign(target=ast.Name(id=name)):
                names.append(name)
            case _:
                pass
    return [name for name in names if name in vars(module)]


def _uses_in(value: object, place: str, seen: set[int]) -> Iterator[Use]:
    """Uses inside a value; one that stands in two tables is told where it is met first."""
    if isinstance(value, Source):
        yield Use(place, value, None)
    elif id(value) not in seen:
        seen.add(id(value))
        yield from _uses_in_new(value, place, seen)


def _uses_in_new(value: object, place: str, seen: set[int]) -> Iterator[Use]:
    match value:
        case Figure():
            yield Use(place, value.source, value)
        case type():
            return
        case Mapping():
            for key, item in value.items():
                yield from _uses_in(item, f"{place}[{key}]", seen)
        case list() | tuple():
            for index, item in enumerate(value):
                label = getattr(item, "key", index)
                yield from _uses_in(item, f"{place}[{label}]", seen)
        case _ if is_dataclass(value):
            for field in fields(value):
                yield from _uses_in_field(field.name, getattr(value, field.name), place, seen)
        case _:
            return


def _uses_in_field(name: str, value: object, place: str, seen: set[int]) -> Iterator[Use]:
    if name == "source":
        yield from _uses_in(value, place, seen)
    elif name == "sources" and isinstance(value, tuple):
        for key in value:
            yield Use(place, all_records()[key], None)
    else:
        yield from _uses_in(value, f"{place}.{name}", seen)
