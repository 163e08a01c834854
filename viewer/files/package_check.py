"""Look through a 3MF package before anything is built from it.

A package is a zip file from a stranger: a few kilobytes can claim to unpack to gigabytes, and XML
can define entities that grow without end. Nothing is ever written to disk under a name from the
package.
"""

import io
import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import IO

import numpy as np

from viewer.errors import UnreadableFile
from viewer.files.component_count import Key, components_of, most_copies
from viewer.progress import Progress
from viewer.words import say

MOST_ENTRIES = 10_000
MOST_UNPACKED_BYTES = 4_000_000_000
MOST_COPIES = 100_000
MOST_RATIO = 200  # meshes as XML pack about 5 to 40 times
RATIO_MATTERS_FROM_BYTES = 50_000_000

# What Python's zip reader raises on damaged packages, besides its own error.
BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    OSError,
    RuntimeError,
    ValueError,
    struct.error,
)

_BLOCK = 4_000_000
_XML_SUFFIXES = (".model", ".rels", ".xml")


def open_package(path: Path, data: np.ndarray, progress: Progress) -> zipfile.ZipFile:
    """The package in `data` ((size,) uint8) once all its parts have been looked through.

    Raises UnreadableFile (no zip, cut off, too large unpacked, DOCTYPE, no model inside),
    Cancelled.
    """
    try:
        package = zipfile.ZipFile(io.BytesIO(memoryview(data)))
        entries = package.infolist()
    except BROKEN as error:
        # A true zip file goes on with the version of zip it needs, a small number.
        if data[:4].tobytes() == b"PK\x03\x04" and len(data) > 5 and data[4] < 100 and data[5] == 0:
            raise UnreadableFile(
                say("{name} is cut off. Ask for the file again.", name=path.name)
            ) from error
        raise UnreadableFile(
            say("{name} is not a 3MF package. Check that it was exported as 3MF.", name=path.name)
        ) from error
    _refuse_bombs(path, entries)
    if not any(entry.filename.lower().endswith(".model") for entry in entries):
        raise UnreadableFile(
            say("{name} has no 3D model inside. Export the part again.", name=path.name)
        )
    total = sum(entry.file_size for entry in entries) or 1
    done, components = 0, {}
    for entry in entries:
        try:
            with package.open(entry) as stream:
                mentions, size = 0, 0
                for block in _blocks(path, entry, stream):
                    size += len(block)
                    mentions += block.count(b"component")
                    progress.report((done + size) / total, "Looking through the package")
                done += size
            if size != entry.file_size:
                raise zipfile.BadZipFile("the size is not the one declared")
            if mentions and entry.filename.lower().endswith(".model"):
                components |= components_of(entry.filename, package.read(entry), progress)
        except BROKEN as error:
            raise UnreadableFile(
                say(
                    "{name} is damaged: a part of the package cannot be unpacked. Ask for "
                    "the file again.",
                    name=path.name,
                )
            ) from error
    _refuse_repetition(path, components)
    return package


def _refuse_bombs(path: Path, entries: list[zipfile.ZipInfo]) -> None:
    unpacked = sum(entry.file_size for entry in entries)
    swollen = any(
        entry.file_size > RATIO_MATTERS_FROM_BYTES
        and entry.file_size > MOST_RATIO * max(entry.compress_size, 1)
        for entry in entries
    )
    if len(entries) > MOST_ENTRIES or unpacked > MOST_UNPACKED_BYTES or swollen:
        raise UnreadableFile(
            say(
                "{name} would unpack to {unpacked:,.0f} MB in {entries:,} parts, far "
                "more than a part needs; it was not opened. Ask for a plain export.",
                name=path.name,
                unpacked=unpacked / 1000000.0,
                entries=len(entries),
            )
        )


def _blocks(path: Path, entry: zipfile.ZipInfo, stream: IO[bytes]) -> Iterator[bytes]:
    """Unpack one entry block by block; the reader stops at the declared size and checks the CRC."""
    is_xml = entry.filename.lower().endswith(_XML_SUFFIXES)
    tail = b""
    while block := stream.read(_BLOCK):
        if is_xml and b"<!DOCTYPE" in tail + block:
            raise UnreadableFile(
                say(
                    "{name} defines its own XML rules (a DOCTYPE), which 3MF forbids; it "
                    "was not opened. Ask for a plain export.",
                    name=path.name,
                )
            )
        tail = block[-8:]
        yield block


def _refuse_repetition(path: Path, components: dict[Key, list[Key]]) -> None:
    copies = most_copies(components)
    if copies > MOST_COPIES:
        raise UnreadableFile(
            say(
                "{name} repeats its objects {copies:,} times, more than can be worked "
                "with. Ask for a plain export of the part.",
                name=path.name,
                copies=copies,
            )
        )
