"""Registration pins: round pins on one cut face, holes with a glue gap in the face across from it.

Two pins of different thickness, as far apart as the cut face lets them be, so that the pieces go
together in one way only. Only the cut faces are made anew; pins and holes end in points of theirs.
"""

from dataclasses import dataclass

import manifold3d
import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.cut_faces import closed_loops
from viewer.geometry.cut_pieces import CutPlane, Piece
from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_faces
from viewer.geometry.plane_cut import axes_across
from viewer.progress import Progress
from viewer.words import say

SECOND = 0.75  # thickness of the second pin as a share of the first one's
SIDES = 48
_ACROSS = 40  # candidates along the longer side of a cut face
_AT_ONCE = 2_000_000  # candidates times pieces of rim in one go


@dataclass(frozen=True)
class PinSizes:
    """What pins are like; lengths from common practice, no source.

    glue_gap_mm : by which a hole is wider all round and deeper than its pin
    wall_mm : of material that must stay around a hole
    """

    diameter_mm: float = 4.0
    length_mm: float = 5.0
    chamfer_mm: float = 0.5
    glue_gap_mm: float = 0.15
    wall_mm: float = 1.2

    def __post_init__(self) -> None:
        if not (0.5 <= self.diameter_mm <= 50 and 0.5 <= self.length_mm <= 100):
            raise RequestProblem(say("Pins are 0.5 to 50 mm thick and 0.5 to 100 mm long."))
        if not (0 <= self.glue_gap_mm <= 2 and 0 <= self.wall_mm <= 20):
            raise RequestProblem(
                say("The glue gap is 0 to 2 mm, the wall around a hole 0 to 20 mm.")
            )

    @property
    def radii_mm(self) -> tuple[float, float]:
        """Of the first and the second pin."""
        return 0.5 * self.diameter_mm, 0.5 * SECOND * self.diameter_mm


@dataclass(frozen=True, eq=False)
class Pinned:
    """Two pieces with pins below and holes above.

    places_mm : (p, 3) float64, middles of the pins on the cut face, 0 to 2 of them
    sentence : "" or why there are fewer than two
    """

    below: Piece
    above: Piece
    places_mm: np.ndarray
    sentence: str


def pin_pieces(
    pieces: tuple[Piece, ...],
    planes: list[CutPlane],
    sizes: PinSizes | None = None,
    progress: Progress | None = None,
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """All pieces with pins across each cut face that two of them share whole, and sentences."""
    made, sentences = list(pieces), []
    for number, plane in enumerate(planes):
        for i, j in partners(made, number):
            pinned = add_pins(made[i], made[j], number, plane, sizes, progress)
            made[i], made[j] = pinned.below, pinned.above
            if pinned.sentence:
                sentences.append(between(i, j, pinned.sentence))
    return tuple(made), tuple(sentences)


def between(i: int, j: int, sentence: str) -> str:
    """What is to be said of two pieces, counted from 0."""
    return say("Pieces {one} and {other}: {sentence}", one=i + 1, other=j + 1, sentence=sentence)


def partners(pieces: list[Piece], number: int) -> list[tuple[int, int]]:
    """Pieces below and above a plane that lie on the same side of all others."""
    found = []
    for i, piece in enumerate(pieces):
        if piece.sides[number] >= 0:
            continue
        across = list(piece.sides)
        across[number] = 1
        found += [(i, j) for j, other in enumerate(pieces) if list(other.sides) == across]
    return found


def add_pins(
    below: Piece,
    above: Piece,
    number: int,
    plane: CutPlane,
    sizes: PinSizes | None = None,
    progress: Progress | None = None,
) -> Pinned:
    """Pins on the lower piece and holes in the upper one, on the face that cut `number` made.

    Both pieces must have that face whole. Raises Cancelled.
    """
    sizes, progress = sizes or PinSizes(), progress or Progress()
    axes = axes_across(np.asarray(plane.normal))
    frame = np.vstack([axes, plane.normal])
    faces = [piece.mesh.faces[piece.origin_face == -1 - number] for piece in (below, above)]
    rim = rim_of(faces[0])
    if not len(rim):
        return Pinned(below, above, np.empty((0, 3)), say("no cut face lies between them."))
    base_mm = float(np.mean(below.mesh.vertices_mm[rim[:, 0]] @ frame[2]))
    outline = (below.mesh.vertices_mm @ axes.T)[rim]
    places = _places(outline, above, number, frame, base_mm, sizes, progress)
    radii = sizes.radii_mm[: len(places)]
    pins = [_round(place, radius, sizes, 0.0) for place, radius in zip(places, radii, strict=True)]
    holes = [
        _round(place, radius, sizes, sizes.glue_gap_mm)
        for place, radius in zip(places, radii, strict=True)
    ]
    if len(places):
        below = _with_rounds(below, number, frame, base_mm, pins, False)
        above = _with_rounds(above, number, frame, base_mm, holes, True)
    in_part = np.column_stack([places, np.full(len(places), base_mm)]) @ frame
    return Pinned(below, above, in_part, _sentence(len(places)))


def _sentence(count: int) -> str:
    if count == 0:
        return say("the cut face has no room for a pin; it stays flat.")
    return say("the cut face has room for one pin only.") if count == 1 else ""


def rim_of(faces: np.ndarray) -> np.ndarray:
    """(e, 2) int64 directed edges along which some faces (f, 3) end."""
    start = faces.astype(np.int64).ravel()
    end = np.roll(faces.astype(np.int64), -1, axis=1).ravel()
    count = int(faces.max(initial=0)) + 1
    keys = np.unique(np.concatenate([start * count + end, end * count + start]))
    net = np.bincount(np.searchsorted(keys, start * count + end), minlength=len(keys))
    net = net - np.bincount(np.searchsorted(keys, end * count + start), minlength=len(keys))
    return np.stack(np.divmod(np.repeat(keys, np.maximum(net, 0)), count), axis=1)


def _places(outline, above, number, frame, base_mm, sizes, progress) -> np.ndarray:
    """(p, 2) middles of up to two pins, the thicker first: of all places the two farthest apart."""
    low, high = outline.min(axis=(0, 1)), outline.max(axis=(0, 1))
    step = float((high - low).max()) / _ACROSS
    x, y = (np.arange(a + step / 2, b, step) for a, b in zip(low, high, strict=True))
    tries = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
    within, away_mm = inside_outline(tries, outline, progress)
    thick, thin = (radius + sizes.glue_gap_mm + sizes.wall_mm for radius in sizes.radii_mm)
    tries, away_mm = tries[within & (away_mm >= thin)], away_mm[within & (away_mm >= thin)]
    if not len(tries):
        return tries
    depth_mm = _room_above(tries, above, number, frame, base_mm, sizes, progress)
    room_mm = np.minimum(away_mm, depth_mm)
    first, second = tries[room_mm >= thick], tries[room_mm >= thin]
    if not len(first):
        return first
    apart = np.linalg.norm(first[:, None] - second[None], axis=2)
    i, j = np.unravel_index(int(apart.argmax()), apart.shape)
    if apart[i, j] < 2 * thick:
        return first[[int(room_mm[room_mm >= thick].argmax())]]
    return np.stack([first[i], second[j]])


def inside_outline(points, outline, progress) -> tuple[np.ndarray, np.ndarray]:
    """Whether points (k, 2) lie in an outline (e, 2, 2), and how far from it."""
    inside, away = np.zeros(len(points), bool), np.empty(len(points))
    a, b = outline[:, 0], outline[:, 1]
    along = b - a
    length = np.maximum((along**2).sum(axis=1), 1e-300)
    rows = max(1, _AT_ONCE // len(outline))
    for start in range(0, len(points), rows):
        progress.check()
        p = points[start : start + rows, None]
        crosses = (a[:, 1] > p[..., 1]) != (b[:, 1] > p[..., 1])
        with np.errstate(divide="ignore", invalid="ignore"):
            at = a[:, 0] + (p[..., 1] - a[:, 1]) / along[:, 1] * along[:, 0]
        inside[start : start + rows] = (crosses & (at > p[..., 0])).sum(axis=1) % 2 == 1
        share = np.clip(((p - a) * along).sum(axis=2) / length, 0.0, 1.0)
        gap = p - a - share[..., None] * along
        away[start : start + rows] = np.sqrt((gap**2).sum(axis=2).min(axis=1))
    return inside, away


def _room_above(tries, above, number, frame, base_mm, sizes, progress) -> np.ndarray:
    """(k,) how far the surface of the upper piece stays away from the axis of each hole."""
    others = above.mesh.faces[above.origin_face != -1 - number]
    radius = sizes.radii_mm[0]
    deep_mm = sizes.length_mm + sizes.glue_gap_mm
    levels = np.arange(0.0, deep_mm + 1e-9, min(radius, deep_mm))
    levels = np.append(levels, deep_mm)
    points = np.concatenate(
        [np.column_stack([tries, np.full(len(tries), base_mm + z)]) for z in levels]
    )
    found = nearest_faces(above.mesh.vertices_mm, others, points @ frame, progress)
    return found.distances_mm.reshape(len(levels), -1).min(axis=0)


def _round(place, radius_mm, sizes, gap_mm) -> np.ndarray:
    """(3 · SIDES + 1, 3) points of a pin in the frame of the plane: three rings and the middle."""
    radius, length = radius_mm + gap_mm, sizes.length_mm + gap_mm
    chamfer = min(sizes.chamfer_mm, 0.5 * radius, 0.5 * length)
    turn = 2 * np.pi * np.arange(SIDES) / SIDES
    circle = np.stack([np.cos(turn), np.sin(turn)], axis=1)
    rings = [
        np.column_stack([place + r * circle, np.full(SIDES, z)])
        for r, z in ((radius, 0.0), (radius, length - chamfer), (radius - chamfer, length))
    ]
    return np.vstack([*rings, [[*place, length]]])


def round_faces() -> np.ndarray:
    """(f, 3) faces of a pin without its foot, seen from outside, on the points of `_round`."""
    i = np.arange(SIDES)
    j = np.roll(i, -1)
    faces = []
    for low, high in ((0, SIDES), (SIDES, 2 * SIDES)):
        faces.append(np.stack([low + i, low + j, high + j], axis=1))
        faces.append(np.stack([low + i, high + j, high + i], axis=1))
    faces.append(np.stack([2 * SIDES + i, 2 * SIDES + j, np.full(SIDES, 3 * SIDES)], axis=1))
    return np.concatenate(faces)


def _with_rounds(piece, number, frame, base_mm, rounds, turned_over) -> Piece:
    """The piece with its cut face made anew around pins, or holes if `turned_over`."""
    old = piece.origin_face == -1 - number
    cap = piece.mesh.faces[old]
    rim = rim_of(cap[:, ::-1] if turned_over else cap)
    flat = piece.mesh.vertices_mm @ frame[:2].T
    loops = closed_loops(rim, flat)
    first, points, walls = len(flat), [], []
    feet = []
    for made in rounds:
        points.append(made + np.array([0.0, 0.0, base_mm]))
        walls.append(round_faces() + first)
        feet.append(np.arange(first, first + SIDES)[::-1])
        first += len(made)
    flat = np.vstack([flat, *(made[:, :2] for made in points)])
    corners = np.concatenate([*loops, *feet])
    spanned = manifold3d.triangulate([flat[loop] for loop in (*loops, *feet)])
    new = np.concatenate([corners[np.asarray(spanned, np.int64)], *walls])
    new = new[:, ::-1] if turned_over else new
    vertices = np.vstack([piece.mesh.vertices_mm, np.vstack(points) @ frame])
    faces = np.concatenate([piece.mesh.faces[~old], new.astype(np.int32)])
    origin = np.concatenate([piece.origin_face[~old], np.full(len(new), -1 - number, np.int32)])
    return Piece(Mesh(vertices, faces), origin, piece.sides)
