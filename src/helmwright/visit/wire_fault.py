"""What is wrong with a line, where in it, and what would be right."""

from typing import Any

from pydantic import ValidationError

_KINDS = {
    "string_type": "a text",
    "float_type": "a number",
    "int_type": "a whole number",
    "bool_type": "true or false",
    "tuple_type": "a list",
    "model_type": "an object",
    "model_attributes_type": "an object",
    "finite_number": "a finite number",
}
"""What a field should be, by pydantic's word for what it is not."""


class WireError(ValueError):
    """An object that is no event or message, or that the model sheet does not allow.

    Parameters
    ----------
    wrong
        What is wrong.
    where
        Which field; empty for the object as a whole.
    right
        What would be right.
    """

    def __init__(self, wrong: str, where: str = "", right: str = "") -> None:
        self.wrong, self.where, self.right = wrong, where, right
        told = f"{where}: {wrong}" if where else wrong
        super().__init__(f"{told}; {right}" if right else told)


def first_fault(error: ValidationError, tag: str) -> WireError:
    """The first thing that pydantic found, in plain words; `tag` is the field that names kinds."""
    found = error.errors(include_url=False, include_input=True)[0]
    kind, value = found["type"], found.get("input")
    if kind.startswith("union_tag"):
        return _untagged(found, tag)
    # The first step is the kind within the union, which no line has as a field.
    where = _where(found["loc"][1:])
    if kind == "extra_forbidden":
        return WireError("this field is not known here", where, "leave it out")
    if kind == "missing":
        return WireError("this field is missing", where, "add it")
    said = _KINDS.get(kind) or found["msg"].removeprefix("Input should be ")
    return WireError(f"{_shown(value)} will not do", where, f"it should be {said}")


def _untagged(found: Any, tag: str) -> WireError:
    if found["type"] == "union_tag_not_found":
        return WireError("this field is missing", tag, f'say which {tag} this is, "{tag}": ...')
    context = found.get("ctx", {})
    known = str(context.get("expected_tags", "")).replace("'", "")
    return WireError(f'"{context.get("tag")}" is no {tag}', tag, f"there are {known}")


def _where(path: tuple[int | str, ...]) -> str:
    """Fields and places, from 1, as a person counts: "pads 3, pad"."""
    words: list[str] = []
    for step in path:
        if isinstance(step, int) and words:
            words[-1] += f" {step + 1}"
        else:
            words.append(str(step))
    return ", ".join(words)


def _shown(value: Any) -> str:
    text = repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
