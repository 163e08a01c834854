"""What a reader of one format hands over, and how that becomes a Part.

Here stands everything the formats share: refusing numbers that are none, refusing absurd sizes,
units, merging equal corners, and the doubt about the unit.
"""

from dataclasses import dataclass
from pathlib import Path

import numpy as np

from viewer.document.state import Part
from viewer.errors import NothingToPrint, RequestProblem, UnreadableFile
from viewer.geometry.merge_vertices import merge_vertices
from viewer.geometry.mesh import Mesh
from viewer.geometry.point_box import point_box
from viewer.geometry.unit_doubt import unit_doubt
from viewer.progress import Progress
from viewer.words import say

UNITS_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": 25.4, "ft": 304.8, "micron": 0.001}
ASKED_UNITS = ("mm", "cm", "m", "inch", "ft")

_LARGEST_MM = 1e8  # 100 km: beyond any unit mix-up, so the numbers are damaged
_FLAT_MM = 1e-12


@dataclass(frozen=True, eq=False)
class RawMesh:
    """Triangles in the file's own numbers and order.

    positions : (n, 3) float32 or float64; may hold NaN and positions that no face uses
    faces : (m, 3) integer indices into positions, or None when positions are the corners of the
        faces one after the other (n = 3 m)
    polygon_of_face : (m,) int32 or None (see Part)
    unit : unit the file states, "" where the format has none
    notes : sentences for the user
    """

    positions: np.ndarray
    faces: np.ndarray | None = None
    polygon_of_face: np.ndarray | None = None
    unit: str = ""
    notes: tuple[str, ...] = ()


def build_part(
    path: Path, raw: RawMesh, unit: str | None, progress: Progress, name: str = ""
) -> Part:
    """The Part for a mesh as read, in mm; `unit` overrules what the file says.

    Raises NothingToPrint without faces, UnreadableFile for NaN, infinite or absurd coordinates,
    RequestProblem for an unknown unit, Cancelled.
    """
    if unit is not None and unit not in ASKED_UNITS:
        raise RequestProblem(
            say(
                "The unit has to be one of {units}, not {unit}.",
                units=", ".join(ASKED_UNITS),
                unit=unit,
            )
        )
    face_count = len(raw.positions) // 3 if raw.faces is None else len(raw.faces)
    if not face_count:
        raise NothingToPrint(
            say(
                "{name} holds no triangles, so there is nothing to print. Export the "
                "part as a surface mesh.",
                name=path.name,
            )
        )
    box, strange = point_box(raw.positions)
    if strange:
        _refuse_what_is_no_number(path, raw, face_count)
    progress.report(0.1, "Joining the facets")
    vertices, faces = _merged(raw, box, progress.part(0.1, 0.9))
    taken_unit = unit or raw.unit or "mm"
    if UNITS_MM[taken_unit] != 1.0:
        vertices = vertices * UNITS_MM[taken_unit]
    low, high = point_box(vertices)[0]
    largest = float(np.abs([low, high]).max())
    if largest > _LARGEST_MM:
        raise UnreadableFile(
            say(
                "{name} reaches {largest:.3g} mm from its origin, which no part does: "
                "its numbers are damaged. Ask for the file again.",
                name=path.name,
                largest=largest,
            )
        )
    notes = raw.notes
    if float((high - low).max()) <= _FLAT_MM:
        notes = (*notes, say("The part is flattened to a single point, so it has no size."))
    doubt, suggested = _doubt(high - low, unit, raw.unit)
    return Part(
        name=name or path.stem,
        mesh=Mesh(vertices, faces),
        file_name=path.name,
        unit=taken_unit,
        unit_doubt=doubt,
        suggested_unit=suggested,
        notes=notes,
        polygon_of_face=raw.polygon_of_face,
    )


def _refuse_what_is_no_number(path: Path, raw: RawMesh, face_count: int) -> None:
    good = np.isfinite(raw.positions).all(axis=1)
    bad = ~(good.reshape(-1, 3) if raw.faces is None else good[raw.faces]).all(axis=1)
    count = int(np.count_nonzero(bad))
    if count:
        has = say("has") if count == 1 else say("have")
        raise UnreadableFile(
            say(
                "{name} is damaged: {count:,} of its {face_count:,} triangles {has} a "
                "corner whose coordinates are not numbers. Export it again.",
                name=path.name,
                count=count,
                face_count=face_count,
                has=has,
            )
        )


def _merged(raw: RawMesh, box: np.ndarray, progress: Progress) -> tuple[np.ndarray, np.ndarray]:
    """Vertices that faces use, each once, and the faces in file order."""
    if raw.faces is None:
        vertices, index = merge_vertices(raw.positions, progress, _noise_step(box))
        return vertices, index.reshape(-1, 3)
    used = np.zeros(len(raw.positions), bool)
    used[raw.faces] = True
    vertices, index = merge_vertices(raw.positions[used], progress)
    new_index = np.full(len(used), -1, np.int32)
    new_index[used] = index
    return vertices, new_index[raw.faces]


def _noise_step(box: np.ndarray) -> float:
    """A power of two, 2⁻⁴⁰ of the size of the box or a little less (0.1 nm on 100 mm).

    Programs that write triangles without shared corners often write 5e-17 in one triangle and 0 in
    its neighbour; only a corner rounded to such a grid is the same corner in both.
    """
    span = float((box[1] - box[0]).max())
    return 2.0 ** (np.floor(np.log2(span)) - 40.0) if span > 0.0 else 0.0


def _doubt(size_mm: np.ndarray, asked_unit: str | None, file_unit: str) -> tuple[str, str]:
    """Question and suggestion about the unit; none when the user has answered already.

    A file that states its unit is doubted only at a size no machine prints.
    """
    largest = float(size_mm.max())
    if largest <= _FLAT_MM or asked_unit is not None or (file_unit and 0.5 <= largest <= 20_000.0):
        return "", ""
    return unit_doubt(size_mm)
