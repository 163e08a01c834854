"""What does not depend on the pose, worked out once when a part is opened."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from viewer.geometry.column_field import FacesForLines
from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.geometry.face_blocks import FaceBlocks, block_faces
from viewer.geometry.face_fours import face_fours
from viewer.geometry.face_neighbours import face_neighbours
from viewer.geometry.face_rows import FaceRows, face_rows
from viewer.geometry.face_tree import corners_in_order, order_along_curve
from viewer.geometry.known_of_mesh import neighbours_of, shells_of
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.point_blocks import PointBlocks, block_points
from viewer.geometry.ray_tree import RayTree, build_ray_tree
from viewer.geometry.sealed_faces import SealedFaces, find_sealed_faces
from viewer.geometry.shells import Shells
from viewer.geometry.smooth_runs import SmoothRuns, smooth_runs
from viewer.geometry.solid_neighbours import join_at_crowded_edges
from viewer.geometry.union_surface import UnionSurface, union_surface
from viewer.progress import Progress
from viewer.words import say


@dataclass(frozen=True, eq=False)
class PreparedPart:
    """A part made ready for `measure_pose`.

    mesh : the part as the file has it
    centre_mm : (3,) float64, centre of its box
    points_mm : (n, 3) float64, vertices less the centre, which keeps digits far from the origin
    faces : (m, 3) int32, wound so that normals point out of the material
    normals : (m, 3) float32, unit, outward; zero where a face has no area
    exposed_mm2 : (m,) float64, area of each face that lies on the surface of the union of shells
    exposed_share : (m,) float32, the same as a share of the face's area
    rows : normals and exposed areas once more, for passes over all faces
    solid_points_mm, solid_faces : (p, 3) and (t, 3), the surface with touching and overlapping
        shells united, for sections and sums; the part's own arrays where there are none
    solid_origin : (t,) int32, face of the part that each of solid_faces is (a piece of)
    blocks, solid_blocks : blocks of faces and of solid_faces; point_blocks : of points_mm
    neighbours : (m, 3) int32
    runs : smooth runs of faces
    volume_mm3, centroid_mm : of the material, centroid in the frame of points_mm
    overlapping : some faces lie inside or against another shell
    notes : sentences for the user
    """

    mesh: Mesh
    centre_mm: np.ndarray
    points_mm: np.ndarray
    faces: np.ndarray
    normals: np.ndarray
    exposed_mm2: np.ndarray
    exposed_share: np.ndarray
    rows: FaceRows
    solid_points_mm: np.ndarray
    solid_faces: np.ndarray
    solid_origin: np.ndarray
    blocks: FaceBlocks
    solid_blocks: FaceBlocks
    point_blocks: PointBlocks
    neighbours: np.ndarray
    runs: SmoothRuns
    shells: Shells
    volume_mm3: float
    centroid_mm: np.ndarray
    overlapping: bool
    notes: tuple[str, ...]

    @cached_property
    def ray_tree(self) -> RayTree:
        """Tree over `solid_faces` for rays in the frame of points_mm; built when first needed."""
        return self._new_ray_tree(Progress())

    @cached_property
    def for_lines(self) -> FacesForLines:
        """`faces` for upright lines, which take shells that touch or overlap for their union."""
        return self._new_for_lines(Progress())

    def _new_for_lines(self, progress: Progress) -> FacesForLines:
        if self.solid_faces is self.faces:
            self.get_ready(progress, "ray_tree")
            order, corners = self.ray_tree.order, self.ray_tree.corners_mm
        else:
            order = order_along_curve(self.points_mm, self.faces, progress)
            corners = corners_in_order(self.points_mm, self.faces, order, progress)
        return FacesForLines(order, frozen(corners), face_fours(corners, progress))

    @cached_property
    def solid_neighbours(self) -> np.ndarray:
        """(t, 3) int32, face of solid_faces across the edge from corner k to k + 1; −1 if open."""
        return self._new_solid_neighbours(Progress())

    @cached_property
    def sealed_faces(self) -> SealedFaces:
        """Which faces bound a sealed hollow; worked out when first needed."""
        return self._new_sealed_faces(Progress())

    def get_ready(self, progress: Progress, *names: str) -> None:
        """Work out what is kept with the part in short steps, all of it or what is named.

        Raises Cancelled, and then keeps no half of anything.
        """
        known = self.__dict__  # where cached properties live
        for name, make in (
            ("ray_tree", self._new_ray_tree),
            ("for_lines", self._new_for_lines),
            ("solid_neighbours", self._new_solid_neighbours),
            ("sealed_faces", self._new_sealed_faces),
        ):
            if name not in known and (name in names or not names):
                made = make(progress)
                progress.check()
                known[name] = made

    def _new_ray_tree(self, progress: Progress) -> RayTree:
        return build_ray_tree(self.solid_points_mm, self.solid_faces, progress)

    def _new_solid_neighbours(self, progress: Progress) -> np.ndarray:
        if self.solid_faces is self.faces:
            # `neighbours` goes by the file's winding, in which some faces are turned over.
            turned = (self.shells.orientation < 0)[:, None]
            known = np.where(turned, self.neighbours[:, ::-1], self.neighbours)
        else:
            known = face_neighbours(self.solid_faces, progress)
        progress.check()
        return frozen(
            join_at_crowded_edges(self.solid_points_mm, self.solid_faces, known, progress)
        )

    def _new_sealed_faces(self, progress: Progress) -> SealedFaces:
        known = self.shells if self.solid_faces is self.faces else None
        return find_sealed_faces(
            self.solid_points_mm, self.solid_faces, self.solid_origin, len(self.faces), known,
            progress,
        )  # fmt: skip


def prepare_part(mesh: Mesh, progress: Progress | None = None) -> PreparedPart:
    """Shells, winding, exposed areas and runs of a mesh."""
    progress = progress or Progress()
    centre = mesh.box_mm.mean(axis=0)
    progress.check()
    points = frozen(mesh.vertices_mm - centre)
    progress.report(0.1, "Finding neighbours")
    neighbours = neighbours_of(mesh, progress)
    progress.report(0.3, "Finding shells")
    shells = shells_of(mesh, progress)
    wound = _wind(points, mesh.faces, shells.orientation, progress.stop_flag)
    progress.check()
    faces, normals, areas = (frozen(x) for x in wound)
    progress.report(0.7, "Finding smooth runs")
    runs = smooth_runs(points, faces, neighbours, normals, progress)
    progress.report(0.8, "Uniting shells")
    union = union_surface(mesh, faces, normals, shells, progress.part(0.8, 1.0))
    share = union.exposed_share
    progress.check()
    volume = _volume_and_moment(points, faces, share)[0]
    solid_points, solid_faces = points, faces
    origin = np.arange(len(faces), dtype=np.int32)
    if len(union.united_faces):
        solid_points = np.vstack([points, union.united_points_mm - centre])
        solid_faces = np.vstack([faces[union.kept], union.united_faces + len(points)])
        solid_faces = solid_faces.astype(np.int32)
        origin = np.concatenate([origin[union.kept], union.united_origin])
    progress.check()
    centroid = _centroid(solid_points, solid_faces, share if solid_faces is faces else None)
    progress.check()
    blocks = block_faces(points, faces, areas * share)
    progress.check()
    solid_blocks = blocks if solid_faces is faces else block_faces(solid_points, solid_faces)
    progress.check()
    rows = face_rows(normals, areas * share)
    progress.report(1.0)
    return PreparedPart(
        mesh,
        frozen(centre),
        frozen(points),
        frozen(faces),
        frozen(normals),
        frozen(areas * share),
        frozen(share),
        rows,
        frozen(solid_points),
        frozen(solid_faces),
        frozen(origin),
        blocks,
        solid_blocks,
        block_points(points),
        frozen(neighbours),
        runs,
        shells,
        volume,
        frozen(centroid),
        bool((share < 1).any()),
        _notes(shells, union),
    )


@compiled
def _wind(points, faces, orientation, stop):
    wound = faces.copy()
    normals = np.zeros(faces.shape, np.float32)
    areas = np.zeros(len(faces))
    for f in range(len(faces)):
        if f & LOOK_BITS == 0 and stop[0]:
            break
        if orientation[f] < 0:
            wound[f, 1], wound[f, 2] = faces[f, 2], faces[f, 1]
        ax, ay, az = points[wound[f, 0]]
        bx, by, bz = points[wound[f, 1]]
        cx, cy, cz = points[wound[f, 2]]
        bx, by, bz, cx, cy, cz = bx - ax, by - ay, bz - az, cx - ax, cy - ay, cz - az
        x, y, z = by * cz - bz * cy, bz * cx - bx * cz, bx * cy - by * cx
        length = np.sqrt(x * x + y * y + z * z)
        areas[f] = 0.5 * length
        if length > 0:
            normals[f, 0], normals[f, 1], normals[f, 2] = x / length, y / length, z / length
    return wound, normals, areas


def _centroid(points, faces, share):
    weights = np.ones(len(faces), np.float32) if share is None else share
    volume, moment = _volume_and_moment(points, faces, weights)
    return moment / volume if volume > 0 else np.zeros(3)


@compiled
def _volume_and_moment(points, faces, weights):
    """Divergence theorem over tetrahedra from the origin, faces weighed by exposed share.

    The volume is exact for weighed faces too, as point · normal is the same all over a face.
    """
    volume = 0.0
    moment = np.zeros(3)
    for f in range(len(faces)):
        ax, ay, az = points[faces[f, 0]]
        bx, by, bz = points[faces[f, 1]]
        cx, cy, cz = points[faces[f, 2]]
        product = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
        part = weights[f] * product / 6.0
        volume += part
        moment[0] += part * (ax + bx + cx) / 4.0
        moment[1] += part * (ay + by + cy) / 4.0
        moment[2] += part * (az + bz + cz) / 4.0
    return volume, moment


def _notes(shells: Shells, union: UnionSurface) -> tuple[str, ...]:
    notes = []
    if shells.inward_shells == 1:
        notes.append(
            say("1 shell faces the wrong way in the file; it is measured as what it encloses.")
        )
    elif shells.inward_shells:
        notes.append(
            say(
                "{inward_shells} shells face the wrong way in the file; they are "
                "measured as what they enclose.",
                inward_shells=shells.inward_shells,
            )
        )
    rewound = int(np.count_nonzero(shells.rewound))
    if rewound:
        faces = say("1 face is") if rewound == 1 else say("{rewound} faces are", rewound=rewound)
        notes.append(
            say(
                "{faces} wound against the rest of the surface; measured the right way round.",
                faces=faces,
            )
        )
    open_shells = int(np.count_nonzero(~shells.closed))
    if open_shells:
        notes.append(
            say(
                "The surface is not closed everywhere; what needs an inside, such as supports and "
                "volume, is an estimate."
            )
        )
    if not union.exact:
        notes.append(
            say("Shells that touch or overlap are not all closed; their overlap is an estimate.")
        )
    return tuple(notes)
