"""The model sheets that the package carries, all of them invented."""

from importlib import resources

from helmwright.catalogue.reading import parse_sheet
from helmwright.catalogue.sheet import ModelSheet

_MODELS = resources.files("helmwright.catalogue") / "models"


def packaged_models() -> tuple[str, ...]:
    """Names of the model sheets in the package, in alphabetical order."""
    files = (file.name for file in _MODELS.iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in files if name.endswith(".toml")))


def packaged_text(name: str) -> str:
    """The text of a packaged sheet, to be copied and changed.

    Raises
    ------
    KeyError
        Where the package has no such sheet.
    """
    if name not in packaged_models():
        known = ", ".join(packaged_models())
        raise KeyError(f"there is no model sheet {name!r} in the package; there is: {known}")
    return (_MODELS / f"{name}.toml").read_text(encoding="utf-8")


def load_packaged(name: str) -> ModelSheet:
    """A packaged sheet, read and checked.

    Raises
    ------
    KeyError
        Where the package has no such sheet.
    """
    return parse_sheet(packaged_text(name), name=f"{name}.toml")
