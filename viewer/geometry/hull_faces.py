"""The flat faces of a part's convex hull: what it can be stood on."""

from dataclasses import dataclass
from typing import NamedTuple

import manifold3d
import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.known_of_mesh import neighbours_of
from viewer.geometry.mesh import Mesh

SAME_PLANE_DEG = 0.1  # hull triangles within this angle of the largest one lie in one face
SMALLEST_SHARE = 0.001  # of the hull's surface: smaller faces are the facets of a round


@dataclass(frozen=True, eq=False)
class HullFace:
    """One flat face of the hull, in part coordinates.

    polygon_mm : (k, 3) float64, convex, anticlockwise seen from outside
    normal : (3,) unit, outward: turn it to straight down to stand the part on this face
    area_mm2 : of the polygon; margin_mm : how far inside its rim the centre of mass falls,
    negative where it falls outside and the part would tip
    """

    polygon_mm: np.ndarray
    normal: np.ndarray
    area_mm2: float
    margin_mm: float

    @property
    def stable(self) -> bool:
        """Whether the part stands on this face without tipping."""
        return self.margin_mm > 0.0


class ConvexHull(NamedTuple):
    """mesh : closed, its corners less centre_mm; centre_mm : (3,) float64, in part coordinates"""

    mesh: Mesh
    centre_mm: np.ndarray


def convex_hull(mesh: Mesh) -> ConvexHull | None:
    """The convex hull of the vertices that faces use; None for a flat or empty part."""
    if not mesh.face_count:
        return None
    used = np.zeros(len(mesh.vertices_mm), bool)
    used[mesh.faces.ravel()] = True
    points = mesh.vertices_mm[used]
    centre = points.mean(axis=0)
    solid = manifold3d.Manifold.hull_points(points - centre)
    shape = solid.to_mesh64()
    corners, triangles = np.asarray(shape.vert_properties)[:, :3], np.asarray(shape.tri_verts)
    hull = Mesh(corners, triangles.astype(np.int32))
    size = float(np.linalg.norm(np.ptp(points, axis=0)))
    return ConvexHull(hull, centre) if hull.signed_volume_mm3 > 1e-9 * size**3 else None


def hull_faces(
    mesh: Mesh, known: ConvexHull | None = None, mass_centre_mm: np.ndarray | None = None
) -> tuple[HullFace, ...]:
    """The flat faces of the convex hull of `mesh`, largest first; none for a flat or empty part.

    known, mass_centre_mm : its `convex_hull` and (3,) centre of mass, if somebody has them already

    The centre of mass takes the part as solid and of one density; of an open part, whose volume
    is not defined, the hull's is taken.
    """
    whole = known or convex_hull(mesh)
    if whole is None:
        return ()
    hull, centre = whole
    if mass_centre_mm is None:
        mass_centre = _mass_centre_mm(mesh, centre, hull)
    else:
        mass_centre = mass_centre_mm - centre
    least_mm2 = SMALLEST_SHARE * float(hull.face_areas_mm2.sum())
    areas = hull.face_areas_mm2
    large = [group for group in _planes(hull) if areas[group].sum() >= least_mm2]
    faces = [_face(hull, group, mass_centre, centre) for group in large]
    return tuple(sorted(faces, key=lambda face: -face.area_mm2))


def hull_face_under(
    faces: tuple[HullFace, ...], origin_mm: np.ndarray, direction: np.ndarray
) -> HullFace | None:
    """The hull face that a ray meets from outside, in part coordinates; None if it meets none."""
    origin, direction = np.asarray(origin_mm, float), np.asarray(direction, float)
    for face in faces:
        slope = float(direction @ face.normal)
        if slope >= 0.0:
            continue
        along = float((face.polygon_mm[0] - origin) @ face.normal) / slope
        point = origin + direction * along
        if along >= 0.0 and _margin_mm(face.polygon_mm, face.normal, point) >= 0.0:
            return face  # a hull is convex: no other face can be met from outside
    return None


def _mass_centre_mm(mesh: Mesh, centre: np.ndarray, hull: Mesh) -> np.ndarray:
    """(3,) centre of mass less `centre`, by the divergence theorem over signed tetrahedra."""
    closed = bool((neighbours_of(mesh) >= 0).all())
    sane = 1e-4 < mesh.signed_volume_mm3 / hull.signed_volume_mm3 < 1.0001
    solid = mesh if closed and sane else hull
    shift = centre if solid is mesh else np.zeros(3)
    a, b, c = (solid.vertices_mm[solid.faces[:, k]] - shift for k in range(3))
    volumes = np.einsum("ij,ij->i", a, np.cross(b, c))
    return volumes @ (a + b + c) / (4.0 * volumes.sum())


def _planes(hull: Mesh) -> list[np.ndarray]:
    """Triangles that lie in one plane, as groups of indices, each about its largest triangle."""
    order = np.argsort(-hull.face_areas_mm2, kind="stable")
    near = float(np.cos(np.radians(SAME_PLANE_DEG)))
    group = _flat_groups(face_neighbours(hull.faces), hull.face_normals, order, near)
    by_group = np.argsort(group, kind="stable")
    return np.split(by_group, np.flatnonzero(np.diff(group[by_group])) + 1)


@compiled
def _flat_groups(neighbours, normals, order, near):
    """Grow from each free triangle, largest first, over edges to triangles that face its way."""
    group = np.full(len(normals), -1, np.int64)
    queue = np.empty(len(normals), np.int64)
    for seed in order:
        if group[seed] >= 0:
            continue
        group[seed], queue[0], head, tail = seed, seed, 0, 1
        while head < tail:
            f = queue[head]
            head += 1
            for k in range(3):
                g = neighbours[f, k]
                if g < 0 or group[g] >= 0:
                    continue
                cosine = 0.0
                for axis in range(3):
                    cosine += normals[seed, axis] * normals[g, axis]
                if cosine >= near:
                    group[g] = seed
                    queue[tail] = g
                    tail += 1
    return group


def _face(hull: Mesh, group: np.ndarray, mass_centre: np.ndarray, shift: np.ndarray) -> HullFace:
    normal = (hull.face_normals[group] * hull.face_areas_mm2[group, None]).sum(axis=0)
    normal /= np.linalg.norm(normal)
    corners = hull.vertices_mm[np.unique(hull.faces[group])]
    polygon = _outline(corners, normal)
    inner = mass_centre + normal * float((polygon[0] - mass_centre) @ normal)
    area = float(hull.face_areas_mm2[group].sum())
    return HullFace(polygon + shift, normal, area, _margin_mm(polygon, normal, inner))


def _margin_mm(polygon: np.ndarray, normal: np.ndarray, point: np.ndarray) -> float:
    """Distance of a point in the polygon's plane to its nearest side line; negative outside."""
    along = np.roll(polygon, -1, axis=0) - polygon
    inward = np.cross(normal, along)
    inward /= np.linalg.norm(inward, axis=1, keepdims=True)
    return float(np.einsum("ij,ij->i", inward, point - polygon).min())


def _outline(points: np.ndarray, normal: np.ndarray) -> np.ndarray:
    """Convex outline of nearly coplanar points, anticlockwise (Andrew 1979, monotone chain)."""
    side = np.cross(normal, np.eye(3)[np.abs(normal).argmin()])
    side /= np.linalg.norm(side)
    flat = np.stack([points @ side, points @ np.cross(normal, side)], axis=1)
    order = np.lexsort((flat[:, 1], flat[:, 0]))
    slack = 1e-9 * float(np.ptp(flat, axis=0).max()) ** 2  # points on a side are no corners

    def half(indices: np.ndarray) -> list[int]:
        chain: list[int] = []
        for k in indices:
            while len(chain) > 1:
                a, b = flat[chain[-1]] - flat[chain[-2]], flat[k] - flat[chain[-2]]
                if a[0] * b[1] - a[1] * b[0] > slack:
                    break
                chain.pop()
            chain.append(int(k))
        return chain[:-1]

    return points[half(order) + half(order[::-1])]
