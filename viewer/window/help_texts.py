"""The pages of the help as texts: titles, sections, and a search through all of them."""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from viewer.resource_files import resource_file
from viewer.window.mouse_words import MOUSE
from viewer.words import ENGLISH, later, say, spoken_language

MOUSE_PAGE = "mouse-and-keys.md"
PAGES = {
    "first-steps.md": later("First steps"),
    MOUSE_PAGE: later("Mouse and keys"),
    "how-it-mends.md": later("How it mends"),
    "how-it-marks.md": later("How marking works"),
    "how-it-measures.md": later("How it measures"),
    "how-it-searches.md": later("How it searches directions"),
    "how-it-compares.md": later("How comparing works"),
    "how-it-reckons.md": later("How the shop reckons"),
    "how-it-cuts.md": later("How pieces are cut"),
    "how-it-learns.md": later("How trials teach"),
    "how-it-hands-over.md": later("Client sheet and pack"),
    "the-program.md": later("Settings, files and what goes wrong"),
}
TITLE_WEIGHT = 8.0  # a word in a section's title, against one in its text
_HEADING = re.compile(r"^#{1,3} +(.+)$")
_SIGNS = re.compile(r"[*_`|]+")
_WORD = re.compile(r"\w+")


@dataclass(frozen=True)
class Section:
    """A heading and the text below it, up to the next heading.

    page : a key of PAGES; number : of the heading within its page, from 0
    """

    page: str
    number: int
    title: str
    text: str


def page_markdown(page: str, language: str | None = None) -> str:
    """A page in the language in force, in English where it is not translated yet."""
    language = language or spoken_language()
    if page != MOUSE_PAGE:
        return _page_file(page, language).read_text(encoding="utf-8")
    tell = say if language == spoken_language() else str
    rows = "".join(f"| {_cell(tell(what))} | {_cell(tell(does))} |\n" for what, does in MOUSE)
    return f"# {tell(PAGES[page])}\n\n| | |\n|---|---|\n{rows}"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _page_file(page: str, language: str) -> Path:
    try:
        return resource_file(f"help/{language}/{page}")
    except FileNotFoundError:
        return resource_file(f"help/{page}")


@cache
def all_sections(language: str) -> tuple[Section, ...]:
    """Every section of every page in a language."""
    return tuple(section for page in PAGES for section in _sections(page, language))


def _sections(page: str, language: str) -> list[Section]:
    found: list[Section] = []
    title, lines = "", []

    def finish() -> None:
        if title:
            text = " ".join(" ".join(lines).split())
            found.append(Section(page, len(found), title, text))

    for line in page_markdown(page, language).splitlines():
        heading = _HEADING.match(line)
        if heading is None:
            lines.append(_SIGNS.sub("", line))
            continue
        finish()
        title, lines = _SIGNS.sub("", heading[1]), []
    finish()
    return found


def section_number(page: str, english_title: str) -> int:
    """The number of the heading that English calls `english_title`; 0 for "", the page's top.

    Raises ValueError when the page has no such heading.
    """
    if not english_title:
        return 0
    titles = [one.title for one in all_sections(ENGLISH) if one.page == page]
    return titles.index(english_title)


def search(words: str) -> list[Section]:
    """The sections that have all the words, those first that have them most or in their title.

    A word is found within a longer one as well, which finds compounds of German.
    """
    wanted = _WORD.findall(words.lower())
    if not wanted:
        return []
    scored = []
    for section in all_sections(spoken_language()):
        title = section.title.lower()
        text = section.text.lower()
        weights = [TITLE_WEIGHT * title.count(word) + text.count(word) for word in wanted]
        if all(weights):
            whole = sum(_whole(word, title, text) for word in wanted)
            scored.append((-sum(weights) - whole, len(scored), section))
    return [section for *_, section in sorted(scored, key=lambda one: one[:2])]


def _whole(word: str, title: str, text: str) -> float:
    """Something on top for a word that stands alone."""
    return 2.0 if re.search(rf"\b{re.escape(word)}\b", f"{title} {text}") else 0.0
