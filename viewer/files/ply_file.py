"""Read PLY: text and binary of either byte order, polygons of any size, all number types."""

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np

from viewer.errors import NothingToPrint, UnreadableFile
from viewer.files.off_file import read_corner_rows, read_polygon_rows
from viewer.files.polygon_mesh import raw_mesh_of_polygons
from viewer.files.raw_mesh import RawMesh
from viewer.geometry.compiled import compiled
from viewer.progress import Progress
from viewer.words import say

_ROWS = 200_000  # rows between two looks at the progress token
_LONGEST_HEADER = 100_000
_TYPES = {
    **dict.fromkeys(("char", "int8"), "i1"),
    **dict.fromkeys(("uchar", "uint8"), "u1"),
    **dict.fromkeys(("short", "int16"), "i2"),
    **dict.fromkeys(("ushort", "uint16"), "u2"),
    **dict.fromkeys(("int", "int32"), "i4"),
    **dict.fromkeys(("uint", "uint32"), "u4"),
    **dict.fromkeys(("float", "float32"), "f4"),
    **dict.fromkeys(("double", "float64"), "f8"),
}
_CODES = {"i1": 0, "u1": 1, "i2": 2, "u2": 3, "i4": 4, "u4": 5, "f4": 6, "f8": 7}
_SIZES = np.array([1, 1, 2, 2, 4, 4, 4, 8])
_INDEX_NAMES = ("vertex_indices", "vertex_index")


@dataclass
class _Property:
    name: str
    kind: str  # such as "f4"
    count_kind: str = ""  # of a list, "" for a single number


@dataclass
class _Element:
    name: str
    count: int
    properties: list[_Property] = field(default_factory=list)

    @property
    def row_bytes(self) -> int:
        """Fewest bytes of a binary row: lists may be empty."""
        return sum(int((p.count_kind or p.kind)[1]) for p in self.properties)


def _read_header(path: Path, data: np.ndarray) -> tuple[str, list[_Element], int]:
    """(byte order "<", ">" or "" for text; elements; first byte after the header)."""
    head = data[:_LONGEST_HEADER].tobytes()
    if not head.startswith(b"ply"):
        raise UnreadableFile(
            say("{name} is not a PLY file. Check that it was exported as PLY.", name=path.name)
        )
    at = head.find(b"end_header")
    if at < 0:
        raise UnreadableFile(
            say("{name} is cut off within its header. Ask for the file again.", name=path.name)
        )
    body = at + len(b"end_header")
    while body < len(head) and head[body] in b" \t":
        body += 1
    body += 2 if head[body : body + 2] == b"\r\n" else 1
    order, elements = None, []
    try:
        for line in head[:at].decode("latin-1").replace("\r", "\n").split("\n"):
            words = line.split()
            if words[:1] == ["format"]:
                order = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}[
                    words[1]
                ]
            elif words[:1] == ["element"]:
                elements.append(_Element(words[1], int(words[2])))
            elif words[:2] == ["property", "list"]:
                kinds = _TYPES[words[3]], _TYPES[words[2]]
                elements[-1].properties.append(_Property(words[4], *kinds))
            elif words[:1] == ["property"]:
                elements[-1].properties.append(_Property(words[2], _TYPES[words[1]]))
        if order is None or any(element.count < 0 for element in elements):
            raise ValueError
    except (KeyError, IndexError, ValueError) as error:
        raise UnreadableFile(
            say("{name} has a PLY header that makes no sense. Export it again.", name=path.name)
        ) from error
    return order, elements, body


@compiled
def _number_at(data, pos, code, swap):
    """The binary number of type `code` at `pos`, as float64; `swap` for big-endian files."""
    size = _SIZES[code]
    gathered = np.uint64(0)
    for k in range(size):
        byte = data[pos + k] if swap else data[pos + size - 1 - k]
        gathered = (gathered << np.uint64(8)) | np.uint64(byte)
    bits = np.uint64(gathered)  # numba reinterprets only what is set once
    if code == 0:
        return np.float64(np.int8(bits))
    if code == 2:
        return np.float64(np.int16(bits))
    if code == 4:
        return np.float64(np.int32(bits))
    if code == 6:
        single = np.uint32(bits)
        return np.float64(single.view(np.float32))
    if code == 7:
        return bits.view(np.float64)
    return np.float64(bits)


@compiled
def _walk_rows(data, pos, rows, kinds, counts, wanted, swap, first, starts, corners):
    """Walk binary rows, collecting the list property `wanted` (−1 for none) as polygons.

    kinds, counts : type codes of the properties and of their list counts (−1: a single number)
    Returns (where it stopped, whole rows read).
    """
    end = len(data)
    for row in range(rows):
        start = pos
        for p in range(len(kinds)):
            size = _SIZES[kinds[p]]
            items = 1.0
            if counts[p] >= 0:
                if pos + _SIZES[counts[p]] > end:
                    return start, row
                items = _number_at(data, pos, counts[p], swap)
                pos += _SIZES[counts[p]]
            if not 0 <= items <= (end - pos) // size:
                return start, row
            if p == wanted:
                place = starts[first + row]
                for k in range(np.int64(items)):
                    value = _number_at(data, pos + k * size, kinds[p], swap)
                    corners[place + k] = np.int64(value) if 0 <= value < 2**31 - 1 else -1
                starts[first + row + 1] = place + np.int64(items)
            pos += np.int64(items) * size
    return pos, rows


def read_ply(path: Path, data: np.ndarray, progress: Progress) -> RawMesh:
    """Triangles of a PLY file from its bytes ((size,) uint8).

    Raises UnreadableFile (not PLY, cut off, illegal corners), NothingToPrint (points only),
    Cancelled.
    """
    order, elements, pos = _read_header(path, data)
    names = [element.name for element in elements]
    if "face" not in names or "vertex" not in names or not elements[names.index("face")].count:
        raise NothingToPrint(
            say(
                "{name} holds points but no faces. Export the part as a surface mesh.",
                name=path.name,
            )
        )
    positions = starts = corners = None
    notes: tuple[str, ...] = ()
    for element in elements:
        _refuse_impossible_count(path, data, pos, element, order)
        if element.name == "vertex":
            positions, pos = _read_positions(path, data, pos, element, order, progress.part(0, 0.3))
        elif element.name == "face":
            faces = _read_faces(path, data, pos, element, order, progress.part(0.3, 0.7))
            starts, corners, pos, notes = faces
        else:
            pos = _skip_element(path, data, pos, element, order)
        if positions is not None and starts is not None:
            break
    return raw_mesh_of_polygons(path, positions, starts, corners, progress.part(0.7, 1), notes)


def _refuse_impossible_count(
    path: Path, data: np.ndarray, pos: int, element: _Element, order: str
) -> None:
    """A count is believed only as far as the file has bytes for it (text faces: see below)."""
    row = element.row_bytes if order else 2 * len(element.properties)
    if element.count * max(row, 1) > len(data) - pos and (order or element.name != "face"):
        there = max(len(data) - pos, 0) // max(row, 1)
        raise UnreadableFile(
            say(
                "{name} is cut off: it has room for {there:,} of its {count:,} "
                "{name_2} rows. Ask for the file again.",
                name=path.name,
                there=there,
                count=element.count,
                name_2=element.name,
            )
        )


def _read_positions(path, data, pos, element, order, progress) -> tuple[np.ndarray, int]:
    names = [p.name for p in element.properties]
    if not {"x", "y", "z"} <= set(names) or any(p.count_kind for p in element.properties):
        raise UnreadableFile(
            say("{name} has corners without x, y and z. Export it again.", name=path.name)
        )
    if order:
        row = np.dtype([(f"{k}", order + p.kind) for k, p in enumerate(element.properties)])
        table = data[pos : pos + element.count * row.itemsize].view(row)
        kind = (
            np.float32
            if all(element.properties[names.index(a)].kind == "f4" for a in "xyz")
            else np.float64
        )
        positions = np.empty((element.count, 3), kind)
        for axis, name in enumerate("xyz"):
            positions[:, axis] = table[f"{names.index(name)}"]
            progress.report((axis + 1) / 3, "Reading the corners")
        return positions, pos + element.count * row.itemsize
    positions = np.empty((element.count, 3))
    columns = np.array([names.index(name) for name in "xyz"])
    for done in range(0, element.count, _ROWS):
        rows = min(_ROWS, element.count - done)
        pos, read, commas = read_corner_rows(data, pos, rows, columns, done, positions)
        if commas:
            raise UnreadableFile(
                say(
                    "{name} is written with decimal commas. Export it with decimal points.",
                    name=path.name,
                )
            )
        if read < rows:
            raise UnreadableFile(
                say(
                    "{name} is cut off: {done:,} of {count:,} corners are there. Ask for "
                    "the file again.",
                    name=path.name,
                    done=done + read,
                    count=element.count,
                )
            )
        progress.report((done + rows) / element.count, "Reading the corners")
    return positions, pos


def _read_faces(path, data, pos, element, order, progress):
    """(starts, corners, first byte after them, notes)."""
    names = [p.name for p in element.properties]
    wanted = next((names.index(name) for name in _INDEX_NAMES if name in names), -1)
    if wanted < 0 or not element.properties[wanted].count_kind:
        raise NothingToPrint(
            say("{name} has faces without corners. Export it again.", name=path.name)
        )
    if not order and wanted != 0:
        raise UnreadableFile(
            say(
                "{name} lists other numbers before the corners of its faces. Export it "
                "as binary PLY or as STL.",
                name=path.name,
            )
        )
    rows_possible = min(element.count, len(data) // 2)
    starts = np.zeros(rows_possible + 1, np.int64)
    index_bytes = int(element.properties[wanted].kind[1]) if order else 2
    corners = np.empty((len(data) - pos) // index_bytes + 1, np.int64)
    kinds = np.array([_CODES[p.kind] for p in element.properties])
    counts = np.array([_CODES.get(p.count_kind, -1) for p in element.properties])
    done = 0
    while done < rows_possible:
        rows = min(_ROWS, rows_possible - done)
        if order:
            swap = order == ">"
            pos, read = _walk_rows(
                data, pos, rows, kinds, counts, wanted, swap, done, starts, corners
            )
        else:
            pos, read = read_polygon_rows(data, pos, rows, done, starts, corners)
        done += read
        progress.report(done / element.count, "Reading the faces")
        if read < rows:
            break
    notes = ()
    if done < element.count:
        if order or pos < len(data):  # a broken row, not merely a count that is too high
            raise UnreadableFile(
                say(
                    "{name} is cut off: {done:,} of {count:,} faces are there. Ask for the "
                    "file again.",
                    name=path.name,
                    done=done,
                    count=element.count,
                )
            )
        notes = (
            say(
                "The file announces {count:,} faces, but {done:,} are there.",
                count=element.count,
                done=done,
            ),
        )
    return starts[: done + 1], corners[: starts[done]], pos, notes


def _skip_element(path, data, pos, element, order) -> int:
    """First byte after an element that is of no use here."""
    if not order:
        none = np.zeros((element.count, 3))
        return read_corner_rows(data, pos, element.count, np.zeros(3, np.int64), 0, none)[0]
    kinds = np.array([_CODES[p.kind] for p in element.properties])
    counts = np.array([_CODES.get(p.count_kind, -1) for p in element.properties])
    none = np.zeros(1, np.int64)
    pos, read = _walk_rows(data, pos, element.count, kinds, counts, -1, order == ">", 0, none, none)
    if read < element.count:
        raise UnreadableFile(say("{name} is cut off. Ask for the file again.", name=path.name))
    return pos
