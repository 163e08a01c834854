"""Marks carried over to another surface that lies where the old one lay, and to a mirror image.

Each place takes the class of the nearest place of the surface that the marks are on, if that is
near and looks the same way. Faces under a border of the marks are cut, so that a mark keeps its
outline on a mesh of other triangles.
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.cut_surface import CutSurface, Marked, finer_where, longest_edges_mm
from viewer.geometry.face_classes import CLASS_B
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_faces
from viewer.geometry.outlines import rim_edge_mm
from viewer.geometry.regions import borders
from viewer.geometry.touched_cells import TouchedCells
from viewer.geometry.whole_marks import with_class
from viewer.progress import Progress

MIRROR_SHARE = 0.005  # of the part's diagonal: so far a mirror image may lie off the surface
SPREAD_SHARE = 0.02  # of the diagonal: places so far apart are asked on a face before it is cut
LEAST_INSIDE = 0.02  # asked at corners, but a little within the face


class Carried(NamedTuple):
    """Marks on a surface, and where the surface they came from was found.

    marked : its pieces and their (m',) classes; unmarked where nothing was found
    found : (m',) bool
    """

    marked: Marked
    found: np.ndarray


def carry_marks(
    old: Mesh,
    old_classes: np.ndarray,
    new: Mesh,
    within_mm: float,
    progress: Progress | None = None,
) -> Carried:
    """Carry (m,) classes of one mesh over to another.

    A place of the new one is found if the old surface is within `within_mm` and within 60° of its
    direction. Raises Cancelled.
    """
    progress = progress or Progress()
    finest_mm = rim_edge_mm(new.box_mm)
    points = border_points_mm(old, old_classes, 0.5 * finest_mm)
    surface = _cut_under(CutSurface.of(new), points, within_mm, finest_mm, progress.part(0, 0.3))

    def ask(surface: CutSurface) -> tuple[np.ndarray, np.ndarray]:
        return _half_found(old, old_classes, surface, within_mm, progress.part(0.3, 0.9))

    surface, near = finer_where(surface, ask, finest_mm, progress)
    found = near >= 0
    classes = np.where(found, old_classes[np.maximum(near, 0)], 0).astype(np.uint8)
    return Carried(surface.marked(classes), found)


def mirror_marks(
    mesh: Mesh,
    classes: np.ndarray,
    axis: int,
    from_greater: bool,
    progress: Progress | None = None,
) -> Marked:
    """Behind the part's middle plane across an axis, marked as its mirror image.

    axis : 0 x, 1 y, 2 z of the part's own coordinates
    from_greater : whether the side of the greater coordinate is the model
    What has no image within MIRROR_SHARE of the part's diagonal keeps its class. Raises Cancelled.
    """
    progress = progress or Progress()
    middle_mm = mesh.box_mm.mean(axis=0)[axis]
    way = 1.0 if from_greater else -1.0
    within_mm = MIRROR_SHARE * float(np.linalg.norm(np.ptp(mesh.box_mm, axis=0)))
    vertices = mesh.vertices_mm.copy()
    vertices[:, axis] = 2.0 * middle_mm - vertices[:, axis]
    # What has a corner behind the plane once it is mirrored.
    model, _ = _sides_of_plane(mesh.vertices_mm, mesh.faces, axis, middle_mm, way)
    image = Mesh(vertices, mesh.faces[model][:, ::-1])
    shown = classes[model]
    finest_mm = rim_edge_mm(mesh.box_mm)
    points = border_points_mm(mesh, classes, 0.5 * finest_mm)
    points[:, axis] = 2.0 * middle_mm - points[:, axis]
    points = points[way * (points[:, axis] - middle_mm) <= 0.0]
    surface = _cut_under(CutSurface.of(mesh), points, within_mm, finest_mm, progress)
    own = classes[surface.parents]
    pieces = surface.mesh
    _, there = _sides_of_plane(pieces.vertices_mm, pieces.faces, axis, middle_mm, way)
    about = _classes_about(pieces, there, image, shown, within_mm)
    may_differ = (about & (own[there, None] != np.arange(about.shape[1]))).any(axis=1)
    asked, enough = there[may_differ], about[may_differ].sum(axis=1) == 1
    near = nearest_of(image, pieces, asked, within_mm, progress, enough)
    known = near >= 0
    return surface.marked(with_class(own, asked[known], shown[near[known]]))


@compiled
def _sides_of_plane(vertices, faces, axis, middle_mm, way):
    """Faces with a corner before the plane or on it, and faces whose middle lies behind it."""
    before, behind = np.empty(len(faces), np.int32), np.empty(len(faces), np.int32)
    count, others = 0, 0
    for f in range(len(faces)):
        a = way * (vertices[faces[f, 0], axis] - middle_mm)
        b = way * (vertices[faces[f, 1], axis] - middle_mm)
        c = way * (vertices[faces[f, 2], axis] - middle_mm)
        before[count] = behind[others] = f
        count += max(a, b, c) >= 0.0
        others += a + b + c < 0.0
    return before[:count].copy(), behind[:others].copy()


def border_points_mm(mesh: Mesh, classes: np.ndarray, apart_mm: float) -> np.ndarray:
    """(k, 3) points along the borders between classes, no farther apart than that."""
    ends = mesh.vertices_mm[borders(mesh.faces, neighbours_of(mesh), classes)]
    along = ends[:, 1] - ends[:, 0]
    counts = np.ceil(np.linalg.norm(along, axis=1) / apart_mm).astype(int) + 1
    which = np.repeat(np.arange(len(ends)), counts)
    number = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    share = number / np.maximum(counts[which] - 1, 1)
    return ends[which, 0] + share[:, None] * along[which]


def _cut_under(
    surface: CutSurface, points: np.ndarray, within_mm: float, finest_mm: float, progress: Progress
) -> CutSurface:
    """Cut the faces on which points of a border come to lie."""
    if not len(points):
        return surface
    cells = TouchedCells(surface.mesh.box_mm, within_mm)
    cells.touch_points(points)
    among = cells.meeting(surface.mesh.vertices_mm, surface.mesh.faces)

    def ask(surface: CutSurface) -> tuple[np.ndarray, None]:
        mesh = surface.mesh
        rows = np.flatnonzero(among[surface.parents])
        rows = rows[cells.meeting(mesh.vertices_mm, mesh.faces[rows])]
        if longest_edges_mm(mesh, rows).max(initial=0.0) <= finest_mm:
            return rows[:0], None
        faces = mesh.faces[rows]
        found = nearest_faces(mesh.vertices_mm, faces, points, progress, within_mm=within_mm)
        return np.unique(rows[found.faces[found.faces >= 0]]), None

    return finer_where(surface, ask, finest_mm, progress)[0]


def _classes_about(
    mesh: Mesh, rows: np.ndarray, old: Mesh, old_classes: np.ndarray, within_mm: float
) -> np.ndarray:
    """(k, 3) bool: whether a face of each class of another mesh may be near each of some faces."""
    about = np.zeros((len(rows), CLASS_B + 1), bool)
    for face_class in np.unique(old_classes):
        cells = TouchedCells(mesh.box_mm, within_mm)
        cells.touch_faces(old.vertices_mm, old.faces[old_classes == face_class])
        about[:, face_class] = cells.meeting(mesh.vertices_mm, mesh.faces[rows])
    return about


def nearest_of(
    old: Mesh,
    new: Mesh,
    rows: np.ndarray,
    within_mm: float,
    progress: Progress,
    enough: np.ndarray | None = None,
) -> np.ndarray:
    """(k,) face of one mesh nearest to the middle of each of some faces of another, −1 for none.

    within_mm, enough : as of `nearest_faces`, from which a face that looks the same way is taken
    """
    if not len(rows):
        return np.zeros(0, np.int64)
    corners = new.vertices_mm[new.faces[rows]]
    middles = corners.mean(axis=1)
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    normals /= np.maximum(np.linalg.norm(normals, axis=1), 1e-300)[:, None]
    cells = TouchedCells(new.box_mm, within_mm)
    cells.touch_points(middles)
    candidates = np.flatnonzero(cells.meeting(old.vertices_mm, old.faces))
    if not len(candidates):
        return np.full(len(rows), -1, np.int64)
    near = nearest_faces(
        old.vertices_mm, old.faces[candidates], middles, progress, normals, within_mm, enough
    )
    return np.where(near.faces >= 0, candidates[near.faces], -1)


def _half_found(
    old: Mesh,
    old_classes: np.ndarray,
    surface: CutSurface,
    within_mm: float,
    progress: Progress,
) -> tuple[np.ndarray, np.ndarray]:
    """Faces on which the old surface may end, and (m',) old face nearest to each, −1 for none."""
    mesh = surface.mesh
    rows = np.arange(mesh.face_count)
    enough = _classes_about(mesh, rows, old, old_classes, within_mm).sum(axis=1) == 1
    near = nearest_of(old, mesh, rows, within_mm, progress, enough)
    found = near >= 0
    if found.all() or not found.any():
        ends = np.zeros(mesh.face_count, bool)
    else:
        ends = np.where(surface.neighbours >= 0, found[surface.neighbours], found[:, None])
        ends = (ends != found[:, None]).any(axis=1)
    apart_mm = SPREAD_SHARE * float(np.linalg.norm(np.ptp(mesh.box_mm, axis=0)))
    large = rows[longest_edges_mm(mesh, rows) > apart_mm]
    points, on_face = _spread_over(mesh, large, apart_mm)
    if len(points):
        normals = mesh.face_normals[on_face]
        there = nearest_faces(
            old.vertices_mm, old.faces, points, progress, normals, within_mm
        ).faces >= 0  # fmt: skip
        ends[on_face[there != found[on_face]]] = True
    return np.flatnonzero(ends), near


def _spread_over(mesh: Mesh, rows: np.ndarray, apart_mm: float) -> tuple[np.ndarray, np.ndarray]:
    """(k, 3) places spread over some faces, corners among them, and the (k,) face of each."""
    points, on_face = [np.zeros((0, 3))], [np.zeros(0, np.int64)]
    steps = np.ceil(longest_edges_mm(mesh, rows) / apart_mm).astype(int)
    for count in np.unique(steps):
        some = rows[steps == count]
        i, j = np.meshgrid(np.arange(count + 1), np.arange(count + 1), indexing="ij")
        i, j = i[i + j <= count], j[i + j <= count]
        shares = np.stack([i, j, count - i - j], axis=1) / count
        shares = (1.0 - 3.0 * LEAST_INSIDE) * shares + LEAST_INSIDE
        corners = mesh.vertices_mm[mesh.faces[some]]
        points.append(np.einsum("sk,fkx->fsx", shares, corners).reshape(-1, 3))
        on_face.append(np.repeat(some, len(shares)))
    return np.concatenate(points), np.concatenate(on_face)
