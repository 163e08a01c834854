"""Band, lasso, what is seen, and borders that roll, each as fine as a brush leaves its mark.

Faces of the class that is given already are not cut: to mark them again would change nothing.
"""

from collections.abc import Callable

import numpy as np

from viewer.geometry.cut_surface import CutSurface, Marked, finer_where, longest_edges_mm, reach_mm
from viewer.geometry.face_classes import UNMARKED
from viewer.geometry.fine_marks import met_faces, rows_inside
from viewer.geometry.known_of_mesh import cut_from
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import Outline, band_outline, lasso_outline, rim_edge_mm
from viewer.geometry.visible_faces import HIDDEN, PARTLY, Eye
from viewer.geometry.whole_borders import border_distances_mm, smooth_marks
from viewer.geometry.whole_marks import look_at, with_class
from viewer.progress import Progress

A_HAIR_MM = 1e-6  # rounding of a turned part: a floor at the height of a rim belongs to the band
SMOOTH_PARTS = 5.0  # a border is rounded with edges of this part of the width
EYE_PARTS = 400.0  # what an eye sees ends at edges of this part of the part's diagonal
See = Callable[[Mesh], np.ndarray]


def eye_edge_mm(mesh: Mesh) -> float:
    """Edges along the border of what is seen: four of the pixels that visibility is told by."""
    return max(float(np.linalg.norm(np.ptp(mesh.box_mm, axis=0))) / EYE_PARTS, 0.2)


def mark_band(
    mesh: Mesh,
    classes: np.ndarray,
    face_class: int,
    matrix: np.ndarray,
    heights_mm: tuple[float, float],
) -> Marked:
    """What lies between two heights over the platform, in any order.

    classes : (m,) uint8 before; matrix : (4, 4) from part coordinates to the platform's
    """
    low, high = sorted(heights_mm)
    base = matrix[2, 3]
    outline = band_outline(
        matrix[2, :3], low - base - A_HAIR_MM, high - base + A_HAIR_MM, rim_edge_mm(mesh.box_mm)
    )
    reached = _worth_marking(mesh, classes, face_class, outline)
    surface, inside = CutSurface.of(mesh).along(reached, outline)
    return _given(surface, classes, inside, face_class)


def mark_loop(
    mesh: Mesh,
    classes: np.ndarray,
    face_class: int,
    to_pixels: np.ndarray,
    loop_px: np.ndarray,
    finest_mm: float,
    see: See | None = None,
    progress: Progress | None = None,
) -> Marked:
    """What is drawn within a closed loop of (k, 2) pixels, even-odd where it crosses itself.

    to_pixels : (4, 4), p (mm, 1) to (x w, y w, ·, w), w > 0 before the eye
    see : (mesh) → (m,) uint8 as of `see_faces` for what is seen alone; None goes right through
    """
    progress = progress or Progress()
    outline = lasso_outline(loop_px, to_pixels, finest_mm)
    reached = _worth_marking(mesh, classes, face_class, outline)
    progress.check()
    surface = CutSurface.of(mesh)
    if see is None:
        surface, inside = surface.along(reached, outline)
        return _given(surface, classes, inside, face_class)
    seen = see(mesh)
    reached = reached[seen[reached] != HIDDEN]
    surface, inside = surface.along(reached, outline)
    halves = reached[seen[reached] == PARTLY]
    if longest_edges_mm(mesh, halves).max(initial=0.0) <= eye_edge_mm(mesh):
        return _given(surface, classes, inside, face_class)
    among = np.zeros(mesh.face_count, bool)
    among[reached] = True

    def ask(surface: CutSurface) -> tuple[np.ndarray, np.ndarray]:
        seen = see(surface.mesh)
        held = rows_inside(surface.mesh, np.flatnonzero(among[surface.parents]), outline)
        return held[seen[held] == PARTLY], held[seen[held] != HIDDEN]

    surface, held = finer_where(surface, ask, eye_edge_mm(mesh), progress)
    return _given(surface, classes, held, face_class)


def mark_seen(
    mesh: Mesh,
    classes: np.ndarray,
    face_class: int,
    eyes: list[Eye],
    progress: Progress | None = None,
) -> Marked:
    """What at least one of the eyes sees; its border has no line of its own, only fine faces."""
    progress = progress or Progress()
    looked: tuple[Mesh, np.ndarray, list[Eye]] | None = None

    def ask(surface: CutSurface) -> tuple[np.ndarray, np.ndarray]:
        nonlocal looked
        looked = _look_again(surface.mesh, eyes, looked, progress)
        seen = looked[1]
        worth = classes[surface.parents] != face_class
        return np.flatnonzero((seen == PARTLY) & worth), np.flatnonzero(seen != HIDDEN)

    surface, seen = finer_where(CutSurface.of(mesh), ask, eye_edge_mm(mesh), progress)
    return _given(surface, classes, seen, face_class)


def _look_again(
    mesh: Mesh,
    eyes: list[Eye],
    before: tuple[Mesh, np.ndarray, list[Eye]] | None,
    progress: Progress,
) -> tuple[Mesh, np.ndarray, list[Eye]]:
    """A mesh, (m,) how much of each face is seen, and the eyes that see some of them in part.

    before : of the mesh from which this one was cut: pieces of what was hidden are hidden, those
        of what was seen are seen, so that only the rest is asked of the eyes that saw it in part
    """
    origin = cut_from(mesh)
    if before is None or origin is None or origin[0] is not before[0]:
        seen = look_at(mesh, eyes, progress)
        faces = seen.faces
    else:
        faces, eyes = before[1][origin[1]], before[2]
        asked = faces == PARTLY
        seen = look_at(mesh, eyes, progress, asked)
        faces[asked] = seen.faces[asked]
    return mesh, faces, [eye for eye, some in zip(eyes, seen.eyes_in_part, strict=True) if some]


def grow(
    mesh: Mesh, classes: np.ndarray, face_class: int, by_mm: float, progress: Progress | None = None
) -> Marked:
    """One class wider by `by_mm` all along its border."""
    surface, near = _beside_border(mesh, classes, face_class, by_mm, False, progress)
    return _given(surface, classes, near, face_class)


def shrink(
    mesh: Mesh, classes: np.ndarray, face_class: int, by_mm: float, progress: Progress | None = None
) -> Marked:
    """One class narrower by `by_mm`; what it gives up is unmarked."""
    surface, near = _beside_border(mesh, classes, face_class, by_mm, True, progress)
    return _given(surface, classes, near, UNMARKED)


def smooth(
    mesh: Mesh, classes: np.ndarray, by_mm: float, progress: Progress | None = None
) -> Marked:
    """The borders of all classes rounded to about `by_mm`."""
    progress = progress or Progress()

    def ask(surface: CutSurface) -> tuple[np.ndarray, None]:
        labels = classes[surface.parents]
        far_mm = border_distances_mm(surface.mesh, labels, by_mm, progress)
        rows = np.flatnonzero(np.isfinite(far_mm))
        return rows[far_mm[rows] - reach_mm(surface.mesh, rows) <= 0.5 * by_mm], None

    finest_mm = max(by_mm / SMOOTH_PARTS, rim_edge_mm(mesh.box_mm))
    surface, _ = finer_where(CutSurface.of(mesh), ask, finest_mm, progress)
    labels = classes[surface.parents]
    return surface.marked(smooth_marks(surface.mesh, labels, by_mm, progress))


def _worth_marking(
    mesh: Mesh, classes: np.ndarray, face_class: int, outline: Outline
) -> np.ndarray:
    met = met_faces(mesh, outline)
    return met[classes[met] != face_class]


def _given(surface: CutSurface, classes: np.ndarray, rows: np.ndarray, face_class: int) -> Marked:
    return surface.marked(with_class(classes[surface.parents], rows, face_class))


def _beside_border(mesh, classes, face_class, by_mm, inwards, progress):
    """The surface, cut at a distance from the border of a class, and what lies nearer on a side."""
    progress = progress or Progress()

    def ask(surface: CutSurface) -> tuple[np.ndarray, np.ndarray]:
        within = classes[surface.parents] == face_class
        far_mm = border_distances_mm(surface.mesh, within, by_mm, progress)
        rows = np.flatnonzero(np.isfinite(far_mm) & (within == inwards))
        off = far_mm[rows] - by_mm
        return rows[np.abs(off) <= reach_mm(surface.mesh, rows)], rows[off <= 0.0]

    return finer_where(CutSurface.of(mesh), ask, rim_edge_mm(mesh.box_mm), progress)
