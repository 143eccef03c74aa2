"""Write the generated pages, or with --check say which are out of date."""

import os
import sys

import django

from docs.generator import dialogue
from docs.generator.pages import REFERENCE, pages, stale


def main(words: list[str]) -> int:
    """Write or check, and return the exit status."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "helmwright.config.settings")
    django.setup()
    if words == ["--check"]:
        old = stale()
        for name in old:
            print(f"docs/reference/{name} is out of date; 'python3 start.py docs' writes it anew.")
        return 1 if old else 0
    for name, text in pages().items():
        (REFERENCE / name).write_text(text, encoding="utf-8", newline="\n")
    worked = REFERENCE / dialogue.PAGE
    fresh = dialogue.refreshed(worked.read_text(encoding="utf-8"))
    worked.write_text(fresh, encoding="utf-8", newline="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
