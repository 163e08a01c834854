"""Read OFF: a line of counts, then corners, then polygons; colours and normals are passed over."""

from pathlib import Path

import numpy as np

from viewer.errors import UnreadableFile
from viewer.files.number_text import (
    DECIMAL_COMMA,
    NUMBER,
    read_number,
    skip_line,
    skip_space,
)
from viewer.files.obj_file import as_plain_text
from viewer.files.polygon_mesh import raw_mesh_of_polygons
from viewer.files.raw_mesh import RawMesh
from viewer.geometry.compiled import compiled
from viewer.progress import Progress
from viewer.words import later, say

_ROWS = 100_000  # lines between two looks at the progress token
_PREFIXES = {b"OFF", b"COFF", b"NOFF", b"CNOFF", b"STOFF", b"STCOFF", b"STNOFF", b"STCNOFF"}


@compiled
def _next_row(data, pos, end):
    """Start of the next line that is neither empty nor a comment."""
    pos = skip_space(data, pos, end)
    while pos < end and data[pos] == 35:
        pos = skip_space(data, skip_line(data, pos, end), end)
    return pos


@compiled
def read_corner_rows(data, pos, rows, columns, first, positions):
    """Fill positions[first : first + rows] from lines; `columns` says where x, y and z stand.

    Returns (where it stopped, rows read, decimal commas seen).
    """
    end = len(data)
    last_column = max(columns[0], columns[1], columns[2])
    commas = 0
    for row in range(rows):
        pos = _next_row(data, pos, end)
        if pos >= end:
            return pos, row, commas
        for column in range(last_column + 1):
            value, pos, found = read_number(data, pos, end)
            commas += found == DECIMAL_COMMA
            for axis in range(3):
                if columns[axis] == column:
                    positions[first + row, axis] = value
        pos = skip_line(data, pos, end)
    return pos, rows, commas


@compiled
def read_polygon_rows(data, pos, rows, first, starts, corners):
    """Fill polygons first .. first + rows from lines "count corner corner …".

    Returns (where it stopped, rows read); a line that is short or no number stops it. Corners out
    of the range of int32 become −1.
    """
    end = len(data)
    for row in range(rows):
        start = _next_row(data, pos, end)
        if start >= end:
            return start, row
        count, pos, found = read_number(data, start, end)
        place = starts[first + row]
        if found != NUMBER or count < 0 or count != np.floor(count) or count > end - pos:
            return start, row
        for k in range(np.int64(count)):
            value, pos, found = read_number(data, pos, end)
            if found != NUMBER:
                return start, row
            whole = value == np.floor(value) and 0 <= value < 2**31 - 1
            corners[place + k] = np.int64(value) if whole else -1
        starts[first + row + 1] = place + np.int64(count)
        pos = skip_line(data, pos, end)
    return pos, rows


def _read_header(path: Path, data: np.ndarray) -> tuple[int, int, int]:
    """(number of corners, number of polygons, first byte after the counts)."""
    end = len(data)
    pos = _next_row(data, 0, end)
    first_word = data[pos : pos + 12].tobytes().upper().split()
    if not first_word or first_word[0] not in _PREFIXES:
        raise UnreadableFile(
            say("{name} is not an OFF file. Check that it was exported as OFF.", name=path.name)
        )
    if len(first_word) > 1 and first_word[1] == b"BINARY":
        raise UnreadableFile(
            say("{name} is a binary OFF file. Export it as text OFF or as STL.", name=path.name)
        )
    pos += len(first_word[0])
    counts = []
    for _ in range(2):
        pos = _next_row(data, pos, end)
        value, pos, found = read_number(data, pos, end)
        if found != NUMBER or not 0 <= value < 2**53 or value != int(value):
            raise UnreadableFile(
                say("{name} does not say how many faces it has. Export it again.", name=path.name)
            )
        counts.append(int(value))
    return counts[0], counts[1], skip_line(data, pos, end)


def read_off(path: Path, data: np.ndarray, progress: Progress) -> RawMesh:
    """Triangles of an OFF file from its bytes ((size,) uint8).

    Raises UnreadableFile (not OFF, cut off, illegal corners), Cancelled.
    """
    data = as_plain_text(path, data)
    corner_count, polygon_count, pos = _read_header(path, data)
    # Each line takes bytes, so a lying count is found out before memory is asked for it.
    if corner_count * 6 > len(data) or polygon_count * 2 > len(data):
        raise UnreadableFile(
            say(
                "{name} is cut off: it announces {corner_count:,} corners and "
                "{polygon_count:,} faces, more than it can hold. Ask for the file "
                "again.",
                name=path.name,
                corner_count=corner_count,
                polygon_count=polygon_count,
            )
        )
    positions = np.empty((corner_count, 3))
    columns = np.array([0, 1, 2])
    done = 0
    while done < corner_count:
        rows = min(_ROWS, corner_count - done)
        pos, read, commas = read_corner_rows(data, pos, rows, columns, done, positions)
        _refuse_cut_off(path, done + read, corner_count, read == rows, later("corners"))
        if commas:
            raise UnreadableFile(
                say(
                    "{name} is written with decimal commas. Export it with decimal points.",
                    name=path.name,
                )
            )
        done += read
        progress.report(0.3 * done / corner_count, "Reading the corners")
    starts = np.zeros(polygon_count + 1, np.int64)
    corners = np.empty(len(data) // 2 + 1, np.int64)
    done = 0
    while done < polygon_count:
        rows = min(_ROWS, polygon_count - done)
        pos, read = read_polygon_rows(data, pos, rows, done, starts, corners)
        _refuse_cut_off(path, done + read, polygon_count, read == rows, later("faces"))
        done += read
        progress.report(0.3 + 0.4 * done / polygon_count, "Reading the faces")
    corners = corners[: starts[-1]]
    return raw_mesh_of_polygons(path, positions, starts, corners, progress.part(0.7, 1.0))


def _refuse_cut_off(path: Path, there: int, announced: int, complete: bool, what: str) -> None:
    if not complete:
        raise UnreadableFile(
            say(
                "{name} is cut off: {there:,} of {announced:,} {what} are there. Ask "
                "for the file again.",
                name=path.name,
                there=there,
                announced=announced,
                what=say(what),
            )
        )
