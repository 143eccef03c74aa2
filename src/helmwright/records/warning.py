"""The warning that is read aloud before a helmet is given out, in the room's own words.

The text is ours (common practice, no source); the maker's own warning, inside the helmet, goes
before it. A changed text is another version: what was acknowledged keeps the version it was read
in.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class WarningText:
    """One text in one language."""

    version: str
    language: str
    text: str


WARNING = WarningText(
    version="2026-1",
    language="en-US",
    text=(
        "No helmet prevents every head or neck injury. Never use the helmet to strike an opponent:"
        " it can cause brain injury, paralysis or death. Keep your head up. Read the warning label"
        " inside before you play, and do not play in a helmet without one. Tell the equipment"
        " manager when the helmet fits otherwise than today or a part is damaged. Tell the athletic"
        " trainer at once of a headache, dizziness, numbness, neck pain or anything unusual after a"
        " hit, and stop playing."
    ),
)
"""The text in force."""

CONSENT_TEXT = "1"
"""Version of the words that a guardian agrees to."""
