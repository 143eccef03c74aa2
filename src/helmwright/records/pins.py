"""What may be a PIN."""

SHORTEST, LONGEST = 4, 8

_RUNS = ("01234567890", "09876543210")


class WeakPinError(ValueError):
    """The digits are no PIN, or one of the first that anybody would try."""


def checked_pin(digits: str) -> str:
    """The PIN, where it may be one.

    Raises
    ------
    WeakPinError
        For anything else; the message says what would be right.
    """
    if not (digits.isascii() and digits.isdigit() and SHORTEST <= len(digits) <= LONGEST):
        raise WeakPinError(f"A PIN has {SHORTEST} to {LONGEST} digits and nothing else.")
    if len(set(digits)) == 1 or any(digits in run for run in _RUNS) or _repeats(digits):
        raise WeakPinError(
            "That is one of the first PINs that anybody would try. Take digits that are not all"
            " the same, not in a row and not a pair repeated."
        )
    return digits


def _repeats(digits: str) -> bool:
    return any(digits == digits[:n] * (len(digits) // n) for n in (1, 2))
