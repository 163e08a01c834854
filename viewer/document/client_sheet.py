"""What a client gets to see and signs, as plain text in the language in force.

Every text is said already; whoever writes it as HTML or onto pages only sets it.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class SheetPicture:
    """One picture: the name under which it is drawn, what it shows, and for those who hear it."""

    name: str
    caption: str
    alt: str


@dataclass(frozen=True)
class SheetTable:
    """Rows of text; the first cell of each names it."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True)
class SheetSection:
    """A heading with sentences, then points of a list, then a table; any of them may be empty."""

    title: str
    sentences: tuple[str, ...] = ()
    points: tuple[str, ...] = ()
    table: SheetTable | None = None


@dataclass(frozen=True)
class SheetSigner:
    """Who signs, and the labels of the lines to be filled in."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class ClientSheet:
    """The whole sheet.

    language : a key of `words.LANGUAGES`; company, client : "" where they are not known
    intro : what this is, in one or two sentences; rows : pictures, side by side
    legend : what the colours stand for, in words
    shown, told : what stands beside the pictures, and what follows them
    agreement : what is agreed to; signers : under it
    """

    language: str
    title: str
    part: str
    company: str
    client: str
    date: str
    intro: str
    rows: tuple[tuple[SheetPicture, ...], ...]
    legend: str
    shown: tuple[SheetSection, ...]
    told: tuple[SheetSection, ...]
    agreement: SheetSection
    signers: tuple[SheetSigner, ...]
