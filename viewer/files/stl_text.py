"""Read text STL: key words in any case, any line ends, comments, several solids, odd names."""

from pathlib import Path

import numpy as np

from viewer.errors import UnreadableFile
from viewer.files.number_text import (
    DECIMAL_COMMA,
    read_number,
    skip_line,
    skip_space,
    skip_word,
    word,
    word_is,
)
from viewer.files.raw_mesh import RawMesh
from viewer.geometry.compiled import compiled
from viewer.progress import Progress
from viewer.words import say

_CHUNK = 4_000_000  # bytes of text between two looks at the progress token, about 30 ms
_SHORTEST_VERTEX = len("vertex 0 0 0 ")

_SOLID, _END_SOLID = word("solid"), word("endsolid")
_FACET, _END_FACET, _VERTEX = word("facet"), word("endfacet"), word("vertex")

# What the kernel keeps between chunks.
_CORNERS, _FACETS, _IN_FACET, _FACET_START, _OPEN_SOLIDS, _COMMAS, _BAD_FACET = range(7)


@compiled
def _end_facet(state):
    """Close the facet that is open, if one is; note the first that is no triangle."""
    if state[_IN_FACET] == 0:
        return
    state[_IN_FACET] = 0
    state[_FACETS] += 1
    if state[_CORNERS] - state[_FACET_START] != 3 and state[_BAD_FACET] == 0:
        state[_BAD_FACET] = state[_FACETS]


@compiled
def _read_corner(data, pos, corners, state):
    """Read the three numbers of a corner; returns the first byte after them.

    The array has room for every corner that has three numbers; when it is full, some had fewer.
    """
    if state[_CORNERS] >= len(corners):
        state[_BAD_FACET] = state[_FACETS] + 1
        return len(data)
    for axis in range(3):
        value, pos, found = read_number(data, pos, len(data))
        corners[state[_CORNERS], axis] = value
        state[_COMMAS] += found == DECIMAL_COMMA
    state[_CORNERS] += 1
    return pos


@compiled
def _read_chunk(data, pos, limit, corners, state):
    """Read words from `pos` until one starts at `limit` or later; returns where it stopped."""
    end = len(data)
    while True:
        pos = skip_space(data, pos, end)
        if pos >= limit:
            return pos
        start = pos
        pos = skip_word(data, pos, end)
        if data[start] == 35:  # '#'
            pos = skip_line(data, start, end)
        elif word_is(data, start, pos, _VERTEX) and state[_IN_FACET]:
            pos = _read_corner(data, pos, corners, state)
        elif word_is(data, start, pos, _FACET):
            _end_facet(state)
            state[_IN_FACET], state[_FACET_START] = 1, state[_CORNERS]
        elif word_is(data, start, pos, _END_FACET):
            _end_facet(state)
        elif word_is(data, start, pos, _SOLID):
            _end_facet(state)
            state[_OPEN_SOLIDS] += 1
            pos = skip_line(data, start, end)  # a name may hold key words
        elif word_is(data, start, pos, _END_SOLID):
            _end_facet(state)
            state[_OPEN_SOLIDS] -= 1
            pos = skip_line(data, start, end)


def read_stl_text(path: Path, data: np.ndarray, progress: Progress) -> RawMesh:
    """Triangles of a text STL from its bytes ((size,) uint8).

    Raises UnreadableFile (cut off, facets that are no triangles, decimal commas), Cancelled.
    """
    corners = np.empty((len(data) // _SHORTEST_VERTEX + 2, 3))
    state = np.zeros(7, np.int64)
    pos = 3 if data[:3].tobytes() == b"\xef\xbb\xbf" else 0
    while pos < len(data):
        pos = _read_chunk(data, pos, min(pos + _CHUNK, len(data)), corners, state)
        progress.report(pos / len(data), "Reading the triangles")
    if state[_COMMAS]:
        raise UnreadableFile(
            say(
                "{name} is written with decimal commas, which STL does not know. "
                "Export it again with decimal points.",
                name=path.name,
            )
        )
    if state[_BAD_FACET]:
        raise UnreadableFile(
            say(
                "{name} is damaged: its facet {state:,} does not have three corners. "
                "Export it again.",
                name=path.name,
                state=state[_BAD_FACET],
            )
        )
    if state[_IN_FACET]:
        raise UnreadableFile(
            say(
                "{name} is cut off: it ends within triangle {state:,}. Ask for the file again.",
                name=path.name,
                state=state[_FACETS] + 1,
            )
        )
    notes = ()
    if state[_OPEN_SOLIDS] > 0 and state[_FACETS]:
        notes = (say("The file lacks its closing line; the triangles before it were all read."),)
    return RawMesh(corners[: state[_CORNERS]], notes=notes)
