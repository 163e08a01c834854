"""Takes out of a text what could tell of a client's part: names of files, quoted words, figures."""

import re
import traceback
from pathlib import Path

from viewer.errors import ShowsideError

# In this order: quoted words first, as they may hold anything.
_QUOTED = re.compile(r"“[^”]*”|„[^“]*“|\"[^\"]*\"|'[^']*'|`[^`]*`|«[^»]*»")
_ADDRESS = re.compile(r"\S*[/\\]\S*")  # a path, from the first sign to the next space
_FILE = re.compile(r"\S+\.[A-Za-z][A-Za-z0-9]{1,5}\b")  # name.suffix
_BYTES = re.compile(r"\b0[xX][0-9a-fA-F]+\b")
_FIGURE = re.compile(r"[-+]?\d[\d.,]*(?:[eE][-+]?\d+)?")
_SEVERAL = re.compile(r"…(?: …)+")
_MOST_SIGNS = 400
# Their words hold what was looked up or who knows what, not what went wrong.
WORDLESS = (KeyError, SystemExit, KeyboardInterrupt, UnicodeError, ShowsideError)


def masked(text: str) -> str:
    """The same words with … for what is quoted and for names of files, # for figures."""
    for pattern, instead in (
        (_QUOTED, "…"), (_ADDRESS, "…"), (_FILE, "…"), (_BYTES, "#"), (_FIGURE, "#"),
    ):  # fmt: skip
        text = pattern.sub(instead, text)
    return _SEVERAL.sub("…", " ".join(text.split()))[:_MOST_SIGNS]


def told_error(error: BaseException) -> str:
    """Kind and place of an error, and of the one it came from, without a word of the part."""
    lines = []
    earlier = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    if earlier is not None:
        lines += [told_error(earlier), "which led to"]
    for frame in traceback.extract_tb(error.__traceback__):
        lines.append(f"  {short_path(frame.filename)}, line {frame.lineno}, in {frame.name}")
    lines.append(f"{type(error).__name__}: {_told_words(error)}".rstrip(": "))
    return "\n".join(lines)


def _told_words(error: BaseException) -> str:
    if isinstance(error, WORDLESS):
        return ""
    if isinstance(error, OSError):
        return masked(error.strerror or "")
    return masked(str(error))


def short_path(path: str) -> str:
    """A path from its package on; what stands above it may name the user."""
    parts = Path(path).parts
    for start in ("viewer", "site-packages"):
        if start in parts[:-1]:
            at = len(parts) - 1 - parts[::-1].index(start)
            return "/".join(parts[at + (start == "site-packages") :])
    return parts[-1] if parts else path
