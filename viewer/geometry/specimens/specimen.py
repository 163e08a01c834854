"""What every specimen is: closed bodies, the steps it tries, and how a step reads on the print."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import manifold3d
import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.mesh import Mesh
from viewer.words import say

Material = Literal["model", "support"]


@dataclass(frozen=True)
class Step:
    """One step of a specimen.

    value : what is tried, in `unit` ("deg" or "mm"); label : as it stands on the print
    words : what to look at
    """

    value: float
    unit: Literal["deg", "mm"]
    label: str
    words: str


@dataclass(frozen=True, eq=False)
class Body:
    """One closed body of a specimen as it stands, and the material that it is printed in."""

    name: str
    material: Material
    mesh: Mesh


@dataclass(frozen=True, eq=False)
class Specimen:
    """A specimen as it stands on the platform, z up, lowest z = 0, in mm.

    kind : its name, such as "inclination-fan"; question : what it answers, in one sentence
    """

    kind: str
    question: str
    bodies: tuple[Body, ...]
    steps: tuple[Step, ...]

    @property
    def volume_mm3(self) -> float:
        """Of all bodies."""
        return sum(body.mesh.signed_volume_mm3 for body in self.bodies)


def block(low: Sequence[float], high: Sequence[float]) -> manifold3d.Manifold:
    """A box between two corners."""
    size = [b - a for a, b in zip(low, high, strict=True)]
    return manifold3d.Manifold.cube(size).translate(list(low))


def drawn_out(
    outline_xz: Sequence[Sequence[float]], from_y_mm: float, to_y_mm: float
) -> manifold3d.Manifold:
    """A profile in the x-z plane drawn out along y."""
    section = manifold3d.CrossSection([np.array(outline_xz, float)], manifold3d.FillRule.NonZero)
    depth = to_y_mm - from_y_mm
    return section.extrude(depth).rotate([90, 0, 0]).translate([0, from_y_mm + depth, 0])


def united(solids: Sequence[manifold3d.Manifold]) -> Mesh:
    """The union of solids as a mesh."""
    made = manifold3d.Manifold.batch_boolean(list(solids), manifold3d.OpType.Add).to_mesh64()
    return Mesh(np.array(made.vert_properties)[:, :3], np.array(made.tri_verts, np.int64))


def in_order(values: Sequence[float], low: float, high: float, what: str) -> list[float]:
    """The values in rising order. Raises RequestProblem where there are none, or one is outside."""
    values = sorted(float(value) for value in values)
    if not values or not all(low <= value <= high for value in values) or len(values) > 40:
        raise RequestProblem(
            say(
                "Give 1 to 40 {what}, each from {low:g} to {high:g}.",
                what=say(what),
                low=low,
                high=high,
            )
        )
    return values
