"""The part as received, packed into a few bytes a triangle, as jobs of mended parts keep it.

    "received" and the version; number of vertices, of triangles (little-endian uint64);
    then by zlib (RFC 1950): vertices as float64, one axis after another, and the steps from each
    corner's index to the next as uint32, both with all first bytes together, then all second ones

Bytes of one kind side by side pack well: numbers that came as float32 end in zeros, and triangles
name vertices near those of the triangle before. Nothing is rounded.
"""

import struct
import zlib
from collections.abc import Iterator

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.progress import Progress

MOST_PACKED_BYTES = 64_000_000  # some 5 million triangles; jobs get no larger than that by this
MOST_UNPACKED_BYTES = 400_000_000
_LARGEST_MM = 1e8  # as for every file that is read
_HEAD = struct.Struct("<8s2Q")
_NAME = b"receiv01"
_BYTES_A_GO = 1 << 20  # packed in some 20 ms
_BYTES_A_GIVE = 1 << 16
_LEVEL = 3  # higher ones take many times as long for a tenth less


def packed_mesh(
    mesh: Mesh, progress: Progress | None = None, most_bytes: int | None = None
) -> bytes | None:
    """The bytes that `unpacked_mesh` reads, or None where more than `most_bytes` are needed.

    most_bytes : MOST_PACKED_BYTES unless given

    Raises Cancelled.
    """
    progress = progress or Progress()
    most_bytes = MOST_PACKED_BYTES if most_bytes is None else most_bytes
    packer = zlib.compressobj(_LEVEL)
    pieces, size = [_HEAD.pack(_NAME, len(mesh.vertices_mm), mesh.face_count)], _HEAD.size
    for content in _planes(mesh):
        for first in range(0, len(content), _BYTES_A_GO):
            pieces.append(packer.compress(content[first : first + _BYTES_A_GO]))
            size += len(pieces[-1])
            progress.check()
            if size > most_bytes:
                return None
    pieces.append(packer.flush())
    return b"".join(pieces) if size + len(pieces[-1]) <= most_bytes else None


def _planes(mesh: Mesh) -> Iterator[np.ndarray]:
    """Bytes ((k,) uint8 each) in the order in which they are packed."""
    for axis in range(3):
        column = np.ascontiguousarray(mesh.vertices_mm[:, axis], "<f8")
        yield from column.view(np.uint8).reshape(-1, 8).T.copy()
    steps = np.diff(mesh.faces.ravel().astype("<u4"), prepend=np.uint32(0))
    yield from steps.astype("<u4").view(np.uint8).reshape(-1, 4).T.copy()


def unpacked_mesh(content: bytes, progress: Progress | None = None) -> Mesh | None:
    """The mesh to the bit, or None where the bytes are damaged or more than a part needs.

    Raises Cancelled.
    """
    progress = progress or Progress()
    if len(content) < _HEAD.size:
        return None
    name, vertex_count, face_count = _HEAD.unpack_from(content)
    size = 24 * vertex_count + 12 * face_count
    if name != _NAME or not 0 < size <= MOST_UNPACKED_BYTES or not face_count:
        return None
    planes = np.empty(size, np.uint8)
    if not _unpack(memoryview(content)[_HEAD.size :], planes, progress):
        return None
    vertices = np.empty((vertex_count, 3))
    for axis in range(3):
        some = planes[8 * vertex_count * axis : 8 * vertex_count * (axis + 1)]
        vertices[:, axis] = some.reshape(8, -1).T.copy().view("<f8").ravel()
        progress.check()
    steps = planes[24 * vertex_count :].reshape(4, -1).T.copy().view("<u4").ravel()
    corners = np.cumsum(steps, dtype=np.uint32)
    progress.check()
    if not (np.abs(vertices) <= _LARGEST_MM).all() or corners.max() >= vertex_count:
        return None
    return Mesh(vertices, corners.astype(np.int32).reshape(-1, 3))


def _unpack(content: memoryview, into: np.ndarray, progress: Progress) -> bool:
    """Whether `content` fills `into` to the last byte and no further."""
    unpacker, filled, given, waiting = zlib.decompressobj(), 0, 0, b""
    try:
        while not unpacker.eof:
            if not waiting:  # what is left over is copied each time, so that little is given
                waiting = content[given : given + _BYTES_A_GIVE]
                given += len(waiting)
            block = unpacker.decompress(waiting, _BYTES_A_GO)
            if filled + len(block) > len(into) or not (block or waiting):
                return False
            waiting = unpacker.unconsumed_tail
            into[filled : filled + len(block)] = np.frombuffer(block, np.uint8)
            filled += len(block)
            progress.check()
    except zlib.error:
        return False
    return filled == len(into)
