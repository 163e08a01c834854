"""The pieces of a job, cut off its part or specimens, inside its file.

    Metadata/showside-test-pieces.bin     "pieces" and the version; length of the words (uint64);
        the words as JSON; then for each body its mesh as of `received_mesh` and its classes by zlib

All vertices come back to the bit. Damaged bytes cost the pieces, not the job.
"""

import struct
import zipfile
import zlib
from typing import Annotated, Literal

import msgspec
import numpy as np

from viewer.document.job_piece import LONGEST_NAME, LONGEST_NOTE, MOST_PIECES, JobPiece, PieceBody
from viewer.errors import CannotWrite, RequestProblem
from viewer.files.received_mesh import packed_mesh, unpacked_mesh
from viewer.geometry.face_classes import CLASS_B
from viewer.geometry.pose import Pose
from viewer.progress import Progress
from viewer.words import say

TEST_PIECES_PART = "Metadata/showside-test-pieces.bin"
MOST_BYTES, MOST_STEPS = 400_000_000, 100
_HEAD = struct.Struct("<8sQ")
_MAGIC = b"pieces01"

_Name = Annotated[str, msgspec.Meta(max_length=LONGEST_NAME)]
_Size = Annotated[int, msgspec.Meta(ge=0, le=MOST_BYTES)]


class _Body(msgspec.Struct):
    name: _Name
    material: Literal["model", "support"]
    mesh_bytes: _Size
    class_bytes: _Size


class _Piece(msgspec.Struct):
    name: _Name
    source: Literal["cut", "specimen"]
    kind: _Name
    up: tuple[float, float, float]
    spin_deg: float
    note: Annotated[str, msgspec.Meta(max_length=LONGEST_NOTE)]
    bodies: Annotated[list[_Body], msgspec.Meta(min_length=1, max_length=100)]
    steps: Annotated[list[float], msgspec.Meta(max_length=MOST_STEPS)] = []


class _Pieces(msgspec.Struct):
    pieces: Annotated[list[_Piece], msgspec.Meta(max_length=MOST_PIECES)]


def pieces_of_job(pieces: tuple[JobPiece, ...], progress: Progress | None = None) -> bytes:
    """The bytes that keep pieces. Raises CannotWrite where one is too large, Cancelled."""
    progress = progress or Progress()
    words, blobs = [], []
    for piece in pieces:
        bodies = []
        for body in piece.bodies:
            mesh = packed_mesh(body.mesh, progress)
            if mesh is None:
                raise CannotWrite(
                    say(
                        "“{name}” is too large to be kept in the job; save it by itself and take "
                        "it off the list.",
                        name=piece.name,
                    )
                )
            classes = zlib.compress(body.face_classes.tobytes(), 3)
            blobs += [mesh, classes]
            bodies.append(_Body(body.name, body.material, len(mesh), len(classes)))
        words.append(
            _Piece(
                piece.name, piece.source, piece.kind, piece.pose.up, piece.pose.spin_deg,
                piece.note, bodies, list(piece.steps[:MOST_STEPS]),
            )
        )  # fmt: skip
    head = msgspec.json.encode(_Pieces(words))
    return b"".join([_HEAD.pack(_MAGIC, len(head)), head, *blobs])


def read_test_pieces(
    package: zipfile.ZipFile, progress: Progress
) -> tuple[tuple[JobPiece, ...], tuple[str, ...]]:
    """The pieces a job keeps, and a sentence where they are damaged. Raises Cancelled."""
    if TEST_PIECES_PART not in package.namelist():
        return (), ()
    pieces = None
    if package.getinfo(TEST_PIECES_PART).file_size <= MOST_BYTES:
        pieces = unpacked_pieces(package.read(TEST_PIECES_PART), progress)
    if pieces is None:
        return (), (
            say("The pieces that this job keeps are damaged and were left aside; cut them anew."),
        )
    return pieces, ()


def unpacked_pieces(content: bytes, progress: Progress) -> tuple[JobPiece, ...] | None:
    """The pieces to the bit, None where the bytes are damaged. Raises Cancelled."""
    if len(content) < _HEAD.size:
        return None
    magic, length = _HEAD.unpack_from(content)
    if magic != _MAGIC or length > len(content) - _HEAD.size:
        return None
    at = _HEAD.size + length
    try:
        words = msgspec.json.decode(content[_HEAD.size : at], type=_Pieces)
        view = memoryview(content)
        made = []
        for told in words.pieces:
            bodies = []
            for each in told.bodies:
                body = _body(each, view[at:], progress)
                at += each.mesh_bytes + each.class_bytes
                if body is None:
                    return None
                bodies.append(body)
            pose = Pose(told.up, told.spin_deg)
            piece = JobPiece(told.name, told.source, told.kind, tuple(bodies), pose, told.note,
                             tuple(told.steps))  # fmt: skip
            made.append(piece)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError, RequestProblem, zlib.error):
        return None
    return tuple(made) if at == len(content) else None


def _body(told: _Body, content: memoryview, progress: Progress) -> PieceBody | None:
    if told.mesh_bytes + told.class_bytes > len(content):
        return None
    mesh = unpacked_mesh(bytes(content[: told.mesh_bytes]), progress)
    if mesh is None:
        return None
    packed = content[told.mesh_bytes : told.mesh_bytes + told.class_bytes]
    classes = np.frombuffer(zlib.decompressobj().decompress(packed, mesh.face_count + 1), np.uint8)
    if len(classes) != mesh.face_count or classes.max() > CLASS_B:
        return None
    return PieceBody(told.name, told.material, mesh, classes)
