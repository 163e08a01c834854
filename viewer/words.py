"""What the user reads, in the language in force; English until another one is spoken.

The English sentence is the key. `say` looks it up where it is shown, in the catalogue
`resources/words/<language>.ts` (the TS format of Qt Linguist), and fills in the values with
numbers written in the language's manner. A table that is made before the language is known holds
plain English, marked with `later`, and is said where it is shown.
"""

import string
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from numbers import Number

from viewer.resource_files import resource_file

ENGLISH, GERMAN = "en", "de"
LANGUAGES = {ENGLISH: "English", GERMAN: "Deutsch"}
_SWAPPED_SIGNS = str.maketrans(",.", ".,")


class _Filler(string.Formatter):
    """Fills in values; numbers as `written`, all else as it is."""

    def format_field(self, value: object, spec: str) -> str:
        return written(value, spec) if isinstance(value, Number) else format(value, spec)


class _Spoken:
    """The language in force and its catalogue, English to translation."""

    def __init__(self) -> None:
        self.language = ENGLISH
        self.catalogue: dict[str, str] = {}


_SPOKEN = _Spoken()
_MEANWHILE: ContextVar[_Spoken | None] = ContextVar("another language meanwhile", default=None)
_FILLER = _Filler()


def speak(language: str) -> None:
    """Speak one of LANGUAGES from now on; English for any other."""
    _learn(_SPOKEN, language)


@contextmanager
def speaking(language: str) -> Iterator[None]:
    """Speak another language in this thread alone, as long as the block runs."""
    meanwhile = _Spoken()
    _learn(meanwhile, language)
    token = _MEANWHILE.set(meanwhile)
    try:
        yield
    finally:
        _MEANWHILE.reset(token)


def _learn(spoken: _Spoken, language: str) -> None:
    spoken.language = language if language in LANGUAGES else ENGLISH
    spoken.catalogue = {} if spoken.language == ENGLISH else read_catalogue(spoken.language)


def _now() -> _Spoken:
    return _MEANWHILE.get() or _SPOKEN


def spoken_language() -> str:
    """The language in force, a key of LANGUAGES."""
    return _now().language


def say(english: str, **values: object) -> str:
    """The sentence in the language in force, its fields such as {name:.1f} filled with `values`.

    A sentence that the catalogue lacks stays English. Without values braces are left alone.
    """
    sentence = _now().catalogue.get(english, english)
    return _FILLER.vformat(sentence, (), values) if values else sentence


def later(english: str) -> str:
    """The same text: marks what a table holds in English and `say` shows in time."""
    return english


def written(value: object, spec: str = "") -> str:
    """A number as format(value, spec) writes it, with the signs of the language in force."""
    text = format(value, spec)
    return text.translate(_SWAPPED_SIGNS) if _now().language == GERMAN else text


def read_catalogue(language: str) -> dict[str, str]:
    """The finished entries of a catalogue, English to translation."""
    root = ElementTree.parse(resource_file(f"words/{language}.ts")).getroot()
    found = {}
    for message in root.iter("message"):
        translation = message.find("translation")
        if translation.text and translation.get("type") is None:
            found[message.findtext("source")] = translation.text
    return found
