"""Reading the numbers of a file in another unit, once the user has answered the unit question."""

from dataclasses import replace

from viewer.document.state import Part, State
from viewer.geometry.mesh import Mesh

MM_PER_UNIT = {
    "micron": 0.001,
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "inch": 25.4,
    "ft": 304.8,
}


def read_in_unit(state: State, unit: str) -> State:
    """The same job with the part's numbers taken in `unit`; there is no doubt left after that.

    What was cut off the part grows or shrinks with it; specimens are as large as they are.
    """
    part = state.part
    factor = MM_PER_UNIT[unit] / MM_PER_UNIT[part.unit]
    named = replace(part, unit=unit, unit_doubt="", suggested_unit="")
    if factor == 1.0:
        return state.with_(part=named)
    file = part.file_mesh
    whole = replace(
        named,
        mesh=_scaled(file, factor),
        received=None if part.received is None else _scaled(part.received, factor),
        base=None,
        base_face=None,
    )
    if part.base is not None:
        whole = whole.refined(part.mesh.vertices_mm * factor, part.mesh.faces, part.base_face)
    pieces = tuple(
        piece.scaled(factor) if piece.source == "cut" else piece for piece in state.pieces
    )
    return state.with_(part=whole, pieces=pieces)


def times_as_large(part: Part | None, before: Part | None) -> float | None:
    """How many times as large the part is now, None where it is not the same in another unit."""
    if part is None or before is None or part.unit == before.unit:
        return None
    if part.file_mesh.faces is not before.file_mesh.faces:  # which a change of unit shares
        return None
    return MM_PER_UNIT[part.unit] / MM_PER_UNIT[before.unit]


def _scaled(mesh: Mesh, factor: float) -> Mesh:
    return Mesh(mesh.vertices_mm * factor, mesh.faces)
