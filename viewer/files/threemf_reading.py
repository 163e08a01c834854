"""Read 3MF through lib3mf: units, build items, components, triangle sets, our own refusals.

A process of its own runs this, so nothing is imported here that takes long, such as kernels.
"""

import io
import zipfile
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np

from viewer.errors import NothingToPrint, RequestProblem, UnreadableFile
from viewer.files.degenerate_triangles import REFUSAL, Replaced, put_back, replace_degenerate
from viewer.files.lib3mf_arrays import ModelError, read_buffer, stoppable, wrapper
from viewer.files.threemf_scene import Instance, Scene, scene_of_model
from viewer.progress import Progress
from viewer.words import say

_UNITS = ("micron", "mm", "cm", "inch", "ft", "m")  # in the order of lib3mf's ModelUnit

MOST_INSTANCES = 100_000
MOST_TRIANGLES = 50_000_000

# lib3mf's words, and ours.
_REFUSALS = {
    "Could not find Object associated to the Build item": (
        "its build list names an object that is not in the file"
    ),
    "Could not find Object associated to Component": (
        "an assembly in it names an object that is missing, comes later or contains itself"
    ),
    "Wanted to convert string with non-numeric characters": (
        "a coordinate is not written as 3MF demands, perhaps with a decimal comma"
    ),
    "Invalid model node index": "a triangle names a corner that the file does not have",
    "Invalid Model Coordinates": "it holds coordinates that are not numbers",
    "No build section in model file": "it has no build list",
    "Could not read OPC Relationship Set": "its package lacks the list of its parts",
    "The call parameter to the function was invalid": "it has no 3D model inside",
}


class ThreeMfArrays(NamedTuple):
    """A 3MF as read, in plain arrays.

    positions : (n, 3) float64, in the file's unit; faces : (m, 3) int32; face_classes : (m,) uint8
    item_matrices : for each build item that was read, its (4, 4) transform in the file's unit
    notes : sentences for the user
    """

    positions: np.ndarray
    faces: np.ndarray
    face_classes: np.ndarray
    item_matrices: tuple[np.ndarray, ...]
    unit: str
    notes: tuple[str, ...]


def read_arrays(
    path: Path, data: np.ndarray, item: int | None, placed: bool, progress: Progress
) -> ThreeMfArrays:
    """All build items of a checked package as one rigid mesh, or only item number `item` (from 1).

    data : (size,) uint8, the bytes of the package
    placed : False leaves out the transforms of the build items (our own jobs)
    Raises UnreadableFile, NothingToPrint, RequestProblem (no such item), Cancelled.
    """
    model, replaced, notes = _read_model(path, data, progress.part(0, 0.6))
    scene = scene_of_model(model)
    items = _chosen_items(path, scene, item)
    notes += _refuse_or_note(path, scene, items)
    if not placed:
        items = [Instance(entry.object_id, np.eye(4)) for entry in items]
    positions, faces, classes = _placed(path, scene, items, replaced, progress.part(0.6, 1.0))
    return ThreeMfArrays(
        positions,
        faces,
        classes,
        tuple(entry.matrix for entry in _chosen_items(path, scene, item)),
        _UNITS[int(model.GetUnit())],
        tuple(dict.fromkeys(notes)),
    )


def _placed(
    path: Path, scene: Scene, items: list[Instance], replaced: Replaced, progress: Progress
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Corners, triangles and classes of all items, each where its matrix puts it."""
    instances = scene.instances(items, progress)
    meshes = _Meshes(path, scene, replaced)
    sizes = np.array([meshes.size_of(instance.object_id) for instance in instances], np.int64)
    corner_count, face_count = sizes.reshape(-1, 2).sum(axis=0)
    # Filled piece by piece: to join the pieces afterwards would take long without a look up.
    positions, faces = np.empty((corner_count, 3)), np.empty((face_count, 3), np.int32)
    classes = np.empty(face_count, np.uint8)
    first_corner = first_face = 0
    for done, instance in enumerate(instances):
        corners, triangles, its_classes = meshes.of(instance.object_id)
        matrix = instance.matrix
        if not np.array_equal(matrix, np.eye(4)):
            corners = corners @ matrix[:3, :3].T + matrix[:3, 3]
            if np.linalg.det(matrix[:3, :3]) < 0:  # a mirrored copy would be inside out
                triangles = triangles[:, [0, 2, 1]]
        end_corner, end_face = first_corner + len(corners), first_face + len(triangles)
        positions[first_corner:end_corner] = corners
        faces[first_face:end_face] = triangles + np.int32(first_corner)
        classes[first_face:end_face] = its_classes
        first_corner, first_face = end_corner, end_face
        progress.report(done / len(instances), "Placing the items")
    return positions, faces, classes


def _read_model(
    path: Path, data: np.ndarray, progress: Progress
) -> tuple[Any, Replaced, list[str]]:
    """(lib3mf's model, degenerate triangles to put back, notes)."""
    replaced: Replaced = {}
    try:
        model, reader = _attempt(data, progress)
    except ModelError as error:
        progress.check()
        if REFUSAL not in str(error):
            raise UnreadableFile(_sentence(path, error)) from error
        package = zipfile.ZipFile(io.BytesIO(memoryview(data)))
        data, replaced = replace_degenerate(package, progress)
        try:
            model, reader = _attempt(data, progress)
        except ModelError as second:
            progress.check()
            raise UnreadableFile(_sentence(path, second)) from second
    warnings = [reader.GetWarning(k)[1] for k in range(reader.GetWarningCount())]
    notes = []
    if any("Invalid Model Unit" in str(warning) for warning in warnings):
        notes.append(
            say("The file names a unit that does not exist; its numbers were taken as millimetres.")
        )
    return model, replaced, notes


def _attempt(data: np.ndarray, progress: Progress) -> tuple[Any, Any]:
    model = wrapper().CreateModel()
    reader = model.QueryReader("3mf")
    callback = stoppable(reader, progress, "Reading the model")
    try:
        read_buffer(reader, data)
    finally:
        del callback
    progress.check()
    return model, reader


def _sentence(path: Path, error: Exception) -> str:
    text = str(error).partition(": ")[2] or str(error)
    for theirs, ours in _REFUSALS.items():
        if theirs in text:
            return say(
                "{name} is not a valid 3MF file: {ours}. Export it again.",
                name=path.name,
                ours=say(ours),
            )
    return say(
        "{name} is not a valid 3MF file ({rstrip}). Export it again.",
        name=path.name,
        rstrip=text.strip().rstrip("."),
    )


def _chosen_items(path: Path, scene: Scene, item: int | None) -> list[Instance]:
    if not scene.items:
        raise NothingToPrint(
            say(
                "{name} has an empty build list, so there is nothing to print in this "
                "file. Place the part in the build and export it again.",
                name=path.name,
            )
        )
    if item is None:
        return list(scene.items)
    if not 1 <= item <= len(scene.items):
        raise RequestProblem(
            say(
                "{name} has {items} item(s), counted from 1; there is no item {item}.",
                name=path.name,
                items=len(scene.items),
                item=item,
            )
        )
    return [scene.items[item - 1]]


def _refuse_or_note(path: Path, scene: Scene, items: list[Instance]) -> list[str]:
    """Limits, checked on counts before anything is expanded, and what the user should know."""
    instance_count = sum(scene.counts[entry.object_id].instances for entry in items)
    triangle_count = sum(scene.counts[entry.object_id].triangles for entry in items)
    if instance_count > MOST_INSTANCES or triangle_count > MOST_TRIANGLES:
        raise UnreadableFile(
            say(
                "{name} repeats its objects {instance_count:,} times, "
                "{triangle_count:,} triangles in all, more than can be worked with. "
                "Ask for a plain export of the part.",
                name=path.name,
                instance_count=instance_count,
                triangle_count=triangle_count,
            )
        )
    notes = []
    supports = sum(scene.counts[entry.object_id].supports for entry in items)
    beams = sum(scene.counts[entry.object_id].beams for entry in items)
    if not triangle_count:
        reason = say("holds no triangles")
        if supports:
            reason = say("holds support objects only, no part")
        elif beams:
            reason = say("holds beams only, no triangles")
        raise NothingToPrint(
            say(
                "{name} {reason}, so there is nothing to print. Export the part as a mesh.",
                name=path.name,
                reason=reason,
            )
        )
    if supports:
        notes.append(
            say(
                "{supports:,} support object(s) of the file are no part and were left out.",
                supports=supports,
            )
        )
    if beams:
        notes.append(say("The file holds beams beside its triangles; the beams were left out."))
    if any(abs(np.linalg.det(entry.matrix[:3, :3])) < 1e-12 for entry in items):
        notes.append(say("An item of the file is flattened to nothing by its own placement."))
    return notes


class _Meshes:
    """The arrays of each mesh object, fetched once however often it is placed."""

    def __init__(self, path: Path, scene: Scene, replaced: Replaced) -> None:
        self._path, self._scene, self._replaced = path, scene, replaced
        self._known: dict[int, tuple[np.ndarray, np.ndarray, np.ndarray]] = {}

    def size_of(self, object_id: int) -> tuple[int, int]:
        """How many corners and how many triangles a mesh object has."""
        corners, faces, _ = self.of(object_id)
        return len(corners), len(faces)

    def of(self, object_id: int) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
        """(n, 3) float64 corners, (m, 3) int32 triangles, (m,) uint8 classes."""
        if object_id not in self._known:
            mesh = self._scene.mesh(object_id)
            faces = mesh.faces
            true = self._replaced.get((mesh.part_path, mesh.model_id))
            if true:
                faces = put_back(faces, true)
                if faces.max() >= len(mesh.positions):
                    raise UnreadableFile(
                        say(
                            "{name} is not a valid 3MF file: a triangle names a corner that the "
                            "file does not have. Export it again.",
                            name=self._path.name,
                        )
                    )
            self._known[object_id] = (
                mesh.positions.astype(np.float64),
                faces,
                mesh.classes(self._path),
            )
        return self._known[object_id]
