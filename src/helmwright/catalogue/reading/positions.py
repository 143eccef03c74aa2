"""On which line of a TOML text each key and each value stands.

The standard parser gives values without positions. This scanner walks a text that the parser has
already accepted, so it needs to know where things end, not whether they are right.
"""

import re
import tomllib
from bisect import bisect_right

Path = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|' + r"'''.*?'{3,5}|" + r'"(?:[^"\\]|\\.)*"|' + r"'[^']*'",
    re.DOTALL,
)
_PLAIN = re.compile(r"[^,\]}#\n]*")


def line_index(text: str) -> dict[Path, int]:
    """Line, from 1, of every table, key and list item of a valid TOML text.

    A path names tables and keys by their words and items of lists by their place from 0:
    ``("shell", 2, "chart", 0)`` is the first item of `chart` in the third ``[[shell]]``.
    """
    return _Scanner(text).scan()


class _Scanner:
    """A place in the text, and the lines found so far."""

    def __init__(self, text: str) -> None:
        self.text = text.replace("\r\n", "\n")
        self.at = 0
        self.starts = [0, *(found.end() for found in re.finditer("\n", self.text))]
        self.lines: dict[Path, int] = {}
        self.repeats: dict[Path, int] = {}

    def scan(self) -> dict[Path, int]:
        """Walk the whole text."""
        prefix: Path = ()
        self.pass_over(_BLANK)
        while self.at < len(self.text):
            prefix = self.header() if self.here("[") else prefix
            self.pass_over(_BLANK)
            while self.at < len(self.text) and not self.here("["):
                self.pair(prefix)
                self.pass_over(_BLANK)
        return self.lines

    def here(self, mark: str) -> bool:
        """Whether `mark` stands at the present place."""
        return self.text.startswith(mark, self.at)

    def pass_over(self, pattern: re.Pattern[str]) -> str:
        """Step past what the pattern matches here, and return it."""
        found = pattern.match(self.text, self.at)
        if found is None:
            raise ValueError(f"no {pattern.pattern} at character {self.at}")
        self.at = found.end()
        return found.group()

    def mark(self, path: Path) -> None:
        """Note the present line for a path, unless an earlier one named it."""
        self.lines.setdefault(path, bisect_right(self.starts, self.at))

    def header(self) -> Path:
        """Step past ``[a.b]`` or ``[[a.b]]`` and return the path that it opens."""
        repeated = self.here("[[")
        began = self.at
        self.at += 2 if repeated else 1
        words = self.key()
        after = self.at
        self.at = began
        path = self.opened(words, repeated=repeated)
        self.at = after + (2 if repeated else 1)
        return path

    def opened(self, words: list[str], *, repeated: bool) -> Path:
        """Path of a header's words, counting the repeats of ``[[tables]]``."""
        path: Path = ()
        for place, word in enumerate(words):
            path = (*path, word)
            self.mark(path)
            if repeated and place == len(words) - 1:
                self.repeats[path] = self.repeats.get(path, -1) + 1
            if path in self.repeats:
                path = (*path, self.repeats[path])
                self.mark(path)
        return path

    def key(self) -> list[str]:
        """Step past a key, dotted or not, and return its words."""
        words = []
        while True:
            self.pass_over(_SPACE)
            quoted = self.here('"') or self.here("'")
            raw = self.pass_over(_STRING if quoted else _BARE_KEY)
            words.append(next(iter(tomllib.loads(f"{raw} = 0"))) if quoted else raw)
            self.pass_over(_SPACE)
            if not self.here("."):
                return words
            self.at += 1

    def pair(self, prefix: Path) -> None:
        """Step past ``key = value``."""
        began = self.at
        words = self.key()
        after, self.at = self.at, began
        path = prefix
        for word in words:
            path = (*path, word)
            self.mark(path)
        self.at = after + 1
        self.pass_over(_SPACE)
        self.value(path)

    def value(self, path: Path) -> None:
        """Step past one value, noting what is inside it."""
        if self.here('"') or self.here("'"):
            self.pass_over(_STRING)
        elif self.here("["):
            self.items(path)
        elif self.here("{"):
            self.inline(path)
        else:
            self.pass_over(_PLAIN)

    def items(self, path: Path) -> None:
        """Step past ``[a, b]``."""
        self.at += 1
        self.pass_over(_BLANK)
        place = 0
        while not self.here("]"):
            self.mark((*path, place))
            self.value((*path, place))
            self.comma()
            place += 1
        self.at += 1

    def inline(self, path: Path) -> None:
        """Step past ``{a = 1, b = 2}``."""
        self.at += 1
        self.pass_over(_BLANK)
        while not self.here("}"):
            self.pair(path)
            self.comma()
        self.at += 1

    def comma(self) -> None:
        """Step past the blanks and the comma after an item, if there is one."""
        self.pass_over(_BLANK)
        if self.here(","):
            self.at += 1
            self.pass_over(_BLANK)
