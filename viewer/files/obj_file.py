"""Read OBJ: corners and polygons only. Materials, curves, lines and groups are passed over, and
no other file that an OBJ names is ever opened."""

from pathlib import Path

import numpy as np

from viewer.errors import UnreadableFile
from viewer.files.number_text import (
    DECIMAL_COMMA,
    is_blank,
    is_line_end,
    read_number,
    skip_blanks,
    skip_line,
    skip_space,
    skip_word,
)
from viewer.files.polygon_mesh import raw_mesh_of_polygons
from viewer.files.raw_mesh import RawMesh
from viewer.geometry.compiled import compiled
from viewer.progress import Progress
from viewer.words import say

_CHUNK = 4_000_000  # bytes of text between two looks at the progress token, about 30 ms

# What the kernels keep between chunks.
_VERTICES, _POLYGONS, _CORNERS, _COMMAS = range(4)


@compiled
def _starts_with_letter(data, pos, end, letter):
    """Whether the word at `pos` is the single letter `letter` ("v", not "vn")."""
    return data[pos] == letter and (
        pos + 1 >= end or is_blank(data[pos + 1]) or is_line_end(data[pos + 1])
    )


@compiled
def _count_chunk(data, pos, limit, counts):
    """Count vertices, polygons and their corners in the lines that start before `limit`."""
    end = len(data)
    while True:
        pos = skip_space(data, pos, end)
        if pos >= limit:
            return pos
        if _starts_with_letter(data, pos, end, 118):
            counts[_VERTICES] += 1
        elif _starts_with_letter(data, pos, end, 102):
            counts[_POLYGONS] += 1
            pos = skip_blanks(data, pos + 1, end)
            while pos < end and not is_line_end(data[pos]) and data[pos] != 35:
                counts[_CORNERS] += 1
                pos = skip_blanks(data, skip_word(data, pos, end), end)
        pos = skip_line(data, pos, end)


@compiled
def _corner_index(data, pos, vertices_so_far):
    """0-based index from "7", "7/1", "7//3" or "-2"; −1 where it is illegal."""
    end = len(data)
    negative = data[pos] == 45
    if negative:
        pos += 1
    value, digits = np.int64(0), 0
    while pos < end and 48 <= data[pos] <= 57 and digits < 12:
        value = value * 10 + (data[pos] - 48)
        digits += 1
        pos += 1
    if digits == 0 or value == 0:
        return np.int64(-1)
    if pos < end and not (data[pos] == 47 or is_blank(data[pos]) or is_line_end(data[pos])):
        return np.int64(-1)
    index = vertices_so_far - value if negative else value - 1
    return index if 0 <= index < 2**31 - 1 else np.int64(-1)


@compiled
def _fill_chunk(data, pos, limit, positions, starts, corners, filled):
    """Read what `_count_chunk` counted."""
    end = len(data)
    while True:
        pos = skip_space(data, pos, end)
        if pos >= limit:
            return pos
        if _starts_with_letter(data, pos, end, 118):
            pos += 1
            for axis in range(3):
                value, pos, found = read_number(data, pos, end)
                positions[filled[_VERTICES], axis] = value
                filled[_COMMAS] += found == DECIMAL_COMMA
            filled[_VERTICES] += 1
        elif _starts_with_letter(data, pos, end, 102):
            pos = skip_blanks(data, pos + 1, end)
            while pos < end and not is_line_end(data[pos]) and data[pos] != 35:
                corners[filled[_CORNERS]] = _corner_index(data, pos, filled[_VERTICES])
                filled[_CORNERS] += 1
                pos = skip_blanks(data, skip_word(data, pos, end), end)
            filled[_POLYGONS] += 1
            starts[filled[_POLYGONS]] = filled[_CORNERS]
        pos = skip_line(data, pos, end)


def as_plain_text(path: Path, data: np.ndarray) -> np.ndarray:
    """The bytes without byte-order mark, UTF-16 turned into UTF-8."""
    start = data[:3].tobytes()
    if start == b"\xef\xbb\xbf":
        return data[3:]
    if start[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            text = data.tobytes().decode("utf-16")
        except UnicodeDecodeError as error:
            raise UnreadableFile(
                say("{name} starts as UTF-16 text but is damaged. Export it again.", name=path.name)
            ) from error
        return np.frombuffer(text.encode("utf-8"), np.uint8)
    return data


def _without_line_continuations(data: np.ndarray) -> np.ndarray:
    """A backslash at the end of a line joins it to the next: both become blanks."""
    at = np.flatnonzero(data == 92)
    if not len(at):
        return data
    joined = data.copy()
    for pos in at:
        stop = pos + 1
        while stop < len(data) and data[stop] in (32, 9):
            stop += 1
        if stop < len(data) and data[stop] == 13 and data[stop + 1 : stop + 2] == 10:
            stop += 1
        if stop < len(data) and data[stop] in (10, 13):
            joined[pos : stop + 1] = 32
    joined.flags.writeable = False
    return joined


def read_obj(path: Path, data: np.ndarray, progress: Progress) -> RawMesh:
    """Triangles of an OBJ from its bytes ((size,) uint8).

    Raises UnreadableFile (illegal corners, decimal commas), Cancelled.
    """
    data = _without_line_continuations(as_plain_text(path, data))
    size = max(len(data), 1)
    counts, pos = np.zeros(4, np.int64), 0
    while pos < len(data):
        pos = _count_chunk(data, pos, min(pos + _CHUNK, len(data)), counts)
        progress.report(0.2 * pos / size, "Counting the faces")
    positions = np.empty((counts[_VERTICES], 3))
    starts = np.zeros(counts[_POLYGONS] + 1, np.int64)
    corners = np.empty(counts[_CORNERS], np.int64)
    filled, pos = np.zeros(4, np.int64), 0
    while pos < len(data):
        pos = _fill_chunk(
            data, pos, min(pos + _CHUNK, len(data)), positions, starts, corners, filled
        )
        progress.report(0.2 + 0.5 * pos / size, "Reading the faces")
    if filled[_COMMAS]:
        raise UnreadableFile(
            say(
                "{name} is written with decimal commas, which OBJ does not know. "
                "Export it again with decimal points.",
                name=path.name,
            )
        )
    return raw_mesh_of_polygons(path, positions, starts, corners, progress.part(0.7, 1.0))
