"""The mending steps under their names: what each does in plain words, and how to take it."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from viewer.errors import RequestProblem
from viewer.geometry.fault_words import CRACK_MM
from viewer.geometry.mend.drop_bits import drop_bits
from viewer.geometry.mend.drop_degenerate import drop_degenerate
from viewer.geometry.mend.drop_doubled import drop_doubled
from viewer.geometry.mend.fill_holes import fill_holes
from viewer.geometry.mend.mended import MendedMesh
from viewer.geometry.mend.merge_near import merge_near
from viewer.geometry.mend.part_bodies import part_bodies
from viewer.geometry.mend.re_skin import re_skin, usual_resolution_mm
from viewer.geometry.mend.sew_seams import sew_seams
from viewer.geometry.mend.smooth_folds import smooth_folds
from viewer.geometry.mend.thicken_sheet import thicken_sheet
from viewer.geometry.mend.turn_outward import turn_outward
from viewer.geometry.mend.unite_shells import unite_shells
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_faults import SPECK_MM
from viewer.geometry.self_intersections import float32_step_mm, near_distance_mm
from viewer.progress import Progress
from viewer.words import say

WIDE_SEAM_MM = 0.3
WALL_MM = 0.84  # two roads of 0.42 mm
_SMALL = 4e-4  # share of the part's diagonal that a harmless seam may gape
_SMALL_HOLE = 0.03  # and that a harmless hole may be wide


class Made(NamedTuple):
    """What came of a step when it was tried: the mesh it was tried on, and that mesh after it."""

    before: Mesh
    after: MendedMesh


@dataclass(frozen=True)
class Step:
    """One mending step for one part.

    name : as on the command line
    words : what it does, for the user
    safe : harmless; otherwise it needs the user's word
    options : what it is called with, each name with its unit
    made : what came of it when it was planned; the same step with other options has none
    """

    name: str
    words: str
    safe: bool
    options: tuple[tuple[str, Any], ...] = ()
    made: Made | None = field(default=None, compare=False, repr=False)

    @property
    def length_option(self) -> str | None:
        """Name of the option that is the length the step works with, in mm; None if it has none."""
        return next((name for name, _ in self.options if name.endswith("_mm")), None)

    def with_options(self, **options: Any) -> "Step":
        """The same step with other options."""
        return Step(
            self.name, self.words, self.safe, tuple(({**dict(self.options), **options}).items())
        )


_TAKE: dict[str, Callable[..., MendedMesh]] = {
    "merge-vertices": merge_near,
    "drop-degenerate": drop_degenerate,
    "drop-doubled": drop_doubled,
    "turn-outward": turn_outward,
    "sew-seams": sew_seams,
    "fill-small-holes": fill_holes,
    "part-bodies": part_bodies,
    "drop-bits": drop_bits,
    "sew-wide-seams": sew_seams,
    "single-sheet": drop_doubled,
    "thicken-sheet": thicken_sheet,
    "fill-holes": fill_holes,
    "smooth-folds": smooth_folds,
    "unite-shells": unite_shells,
    "re-skin": re_skin,
}

_WORDS = {
    "merge-vertices": "Let corners that lie in one place use one vertex.",
    "drop-degenerate": "Drop faces without area; the surface stays closed.",
    "drop-doubled": "Drop faces that are there twice.",
    "turn-outward": "Wind all faces alike and turn bodies outward, cavities inward.",
    "sew-seams": "Sew open edges that run along each other, closer than a crack that prints shut.",
    "fill-small-holes": "Close small flat holes.",
    "part-bodies": "Part bodies that hang together in an edge, by a hair that does not print.",
    "drop-bits": "Take away loose bits that touch nothing, and surfaces lost inside the material.",
    "sew-wide-seams": "Sew wider seams; corners move by up to the width of the seam.",
    "single-sheet": "Take one side of a sheet that is doubled back, so that it can be thickened.",
    "thicken-sheet": "Give the open sheet a wall, half of it to either side.",
    "fill-holes": "Close all holes, flat ones flat and curved ones smoothly.",
    "smooth-folds": "Cut out folds where the surface crosses itself, and close them smoothly.",
    "unite-shells": "Unite bodies that overlap or touch into one.",
    "re-skin": "Lay a new skin around all that is enclosed; edges lose up to the resolution.",
}
SAFE = ("merge-vertices", "drop-degenerate", "drop-doubled", "turn-outward", "sew-seams",
        "fill-small-holes", "part-bodies")  # fmt: skip
STEP_NAMES = tuple(_TAKE)


def step_named(name: str, mesh: Mesh) -> Step:
    """A step with the options that suit a part. Raises RequestProblem for an unknown name."""
    if name not in _TAKE:
        raise RequestProblem(
            say(
                "There is no step {name}; choose from {known}.",
                name=name,
                known=", ".join(STEP_NAMES),
            )
        )
    box = mesh.box_mm
    diagonal_mm = float(((box[1] - box[0]) ** 2).sum() ** 0.5)
    thin_mm = max(1.5e-6, near_distance_mm(box))
    options: dict[str, dict[str, Any]] = {
        "merge-vertices": {"within_mm": near_distance_mm(box)},
        "drop-degenerate": {"thinner_than_mm": thin_mm},
        "sew-seams": {"within_mm": max(min(CRACK_MM, _SMALL * diagonal_mm), thin_mm)},
        "fill-small-holes": {"extent_up_to_mm": _SMALL_HOLE * diagonal_mm, "flat_only": True},
        "part-bodies": {"gap_mm": max(1e-5 * diagonal_mm, 8.0 * float32_step_mm(box))},
        "drop-bits": {"smaller_than_mm": SPECK_MM},
        "sew-wide-seams": {"within_mm": min(WIDE_SEAM_MM, 5.0 * _SMALL * diagonal_mm)},
        "single-sheet": {"single_sheets": True},
        "thicken-sheet": {"wall_mm": WALL_MM},
        "unite-shells": {"grow_mm": max(5e-4, 2.0 * float32_step_mm(box))},
    }
    if name == "re-skin":
        options[name] = {"resolution_mm": usual_resolution_mm(mesh)}
    return Step(name, _WORDS[name], name in SAFE, tuple(options.get(name, {}).items()))


def take(step: Step, mesh: Mesh, progress: Progress | None = None) -> MendedMesh:
    """The mesh after a step; at once if it was tried on this very mesh before. Raises Cancelled."""
    if step.made is not None and step.made.before is mesh:
        return step.made.after
    return _TAKE[step.name](mesh, **dict(step.options), progress=progress)
