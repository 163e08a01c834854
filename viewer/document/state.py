"""The truth about a job, frozen: part, face classes, poses, process. Swapped whole, not edited."""

from dataclasses import dataclass, field, fields, replace
from typing import Self

import numpy as np

from viewer.document.job_piece import JobPiece
from viewer.errors import RequestProblem
from viewer.geometry.bisect_faces import Pieces
from viewer.geometry.carried_marks import carry_marks
from viewer.geometry.cut_surface import Marked
from viewer.geometry.face_classes import CLASS_B
from viewer.geometry.known_of_mesh import get_to_know_pieces
from viewer.geometry.mend.mended import MendedMesh, carry_classes
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.pose import Pose, pose_of_rotation, rotation
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.refined_classes import classes_of_base
from viewer.geometry.spin_wish import SpinWish
from viewer.geometry.what_matters import WhatMatters
from viewer.progress import Progress
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.taken_limits import TakenLimit
from viewer.shop.trials import Trial
from viewer.words import say

MENDED_WITHIN_MM = 0.05  # mending moves what it welds or rounds by less than it keeps


@dataclass(frozen=True, eq=False)
class Part:
    """One rigid part as read from a file, in mm after unit and item transforms.

    name : what the user calls it, such as "trowel grip"
    mesh : triangles in file order; where marks are finer than these, the pieces they were cut in
    file_name : name of the file it came from, without folders; "" if it was made here
    unit : unit the numbers of the file were taken to be in: mm, cm, m, inch, ft, micron
    unit_doubt : the question to ask the user about the unit, or "" when there is no doubt
    suggested_unit : the unit that would fit better, or ""
    notes : sentences the reader wants the user to see (trailing bytes, facets dropped, …)
    polygon_of_face : (m,) int32, polygon of the file that each triangle belongs to; None where
        the file knows triangles only
    patch_of_face : (m,) int32, face of the CAD model that each triangle lies on, from 0; None
        where there is no CAD model
    received : the mesh as it was read, where `mesh` was mended since, otherwise None
    base : the triangles of the file where `mesh` holds pieces of them, otherwise None
    base_face : (m,) int32, triangle of `base` that each piece lies on, or None; row f of a base of
        b triangles is a piece of triangle f for all f < b, and the vertices of the base come first
    cad : the exact surfaces, for `viewer.files.step_file.tessellate_part` alone; not kept in jobs
    """

    name: str
    mesh: Mesh
    file_name: str = ""
    unit: str = "mm"
    unit_doubt: str = ""
    suggested_unit: str = ""
    notes: tuple[str, ...] = ()
    polygon_of_face: np.ndarray | None = None
    patch_of_face: np.ndarray | None = None
    cad: object | None = None
    received: Mesh | None = None
    base: Mesh | None = None
    base_face: np.ndarray | None = None

    @property
    def file_mesh(self) -> Mesh:
        """The triangles of the file, whatever pieces they were cut in."""
        return self.mesh if self.base is None else self.base

    def refined(
        self,
        vertices_mm: np.ndarray,
        faces: np.ndarray,
        base_face: np.ndarray,
        neighbours: np.ndarray | None = None,
    ) -> Self:
        """The part with its file's triangles cut in pieces, which lie on the same surface.

        vertices_mm (n, 3), faces (m, 3), base_face (m,): see the fields `mesh` and `base_face`
        neighbours : (m, 3) int32 as of `face_neighbours`, where they are known
        """
        base = self.file_mesh
        count = base.face_count
        if len(faces) == count:  # each cut makes a face more
            mesh, on_base, base_face = base, None, slice(0, count)
        else:
            mesh, on_base = Mesh(vertices_mm, faces), base
            base_face = frozen(np.asarray(base_face, np.int32))
            get_to_know_pieces(mesh, base, base_face, neighbours)
        polygons, patches = self.polygon_of_face, self.patch_of_face
        return replace(
            self,
            mesh=mesh,
            base=on_base,
            base_face=None if on_base is None else base_face,
            polygon_of_face=None if polygons is None else frozen(polygons[:count][base_face]),
            patch_of_face=None if patches is None else frozen(patches[:count][base_face]),
        )

    def pieces_of(self, file_faces: np.ndarray) -> np.ndarray:
        """The faces of `mesh` that lie on triangles of the file, (k,) their numbers."""
        if self.base_face is None:
            return file_faces
        wanted = np.zeros(self.base.face_count, bool)
        wanted[file_faces] = True
        return np.flatnonzero(wanted[self.base_face])

    def same_file(self, other: "Part | None") -> bool:
        """Whether both are the same part but for the pieces its triangles were cut in."""
        if other is None or self.file_mesh is not other.file_mesh:
            return False
        cut = ("mesh", "base", "base_face", "polygon_of_face", "patch_of_face")
        names = [field.name for field in fields(self) if field.name not in cut]
        pairs = ((getattr(self, name), getattr(other, name)) for name in names)
        return all(mine is theirs or mine == theirs for mine, theirs in pairs)

    def mended(self, mended: MendedMesh) -> Self:
        """The part with its file's triangles mended, which knows what it was received as.

        Polygons and exact surfaces of the file no longer fit; patches follow their faces.
        """
        patches = self.patch_of_face
        if patches is not None and self.base is not None:
            patches = patches[: self.base.face_count]
        return replace(
            self,
            mesh=mended.mesh,
            received=self.received or self.file_mesh,
            base=None,
            base_face=None,
            polygon_of_face=None,
            patch_of_face=None if patches is None else frozen(patches[mended.origin_face]),
            cad=None,
        )

    def as_received(self, patch_of_face: np.ndarray | None = None) -> Self:
        """The part before anything was mended, with the patches of those faces if known."""
        return replace(
            self,
            mesh=self.received,
            received=None,
            base=None,
            base_face=None,
            polygon_of_face=None,
            patch_of_face=patch_of_face,
            cad=None,
        )


@dataclass(frozen=True)
class KeptPose:
    """A pose that is worth coming back to, under a name of the user's, such as "on its collar".

    note : what the user, or the search that found it, has to say of it
    """

    name: str
    pose: Pose
    note: str = ""


@dataclass(frozen=True, eq=False)
class State:
    """Everything that undo brings back.

    face_classes : (m,) uint8 for the m faces of the part (0 unmarked, 1 class A, 2 class B)
    pinned_pose : the pose that the numbers are compared with, or None
    kept_poses : poses to show one after the other, in the order they were kept
    shop_choice : what of the shop it is printed with
    what_matters : what directions are ordered by, and which are cut out
    spin_wish : what decides the spin when the part is laid for a direction
    pieces : cut off the part or specimens, to be printed by themselves
    trials : test pieces printed for this job; taken : limits that trials taught and the user took
    client : who the part is printed for, "" where that is not said
    """

    part: Part | None = None
    face_classes: np.ndarray = field(default_factory=lambda: frozen(np.zeros(0, np.uint8)))
    pose: Pose = field(default_factory=Pose)
    settings: PrintSettings = field(default_factory=PrintSettings)
    pinned_pose: Pose | None = None
    kept_poses: tuple[KeptPose, ...] = ()
    shop_choice: ShopChoice = field(default_factory=ShopChoice)
    what_matters: WhatMatters = field(default_factory=WhatMatters)
    spin_wish: SpinWish = field(default_factory=SpinWish)
    pieces: tuple[JobPiece, ...] = ()
    trials: tuple[Trial, ...] = ()
    taken: tuple[TakenLimit, ...] = ()
    client: str = ""

    def __post_init__(self) -> None:
        classes = frozen(np.asarray(self.face_classes, np.uint8))
        faces = self.part.mesh.face_count if self.part else 0
        if classes.shape != (faces,) or (faces and classes.max() > CLASS_B):
            raise RequestProblem(say("The face classes do not fit the part; mark the faces again."))
        object.__setattr__(self, "face_classes", classes)

    @classmethod
    def of_part(cls, part: Part, face_classes: np.ndarray | None = None, **more: object) -> Self:
        """A fresh state for a part, all faces unmarked unless classes are given."""
        if face_classes is None:
            face_classes = np.zeros(part.mesh.face_count, np.uint8)
        return cls(part=part, face_classes=face_classes, **more)

    def same_part(self, other: "State | None") -> bool:
        """Whether both hold the same part, whatever pieces its triangles were cut in."""
        if self.part is None or other is None:
            return other is not None and other.part is self.part
        return self.part.same_file(other.part)

    def mended(self, mended: MendedMesh, progress: Progress | None = None) -> Self:
        """The job with its part mended, its file's triangles being what was mended.

        Every new face has the class of the face it follows. Marks finer than triangles are cut
        anew into the mended ones; what lies on no face there was follows, too. Raises Cancelled.
        """
        part = self.part.mended(mended)
        if self.part.base is None:
            classes = carry_classes(self.face_classes, mended.origin_face)
            return self.with_(part=part, face_classes=classes)
        whole = carry_classes(self.on_file_triangles().face_classes, mended.origin_face)
        return self.with_fine_marks_on(part, whole, progress=progress)

    def with_fine_marks_on(
        self,
        part: Part,
        face_classes: np.ndarray,
        within_mm: float = MENDED_WITHIN_MM,
        progress: Progress | None = None,
    ) -> Self:
        """The job with another mesh of its part, fine marks being cut into that one anew.

        face_classes : (m,) for the faces of the other, for what lies on no surface there was
        within_mm : how far the two surfaces may lie apart. Raises Cancelled.
        """
        carried = carry_marks(self.part.mesh, self.face_classes, part.mesh, within_mm, progress)
        pieces = carried.marked.pieces
        if pieces is not None:
            face_classes = face_classes[pieces.parents]
        classes = np.where(carried.found, carried.marked.face_classes, face_classes)
        return self.with_part(part, Marked(pieces, classes))

    def refined(self, pieces: Pieces, face_classes: np.ndarray) -> Self:
        """The job with faces of its part cut in pieces; `face_classes` (m',) are of the pieces."""
        part = self.part
        if len(pieces.faces) == part.mesh.face_count:
            return self.with_(face_classes=frozen(face_classes))
        base_face = pieces.parents if part.base is None else part.base_face[pieces.parents]
        part = part.refined(pieces.vertices_mm, pieces.faces, base_face, pieces.neighbours)
        return self.with_(part=part, face_classes=frozen(face_classes))

    def with_part(self, part: Part, marked: Marked) -> Self:
        """The job with another part in its place, marked so; pose and process stay."""
        pieces = marked.pieces
        if pieces is not None:
            part = part.refined(pieces.vertices_mm, pieces.faces, pieces.parents, pieces.neighbours)
        return self.with_(part=part, face_classes=frozen(marked.face_classes))

    def standing_as_before(self, turn: np.ndarray) -> Self:
        """The job after its part was turned by (3, 3) in its file: all poses stand it as before."""

        def carried(pose: Pose | None) -> Pose | None:
            return None if pose is None else pose_of_rotation(rotation(pose) @ turn.T)

        kept = tuple(replace(one, pose=carried(one.pose)) for one in self.kept_poses)
        return self.with_(
            pose=carried(self.pose),
            pinned_pose=carried(self.pinned_pose),
            kept_poses=kept,
            spin_wish=self.spin_wish.turned(turn),
        )

    def on_file_triangles(self) -> Self:
        """The job on the triangles of the file; each has the class that covers most of it."""
        part = self.part
        if part is None or part.base is None:
            return self
        count = part.base.face_count
        classes = classes_of_base(
            self.face_classes, part.mesh.face_areas_mm2, part.base_face, count
        )
        whole = part.refined(part.base.vertices_mm, part.base.faces, np.arange(count))
        return self.with_(part=whole, face_classes=classes)

    def with_(self, **changes: object) -> Self:
        """A copy with some fields replaced; unchanged arrays are shared."""
        return replace(self, **changes)
