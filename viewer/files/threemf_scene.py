"""Which meshes a 3MF model places where: build items in order, components depth first."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from viewer.errors import UnreadableFile
from viewer.files.lib3mf_arrays import matrix_of, mesh_positions, mesh_triangles, set_triangles
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.progress import Progress
from viewer.words import say

_SUPPORT_TYPES = (2, 3)  # lib3mf's ObjectType: support, solid support
SET_NAMES = {CLASS_A: "Class A", CLASS_B: "Class B"}


class Instance(NamedTuple):
    """An object and the (4, 4) float64 matrix that places it, for column vectors."""

    object_id: int
    matrix: np.ndarray


class Counts(NamedTuple):
    """What an object comes to once all its components are placed."""

    instances: int
    triangles: int
    supports: int
    beams: int


class MeshArrays(NamedTuple):
    """One mesh object: (n, 3) float32 corners, (m, 3) int32 triangles, its named triangle sets."""

    positions: np.ndarray
    faces: np.ndarray
    sets: tuple[tuple[str, np.ndarray], ...]
    part_path: str
    model_id: int

    def classes(self, path: Path) -> np.ndarray:
        """(m,) uint8 classes from the sets "Class A" and "Class B"; raises UnreadableFile."""
        classes = np.zeros(len(self.faces), np.uint8)
        for face_class, name in SET_NAMES.items():
            for set_name, triangles in self.sets:
                if set_name.strip().lower() != name.lower():
                    continue
                if len(triangles) and triangles.max() >= len(classes):
                    raise UnreadableFile(
                        say(
                            "{name}: its set {name_2} names a triangle that the file does not "
                            "have. Export it again.",
                            name=path.name,
                            name_2=name,
                        )
                    )
                if np.any((classes[triangles] != 0) & (classes[triangles] != face_class)):
                    raise UnreadableFile(
                        say(
                            "{name} puts a triangle into both Class A and Class B. Mark it in one "
                            "of them.",
                            name=path.name,
                        )
                    )
                classes[triangles] = face_class
        return classes


@dataclass(frozen=True, eq=False)
class Scene:
    """The build items and objects of a model, without the meshes themselves.

    counts and children are keyed by lib3mf's unique object number; children of a mesh are ().
    """

    items: tuple[Instance, ...]
    counts: dict[int, Counts]
    children: dict[int, tuple[Instance, ...]]
    objects: dict[int, Any]

    def instances(self, items: list[Instance], progress: Progress) -> list[Instance]:
        """Every placed mesh, in order, support objects skipped; counts must be checked before."""
        placed = []
        waiting = list(reversed(items))
        while waiting:
            object_id, matrix = waiting.pop()
            if self.objects[object_id].IsMeshObject():
                if self.counts[object_id].triangles:
                    placed.append(Instance(object_id, matrix))
            else:
                for child in reversed(self.children[object_id]):
                    if self.counts[child.object_id].triangles:
                        waiting.append(Instance(child.object_id, matrix @ child.matrix))
            if len(placed) % 1000 == 0:
                progress.check()
        return placed

    def mesh(self, object_id: int) -> MeshArrays:
        """The arrays of a mesh object."""
        mesh = self.objects[object_id]
        sets = []
        for k in range(mesh.GetTriangleSetCount()):
            triangle_set = mesh.GetTriangleSet(k)
            sets.append((triangle_set.GetName(), set_triangles(triangle_set)))
        return MeshArrays(
            mesh_positions(mesh),
            mesh_triangles(mesh),
            tuple(sets),
            mesh.PackagePart().GetPath().lstrip("/"),
            mesh.GetModelResourceID(),
        )


def scene_of_model(model: Any) -> Scene:
    """Structure and counts of a lib3mf model; nothing is expanded."""
    objects: dict[int, Any] = {}
    found = model.GetObjects()
    while found.MoveNext():
        entry = found.GetCurrentObject()
        objects[entry.GetUniqueResourceID()] = entry
    children = {object_id: _children(entry) for object_id, entry in objects.items()}
    counts: dict[int, Counts] = {}
    for object_id in objects:
        _count(object_id, objects, children, counts)
    items = []
    build = model.GetBuildItems()
    while build.MoveNext():
        item = build.GetCurrent()
        items.append(Instance(item.GetObjectResourceID(), matrix_of(item.GetObjectTransform())))
    return Scene(tuple(items), counts, children, objects)


def _children(entry: Any) -> tuple[Instance, ...]:
    if not entry.IsComponentsObject():
        return ()
    components = (entry.GetComponent(k) for k in range(entry.GetComponentCount()))
    return tuple(
        Instance(component.GetObjectResourceID(), matrix_of(component.GetTransform()))
        for component in components
    )


def _count(
    object_id: int,
    objects: dict[int, Any],
    children: dict[int, tuple[Instance, ...]],
    counts: dict[int, Counts],
) -> None:
    """Count an object after its components, without recursion: chains may be thousands long.

    lib3mf has refused cycles already, as every component must be defined before it is used.
    """
    waiting = [object_id]
    while waiting:
        current = waiting[-1]
        missing = [c.object_id for c in children[current] if c.object_id not in counts]
        if missing:
            waiting += missing
            continue
        waiting.pop()
        entry = objects[current]
        if int(entry.GetType()) in _SUPPORT_TYPES:
            counts[current] = Counts(0, 0, 1, 0)
        elif entry.IsMeshObject():
            beams = entry.BeamLattice().GetBeamCount()
            counts[current] = Counts(1, entry.GetTriangleCount(), 0, beams)
        else:
            parts = [counts[child.object_id] for child in children[current]]
            sums = [sum(column) for column in zip(*parts, strict=True)] or [0, 0, 0, 0]
            counts[current] = Counts(*sums)
