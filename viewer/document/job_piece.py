"""A piece of the job: cut off the part or a standard specimen, to be printed by itself."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, Self

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.laid_planes import laid_matrix
from viewer.geometry.mesh import Mesh, frozen
from viewer.geometry.pose import Pose
from viewer.words import say

MOST_PIECES, LONGEST_NAME, LONGEST_NOTE = 200, 80, 1000
Source = Literal["cut", "specimen"]


@dataclass(frozen=True, eq=False)
class PieceBody:
    """One closed body: its name, the material of the pair it is printed in, its marks.

    mesh : in part coordinates, all bodies of a piece in the same; face_classes : (m,) uint8
    """

    name: str
    material: Literal["model", "support"]
    mesh: Mesh
    face_classes: np.ndarray

    def __post_init__(self) -> None:
        classes = frozen(np.asarray(self.face_classes, np.uint8))
        if classes.shape != (self.mesh.face_count,):
            raise RequestProblem(say("The face classes do not fit the part; mark the faces again."))
        object.__setattr__(self, "face_classes", classes)


@dataclass(frozen=True, eq=False)
class JobPiece:
    """What is printed by itself, in the pose it is printed in.

    name : the user's; source : cut off the part, or a specimen, which takes no supports
    kind : of a specimen its name in the catalogue, otherwise how it was cut, such as "box"
    note : what had to be done for it, or what it answers
    steps : of a specimen what it tries, each value once, in degrees or mm
    """

    name: str
    source: Source
    kind: str
    bodies: tuple[PieceBody, ...]
    pose: Pose
    note: str = ""
    steps: tuple[float, ...] = ()

    @cached_property
    def size_mm(self) -> np.ndarray:
        """(3,) width, depth and height as it stands."""
        return np.ptp(np.concatenate(self.laid_mm), axis=0)

    @property
    def volume_mm3(self) -> float:
        """Of all bodies."""
        return sum(body.mesh.signed_volume_mm3 for body in self.bodies)

    @property
    def nbytes(self) -> int:
        """Bytes of its arrays."""
        return sum(
            body.mesh.vertices_mm.nbytes + body.mesh.faces.nbytes + body.face_classes.nbytes
            for body in self.bodies
        )

    @cached_property
    def matrix(self) -> np.ndarray:
        """(4, 4) that lays all its bodies together."""
        return laid_matrix([body.mesh for body in self.bodies], self.pose)

    @property
    def laid_mm(self) -> list[np.ndarray]:
        """(n, 3) vertices of each body as they stand."""
        matrix = self.matrix
        return [b.mesh.vertices_mm @ matrix[:3, :3].T + matrix[:3, 3] for b in self.bodies]

    def scaled(self, factor: float) -> Self:
        """The piece so many times as large, each body from the same origin; it says so."""
        bodies = tuple(
            replace(body, mesh=Mesh(body.mesh.vertices_mm * factor, body.mesh.faces))
            for body in self.bodies
        )
        told = say("It grew or shrank with the part, joints too; cut it anew where they must fit.")
        note = self.note if told in self.note else f"{self.note} {told}".strip()
        return replace(self, bodies=bodies, note=note[:LONGEST_NOTE])

    def renamed(self, name: str) -> Self:
        """The piece under another name; a blank one changes nothing."""
        name = " ".join(name.split())[:LONGEST_NAME]
        return replace(self, name=name) if name else self


def free_name(pieces: tuple[JobPiece, ...], name: str) -> str:
    """The name, with a number behind it where a piece has it already."""
    taken = {piece.name for piece in pieces}
    number, found = 1, name
    while found in taken:
        number += 1
        found = f"{name} {number}"
    return found
