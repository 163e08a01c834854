"""Write several objects into one 3MF: part, supports, bodies of a second material, all as placed.

Each object has its type ("model", "support", "solidsupport" of 3MF Core 1.4.0, §4.1), the classes
of its faces as triangle sets (§4.1.5) and in colour, as base materials (§5.1).
"""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

import lib3mf
import numpy as np

from viewer.errors import CannotWrite, ShowsideError
from viewer.files.in_pieces import write_in_pieces
from viewer.files.lib3mf_arrays import (
    ModelError,
    fill_colours,
    fill_mesh,
    fill_set,
    transform_of,
    wrapper,
    written_bytes,
)
from viewer.files.threemf_scene import SET_NAMES
from viewer.geometry.face_classes import CLASS_A, CLASS_B, UNMARKED
from viewer.own_process import run_in_own_process
from viewer.progress import Progress
from viewer.words import say

SMALL_FACES = 10_000
_MILLIMETRE = 1
_CRASHED = (
    "The file was not saved: packing it came to a sudden end in its own process, perhaps for lack "
    "of memory. Close other programs and try again."
)
_TYPES = {"model": 1, "support": 2, "solidsupport": 3}
# Okabe & Ito, as on the screen: class A reddish purple, class B sky blue, unmarked light grey.
_CLASS_COLOURS = {
    UNMARKED: ("Unmarked", (200, 198, 194)),
    CLASS_A: ("Class A", (204, 121, 167)),
    CLASS_B: ("Class B", (86, 180, 233)),
}

ObjectType = Literal["model", "support", "solidsupport"]


@dataclass(frozen=True, eq=False)
class PrintObject:
    """One object of a file, in mm as it stands.

    vertices_mm : (n, 3); faces : (m, 3) without repeated corners
    face_classes : (m,) uint8 or None; sets : further named triangle sets, each (k,) indices
    """

    name: str
    type: ObjectType
    vertices_mm: np.ndarray
    faces: np.ndarray
    face_classes: np.ndarray | None = None
    colour: tuple[int, int, int] = (200, 198, 194)
    sets: dict[str, np.ndarray] = field(default_factory=dict)


def write_objects(
    target: Path, objects: list[PrintObject], progress: Progress | None = None
) -> None:
    """Write the objects, each as a build item, at `target` (not atomic by itself).

    Raises CannotWrite, Cancelled.
    """
    progress = progress or Progress()
    if sum(len(each.faces) for each in objects) <= SMALL_FACES:
        content = packed_objects(objects, progress)
    else:
        try:
            content = run_in_own_process(
                packed_objects, objects, progress=progress, crashed=_CRASHED
            )
        except ShowsideError as error:
            if str(error) == _CRASHED:
                raise CannotWrite(_CRASHED) from error
            raise
    with target.open("wb") as stream:
        write_in_pieces(stream, content, progress)


def packed_objects(objects: list[PrintObject], progress: Progress) -> np.ndarray:
    """(size,) uint8, the package. Raises CannotWrite, Cancelled."""
    try:
        model = wrapper().CreateModel()
        model.SetUnit(_MILLIMETRE)
        for each in objects:
            _add(model, each)
        return written_bytes(model, progress)
    except ModelError as error:
        progress.check()
        raise CannotWrite(
            say(
                "The file was not saved: its bodies cannot be put into a 3MF ({error}).",
                error=error,
            )
        ) from error


def _add(model, each: PrintObject) -> None:
    mesh = model.AddMeshObject()
    mesh.SetName(each.name)
    mesh.SetType(lib3mf.Lib3MF.ObjectType(_TYPES[each.type]))
    fill_mesh(mesh, np.asarray(each.vertices_mm, np.float32), each.faces)
    named = dict(each.sets)
    group = model.AddBaseMaterialGroup()
    if each.face_classes is None:
        numbers = np.full(len(each.faces), _material(group, each.name, each.colour))
    else:
        known = {key: _material(group, *look) for key, look in _CLASS_COLOURS.items()}
        numbers = np.array([known[key] for key in sorted(known)])[each.face_classes]
        for face_class, name in SET_NAMES.items():
            named[name] = np.flatnonzero(each.face_classes == face_class)
    resource = group.GetUniqueResourceID()
    mesh.SetObjectLevelProperty(resource, int(numbers[0]))
    if (numbers != numbers[0]).any():
        fill_colours(mesh, resource, numbers)
    for name, triangles in named.items():
        if len(triangles):
            fill_set(mesh.AddTriangleSet(name.lower().replace(" ", "-"), name), triangles)
    model.AddBuildItem(mesh, transform_of(np.eye(4)))


def _material(group, name: str, colour: tuple[int, int, int]) -> int:
    return group.AddMaterial(name, wrapper().RGBAToColor(*colour, 255))
