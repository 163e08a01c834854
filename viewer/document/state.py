"""The truth about a job, frozen: part, face classes, pose, process. Swapped whole, never edited."""

from dataclasses import dataclass, field, replace
from typing import Self

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.face_classes import CLASS_B
from viewer.geometry.mend.mended import MendedMesh, carry_classes
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.pose import Pose
from viewer.geometry.print_settings import PrintSettings


@dataclass(frozen=True, eq=False)
class Part:
    """One rigid part as read from a file, in mm after unit and item transforms.

    name : what the user calls it, such as "trowel grip"
    mesh : triangles in file order
    file_name : name of the file it came from, without folders; "" if it was made here
    unit : unit the numbers of the file were taken to be in: mm, cm, m, inch, ft, micron
    unit_doubt : the question to ask the user about the unit, or "" when there is no doubt
    suggested_unit : the unit that would fit better, or ""
    notes : sentences the reader wants the user to see (trailing bytes, facets dropped, …)
    polygon_of_face : (m,) int32, polygon of the file that each triangle belongs to; None where
        the file knows triangles only
    patch_of_face : (m,) int32, face of the CAD model that each triangle lies on, from 0; None
        where there is no CAD model
    received : the mesh as it was read, where `mesh` was mended since, otherwise None; not kept in
        jobs
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

    def mended(self, mended: MendedMesh) -> Self:
        """The part with a mended mesh, which knows what it was received as.

        Polygons and exact surfaces of the file no longer fit; patches follow their faces.
        """
        patches = self.patch_of_face
        return replace(
            self,
            mesh=mended.mesh,
            received=self.received or self.mesh,
            polygon_of_face=None,
            patch_of_face=None if patches is None else frozen(patches[mended.origin_face]),
            cad=None,
        )


@dataclass(frozen=True, eq=False)
class State:
    """Everything that undo brings back.

    face_classes : (m,) uint8 for the m faces of the part (0 unmarked, 1 class A, 2 class B)
    pinned_pose : the pose that the numbers are compared with, or None
    """

    part: Part | None = None
    face_classes: np.ndarray = field(default_factory=lambda: frozen(np.zeros(0, np.uint8)))
    pose: Pose = field(default_factory=Pose)
    settings: PrintSettings = field(default_factory=PrintSettings)
    pinned_pose: Pose | None = None

    def __post_init__(self) -> None:
        classes = frozen(np.asarray(self.face_classes, np.uint8))
        faces = self.part.mesh.face_count if self.part else 0
        if classes.shape != (faces,) or (faces and classes.max() > CLASS_B):
            raise RequestProblem("The face classes do not fit the part; mark the faces again.")
        object.__setattr__(self, "face_classes", classes)

    @classmethod
    def of_part(cls, part: Part, face_classes: np.ndarray | None = None, **more: object) -> Self:
        """A fresh state for a part, all faces unmarked unless classes are given."""
        if face_classes is None:
            face_classes = np.zeros(part.mesh.face_count, np.uint8)
        return cls(part=part, face_classes=face_classes, **more)

    def mended(self, mended: MendedMesh) -> Self:
        """The job with its part mended; every new face has the class of the face it follows."""
        classes = carry_classes(self.face_classes, mended.origin_face)
        return self.with_(part=self.part.mended(mended), face_classes=classes)

    def with_(self, **changes: object) -> Self:
        """A copy with some fields replaced; unchanged arrays are shared."""
        return replace(self, **changes)
