"""Patches of a surface that are there twice, but cut into other triangles.

Two ways they come about. Either the copy uses the vertices of the surface at its rim: then both
have the same rim, along which more than two faces meet, and next to nothing lies between them. Or
it is a loose surface of its own, all of it on other faces.
"""

import numpy as np

from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.face_groups import join_rows
from viewer.geometry.fault_words import CRACK_MM
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mend.edge_keys import directed_keys
from viewer.geometry.mend.edge_sums import edge_sums
from viewer.geometry.mend.mended import MendedMesh, after, kept_faces, unchanged
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.nearest_face import nearest_faces
from viewer.geometry.self_intersections import near_distance_mm
from viewer.geometry.shell_contacts import loose_sheets
from viewer.progress import Progress

_SHARE = 4e-4  # of the part's diagonal, up to which surfaces are one, but no more than a crack
_AREA_SHARE = 0.02  # by which the areas of two cuts of one curved patch may differ
_MOST_COPIES = 4  # of one patch
_MOST_LOOSE = 200  # loose surfaces, the smallest first, that are compared with all others


def same_within_mm(mesh: Mesh) -> float:
    """How far two surfaces of a part may lie apart and count as one."""
    size_mm = float(np.linalg.norm(np.ptp(mesh.box_mm, axis=0)))
    return max(min(CRACK_MM, _SHARE * size_mm), near_distance_mm(mesh.box_mm))


def drop_twin_patches(mesh: Mesh, progress: Progress | None = None) -> MendedMesh:
    """The mesh without the later of two patches with one rim, where no edge is the worse for it.

    Two that face against each other and are both needed or neither, such as the wall between two
    bodies, go both. Raises Cancelled.
    """
    progress = progress or Progress()
    done = unchanged(mesh)
    for turn in range(_MOST_COPIES):
        progress.report(turn / _MOST_COPIES, "Looking for doubled patches")
        kept = _without_twins(done.mesh, same_within_mm(mesh), progress)
        if kept.all() or not kept.any():
            break
        done = after(done, kept_faces(done.mesh, kept))
    return done


def drop_loose_copies(mesh: Mesh, progress: Progress | None = None) -> MendedMesh:
    """The mesh without loose surfaces that lie on others with all their area. Raises Cancelled."""
    kept = _without_loose_copies(mesh, same_within_mm(mesh), progress or Progress())
    return unchanged(mesh) if kept.all() else kept_faces(mesh, kept)


def _without_twins(mesh: Mesh, within_mm: float, progress: Progress) -> np.ndarray:
    """(m,) bool: the faces that stay after one copy of each patch with a common rim is dropped."""
    kept = np.ones(mesh.face_count, bool)
    if not len(find_edge_faults(mesh.faces).crowded):
        return kept
    progress.check()
    patch, first, second, against = _twins(mesh, within_mm, progress)
    if not len(second):
        return kept
    chosen = np.flatnonzero(np.isin(patch, second))
    found = edge_sums(mesh.faces, kept, chosen)
    kept[chosen[found.odd_edges_fewer()[found.patch] > 0]] = False
    still = np.bincount(patch[kept], minlength=mesh.face_count) > 0
    chosen = np.flatnonzero(np.isin(patch, second[~against & still[second]]))
    if len(chosen):  # two copies of a surface: one alone leaves no odd edge fewer
        found = edge_sums(mesh.faces, kept, chosen)
        kept[chosen[found.nearer_to_closed()[found.patch] > 0]] = False
    # Two that face against each other: a sheet doubled back is left for the step that thickens it.
    still = np.bincount(patch[kept], minlength=mesh.face_count) > 0
    if not (against & still[second]).any():
        return kept
    shells = shells_of(mesh, progress)
    sheet = loose_sheets(mesh, shells)[1][shells.shell_of_face]
    both = against & still[second] & ~(sheet[first] & sheet[second])
    chosen = np.flatnonzero(np.isin(patch, np.concatenate([first[both], second[both]])))
    if len(chosen):
        found = edge_sums(mesh.faces, kept, chosen)
        unharmed = (found.nearer_to_closed() >= 0) & (found.odd_edges_fewer() >= 0)
        kept[chosen[unharmed[found.patch]]] = False
    return kept


def _twins(mesh: Mesh, within_mm: float, progress: Progress):
    """Patch of each face ((m,) int), and pairs of patches that lie on each other.

    A patch is called by its lowest face; of a pair the one with the lower comes first. `against`
    ((p,) bool) says whether the two face against each other.
    """
    neighbours = neighbours_of(mesh)
    progress.check()
    own = np.arange(mesh.face_count, dtype=np.int32)[:, None]
    rows = np.concatenate([own, np.where(neighbours < 0, own, neighbours)], axis=1)
    patch = join_rows(mesh.face_count, rows)
    progress.check()
    a, b, c = mesh.faces.T
    at_rim = (neighbours < 0) & ((a != b) & (b != c) & (c != a))[:, None]
    rim_patch = np.broadcast_to(patch[:, None], at_rim.shape)[at_rim]
    order = np.argsort(rim_patch, kind="stable")
    rim_patch = rim_patch[order]
    starts = np.flatnonzero(np.diff(rim_patch, prepend=-1))
    if not len(starts):
        return patch, *(np.empty(0, np.int64) for _ in range(2)), np.empty(0, bool)
    face, side = np.nonzero(at_rim)
    edges = np.stack([mesh.faces[face, side], mesh.faces[face, (side + 1) % 3]], axis=1)[order]
    numbers, upward = _scattered(directed_keys(np.sort(edges, axis=1))), edges[:, 0] < edges[:, 1]
    # Patches with the same rim have the same sum of numbers, one for each edge; with signs the sum
    # tells the direction as well. Sums of 64 bits wrap round, which does no harm.
    rim = np.add.reduceat(numbers, starts)
    way = np.add.reduceat(np.where(upward, numbers, ~numbers + np.uint64(1)), starts)
    backwards = way > ~way + np.uint64(1)
    direction = np.where(backwards, ~way + np.uint64(1), way)
    names = rim_patch[starts]
    progress.check()
    # Only those that share their rim with another are worth measuring.
    _, like, count = np.unique(rim, return_inverse=True, return_counts=True)
    shared = count[like] > 1
    names, rim, direction, backwards = (each[shared] for each in (names, rim, direction, backwards))
    volume, area = _volumes_and_areas(mesh, patch, names)
    progress.check()
    volume = np.where(backwards, -1.0, 1.0) * volume[names]
    area = area[names]
    # In this order patches with one rim follow one another as they lie in space.
    order = np.lexsort((volume, direction, rim))
    one, other = order[:-1], order[1:]
    larger = np.maximum(area[one], area[other])
    lies_on = (rim[one] == rim[other]) & (direction[one] == direction[other])
    lies_on &= direction[one] != 0  # else it has no rim: front and back of it are one patch
    lies_on &= np.abs(volume[one] - volume[other]) <= within_mm * larger
    lies_on &= np.abs(area[one] - area[other]) <= _AREA_SHARE * larger
    lies_on[1:] &= ~lies_on[:-1]  # of three on one another, two at a time
    one, other = one[lies_on], other[lies_on]
    pairs = np.sort(np.stack([names[one], names[other]], axis=1), axis=1)
    return patch, pairs[:, 0], pairs[:, 1], backwards[one] != backwards[other]


def _scattered(keys: np.ndarray) -> np.ndarray:
    """(k,) uint64 numbers without a pattern, the same for the same key.

    The finaliser of splitmix64 (Steele, Lea & Flood 2014, "Fast splittable pseudorandom number
    generators"; from memory).
    """
    mixed = keys.astype(np.uint64)
    mixed = (mixed ^ (mixed >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    mixed = (mixed ^ (mixed >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    return mixed ^ (mixed >> np.uint64(31))


def _volumes_and_areas(
    mesh: Mesh, patch: np.ndarray, names: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """(m,) of each patch in `names`: mm³ between it and the part's middle, and mm²; 0 elsewhere."""
    asked = np.zeros(mesh.face_count, bool)
    asked[names] = True
    few = np.flatnonzero(asked[patch])
    corners = mesh.vertices_mm[mesh.faces[few]] - mesh.box_mm.mean(axis=0)
    six_volumes = np.einsum("ij,ij->i", corners[:, 0], np.cross(corners[:, 1], corners[:, 2]))
    return (
        np.bincount(patch[few], six_volumes / 6.0, mesh.face_count),
        np.bincount(patch[few], mesh.face_areas_mm2[few], mesh.face_count),
    )


def _without_loose_copies(mesh: Mesh, within_mm: float, progress: Progress) -> np.ndarray:
    """(m,) bool: the faces that stay after loose surfaces are dropped that lie on others."""
    kept = np.ones(mesh.face_count, bool)
    if not len(find_edge_faults(mesh.faces).open):
        return kept
    shells = shells_of(mesh, progress)
    loose = np.flatnonzero(loose_sheets(mesh, shells)[0]) if shells.count > 1 else []
    if not len(loose):
        return kept
    areas = np.bincount(shells.shell_of_face, mesh.face_areas_mm2, shells.count)
    loose = loose[np.lexsort((-loose, areas[loose]))][:_MOST_LOOSE]
    low, high = mesh.corners_mm.min(axis=1), mesh.corners_mm.max(axis=1)
    for done, shell in enumerate(loose):
        progress.report(done / len(loose), "Looking for doubled patches")
        own = shells.shell_of_face == shell
        box = shells.boxes_mm[shell]
        beside = (low <= box[1] + within_mm).all(axis=1) & (high >= box[0] - within_mm).all(axis=1)
        others = np.flatnonzero(kept & ~own & beside)
        if len(others) and _lies_on(mesh, np.flatnonzero(own), others, within_mm):
            kept[own] = False
    return kept


def _lies_on(mesh: Mesh, faces: np.ndarray, others: np.ndarray, within_mm: float) -> bool:
    """Whether corners and middles of some faces lie no farther than that from some others."""
    corners = mesh.corners_mm[faces]
    middles = [corners.mean(axis=1), *(0.5 * (corners[:, k] + corners[:, k - 1]) for k in range(3))]
    points = np.concatenate([mesh.vertices_mm[np.unique(mesh.faces[faces])], *middles])
    some = points[:: max(1, len(points) // 50)]  # most surfaces show at once that they do not
    faces_there = frozen(mesh.faces[others])
    for asked in (some, points):
        nearest = nearest_faces(mesh.vertices_mm, faces_there, asked)
        if nearest.distances_mm.max() > within_mm:
            return False
    return True
