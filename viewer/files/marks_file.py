"""Read MARKS.json: which faces are class A and which class B."""

from pathlib import Path

import msgspec
import numpy as np

from viewer.document.state import Part
from viewer.errors import RequestProblem, UnreadableFile
from viewer.geometry.face_classes import CLASS_A, CLASS_B
from viewer.words import say


class _Marks(msgspec.Struct, forbid_unknown_fields=True):
    A: list[int] = []
    B: list[int] = []


def read_marks(path: Path | str, part: Part) -> np.ndarray:
    """(m,) uint8 classes of the part's faces from {"A": [indices], "B": [indices]}.

    Indices count triangles from 0 in file order; in polygon formats they count polygons, whose
    triangles share the class. Raises UnreadableFile, and RequestProblem for an index out of range
    or in both lists.
    """
    path = Path(path)
    try:
        marks = msgspec.json.decode(path.read_bytes(), type=_Marks)
    except OSError as error:
        raise UnreadableFile(
            say("{name} cannot be read ({strerror}).", name=path.name, strerror=error.strerror)
        ) from error
    except (msgspec.MsgspecError, UnicodeDecodeError) as error:
        raise UnreadableFile(
            say(
                '{name} is not a list of marks: it has to look like {{"A": [0, 1], '
                '"B": [2]}} ({error}).',
                name=path.name,
                error=error,
            )
        ) from error
    face_count = part.mesh.face_count
    # Polygons without surface at the end of a file have no triangle, hence the largest one known.
    owners = np.arange(face_count) if part.base_face is None else part.base_face
    owners = owners if part.polygon_of_face is None else part.polygon_of_face
    count = int(owners.max(initial=-1)) + 1
    for name, indices in (("A", marks.A), ("B", marks.B)):
        wrong = next((index for index in indices if not 0 <= index < count), None)
        if wrong is not None:
            raise RequestProblem(
                say(
                    "{name} marks face {wrong} as class {name_2}, but the part has the "
                    "faces 0 to {count}. Check that the marks belong to this file.",
                    name=path.name,
                    wrong=wrong,
                    name_2=name,
                    count=count - 1,
                )
            )
    both = set(marks.A) & set(marks.B)
    if both:
        raise RequestProblem(
            say(
                "{name} lists face {both} in both A and B. Leave it in one of them.",
                name=path.name,
                both=min(both),
            )
        )
    classes = np.zeros(count, np.uint8)
    classes[np.array(marks.A, np.int64)] = CLASS_A
    classes[np.array(marks.B, np.int64)] = CLASS_B
    return classes[owners]
