"""Read STL, the triangle list without a unit (Burns, Automated Fabrication, section 6.5).

Binary STL is an 80-byte header, a count, and 50 bytes for each triangle. Many binary files begin
with "solid" like text files do, and counts lie; so the size of the file decides, never the words.
"""

from pathlib import Path

import numpy as np

from viewer.errors import NothingToPrint, UnreadableFile
from viewer.files.raw_mesh import RawMesh
from viewer.files.stl_text import read_stl_text
from viewer.progress import Progress
from viewer.words import say

HEADER_BYTES, FACET_BYTES = 84, 50
FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def read_stl(path: Path, data: np.ndarray, progress: Progress) -> RawMesh:
    """Triangles of a binary or text STL from its bytes ((size,) uint8).

    Raises UnreadableFile (cut off, neither kind), NothingToPrint, Cancelled.
    """
    announced = int(data[80:84].view("<u4")[0]) if len(data) >= HEADER_BYTES else -1
    is_exactly_binary = HEADER_BYTES + FACET_BYTES * announced == len(data)
    if not is_exactly_binary and _looks_like_text(data):
        return read_stl_text(path, data, progress)
    if announced < 0:
        if len(data) == 80:
            raise NothingToPrint(
                say("{name} is an STL header without triangles. Export it again.", name=path.name)
            )
        raise UnreadableFile(
            say("{name} is not an STL file. Check that it was exported as STL.", name=path.name)
        )
    return _read_binary(path, data, announced)


def _looks_like_text(data: np.ndarray) -> bool:
    """Whether the file starts as text STL does: readable bytes with one of its key words."""
    start = data[:2000].tobytes()
    if start.count(b"\0") > 2:
        return False
    start = start.lower()
    return b"solid" in start or b"facet" in start


def _read_binary(path: Path, data: np.ndarray, announced: int) -> RawMesh:
    there = (len(data) - HEADER_BYTES) // FACET_BYTES
    if announced == 0:
        raise NothingToPrint(
            say("{name} holds no triangles. Export the part again.", name=path.name)
        )
    if announced > there:
        raise UnreadableFile(
            say(
                "{name} is cut off: {there:,} of {announced:,} triangles are there. "
                "Ask for the file again.",
                name=path.name,
                there=there,
                announced=announced,
            )
        )
    body = data[HEADER_BYTES : HEADER_BYTES + FACET_BYTES * announced]
    corners = np.ascontiguousarray(body.view(FACET)["corners"]).reshape(-1, 3)
    surplus = len(data) - HEADER_BYTES - len(body)
    notes = ()
    if surplus:
        plural = say("byte follows") if surplus == 1 else say("bytes follow")
        notes = (
            say(
                "{surplus:,} {plural} the last triangle of the file and were left out.",
                surplus=surplus,
                plural=plural,
            ),
        )
    return RawMesh(corners, notes=notes)
