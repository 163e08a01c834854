"""Step of last resort: a new skin around what a faulty surface encloses, at a chosen resolution.

Whatever is wrong with the surface (open, crossing, doubled, inside out), the new one is closed, has
two faces at every edge and does not cross itself. It has its vertices on the old one wherever there
is one; sharp edges lose up to a cell, and what is thinner than a cell may be lost.
"""

import math

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.edge_faults import find_edge_faults
from viewer.geometry.face_faults import find_face_faults
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mend.drop_doubled import drop_doubled
from viewer.geometry.mend.enclosed_lattice import find_enclosed, lattice_over
from viewer.geometry.mend.lattice_surface import LatticeSurface, lattice_surface
from viewer.geometry.mend.mended import MendedMesh, after
from viewer.geometry.mend.merge_near import merge_near
from viewer.geometry.mend.turn_outward import turn_outward
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.nearest_face import nearest_faces
from viewer.geometry.ray_tree import build_ray_tree
from viewer.geometry.self_intersections import find_self_intersections, near_distance_mm
from viewer.geometry.simplify_solid import simplify_solid
from viewer.geometry.unite_solids import Solid
from viewer.progress import Progress
from viewer.words import say

MOST_CELLS = 20_000_000
MOST_FACES = 4_000_000
FINE_MM = 0.14  # a third of a road of 0.42 mm: finer than that nothing prints
_CELLS_ALONG = 200
_USUAL_FACES = 1_000_000
_FACES_A_CELL = 13.0  # of new skin for each square of the resolution; measured
_WORTH_IT = 25  # new faces to an old one from which on fewer are tried
_FLAT_SHARE = (
    1e-4  # of the resolution: how much leaving out vertices may change; more makes needles
)
_MOST_SLIVERS = 0.01  # share of the faces after that
_MOST_MADE_UP = 0.375  # share of the new skin; more of it means that the surface is a sheet


def usual_resolution_mm(mesh: Mesh) -> float:
    """A resolution that suits a part: a 200th of its largest side, coarser for much surface."""
    size = float(np.ptp(mesh.box_mm, axis=0).max())
    by_faces = math.sqrt(_FACES_A_CELL * float(mesh.face_areas_mm2.sum()) / _USUAL_FACES)
    return _rounded_up(max(size / _CELLS_ALONG, by_faces, FINE_MM))


def finest_resolution_mm(mesh: Mesh) -> float:
    """The finest resolution that is not refused."""
    size = np.maximum(np.ptp(mesh.box_mm, axis=0), 1e-9)
    by_faces = math.sqrt(_FACES_A_CELL * float(mesh.face_areas_mm2.sum()) / MOST_FACES)
    by_cells = float(np.prod(size) / MOST_CELLS) ** (1.0 / 3.0)
    fine = max(by_faces, by_cells, 1e-6 * float(size.max()))
    while lattice_over(mesh.box_mm, fine).cells > MOST_CELLS:  # the room around counts as well
        fine *= 1.05
    return _rounded_up(fine)


def re_skin(mesh: Mesh, resolution_mm: float, progress: Progress | None = None) -> MendedMesh:
    """The closed surface of what a mesh encloses (its generalised winding number exceeds ½).

    resolution_mm : side of the cells; no place of the new skin lies farther from the old one,
        except over holes, and vertices lie on it
    New faces have the class of the nearest old face that looks the same way. Raises Cancelled, and
    RequestProblem for a resolution out of reach or a surface that encloses nothing.
    """
    progress = progress or Progress()
    finest, size = finest_resolution_mm(mesh), float(np.ptp(mesh.box_mm, axis=0).max())
    if not finest <= resolution_mm <= size:
        raise RequestProblem(
            say(
                "A new skin of this part at {resolution_mm:g} mm is out of reach; "
                "choose a resolution from {finest:g} to {size:.3g} mm, such as "
                "{mesh:g} mm.",
                resolution_mm=resolution_mm,
                finest=finest,
                size=size,
                mesh=usual_resolution_mm(mesh),
            )
        )
    first = _put_in_order(mesh, progress.part(0.0, 0.1))
    skin = _skin(first.mesh, resolution_mm, progress.part(0.1, 0.6))
    corners = skin.points_mm[skin.faces]
    made_up = _areas(corners[skin.made_up[skin.faces].all(axis=1)]).sum()
    if not len(corners) or made_up > _MOST_MADE_UP * _areas(corners).sum():
        raise RequestProblem(
            say(
                "This surface is a sheet: it encloses nothing that shows at "
                "{resolution_mm:g} mm. Give it a wall with the step thicken-sheet "
                "instead.",
                resolution_mm=resolution_mm,
            )
        )
    origin = _origin(first.mesh, skin, resolution_mm, progress.part(0.6, 0.8))
    new = MendedMesh(skin.points_mm, skin.faces, origin)
    return after(first, _with_fewer_faces(new, first.mesh, resolution_mm, progress.part(0.8, 1.0)))


def _put_in_order(mesh: Mesh, progress: Progress) -> MendedMesh:
    """The same surface with every face once, and wound like its neighbours."""
    first = merge_near(mesh, near_distance_mm(mesh.box_mm), progress.part(0.0, 0.3))
    first = after(first, drop_doubled(first.mesh, progress=progress.part(0.3, 0.8)))
    return after(first, turn_outward(first.mesh, progress.part(0.8, 1.0)))


def _skin(mesh: Mesh, resolution_mm: float, progress: Progress) -> LatticeSurface:
    """The new skin of a mesh; of one that is inside out as a whole, that of the turned one."""
    middle = mesh.box_mm.mean(axis=0)
    points, faces = mesh.vertices_mm - middle, mesh.faces
    lattice = lattice_over(mesh.box_mm - middle, resolution_mm)
    enclosed = find_enclosed(points, faces, lattice, progress.part(0.0, 0.3))
    if not enclosed.inside.any():
        faces = frozen(faces[:, ::-1])
        enclosed = find_enclosed(points, faces, lattice, progress.part(0.0, 0.3))
    tree = build_ray_tree(points, faces)
    skin = lattice_surface(lattice, enclosed, tree, progress.part(0.3, 1.0))
    return skin._replace(points_mm=skin.points_mm + middle)


def _origin(
    old: Mesh, skin: LatticeSurface, resolution_mm: float, progress: Progress
) -> np.ndarray:
    """For each new face the nearest old one that looks the same way, or else the nearest.

    Which way a face looks counts within half a cell only: the tiniest ones look anywhere.
    """
    new = Mesh(skin.points_mm, skin.faces)
    middles = new.corners_mm.mean(axis=1)
    found, distances_mm = nearest_faces(
        old.vertices_mm, old.faces, middles, progress.part(0.0, 0.8), new.face_normals
    )
    lost = np.flatnonzero(~(distances_mm <= 0.5 * resolution_mm))
    if len(lost):
        found[lost] = nearest_faces(
            old.vertices_mm, old.faces, middles[lost], progress.part(0.8, 1.0)
        ).faces
    return found


def _with_fewer_faces(
    new: MendedMesh, old: Mesh, resolution_mm: float, progress: Progress
) -> MendedMesh:
    """The new skin with few faces where the old one had few; unchanged where that does harm."""
    if _WORTH_IT * old.face_count > len(new.faces):
        return new
    ids = new.origin_face.astype(np.uint64)
    solid = Solid(new.vertices_mm.copy(), new.faces.astype(np.uint64), ids)
    fewer = simplify_solid(solid, _FLAT_SHARE * resolution_mm, progress.part(0.0, 0.5))
    if fewer is None:
        return new
    found = MendedMesh(fewer.points_mm, fewer.faces, fewer.origin)
    return found if _is_sound(found.mesh, progress.part(0.5, 1.0)) else new


def _is_sound(mesh: Mesh, progress: Progress) -> bool:
    """Closed, two faces at every edge, all with an area, few slivers, none through another."""
    edges, faces = find_edge_faults(mesh.faces), find_face_faults(mesh)
    if len(edges.open) or len(edges.crowded) or len(faces.degenerate):
        return False
    if len(faces.sliver) > _MOST_SLIVERS * mesh.face_count:
        return False
    return not len(find_self_intersections(mesh, neighbours_of(mesh), progress).crossing)


def _areas(corners_mm: np.ndarray) -> np.ndarray:
    a, b, c = corners_mm[:, 0], corners_mm[:, 1], corners_mm[:, 2]
    return 0.5 * np.linalg.norm(np.cross(b - a, c - a), axis=1)


def _rounded_up(length_mm: float) -> float:
    """To two digits."""
    unit = 10.0 ** (math.floor(math.log10(length_mm)) - 1)
    return float(f"{math.ceil(length_mm / unit - 1e-9) * unit:.6g}")
