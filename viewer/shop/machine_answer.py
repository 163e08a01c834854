"""What a picture of the chosen machine has to know beyond the shop's numbers of a pose.

Where part and supports stick out of what their nozzles reach, and where copies and test pieces
stand on the platform.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.pose import Pose, posed_vertices_mm
from viewer.geometry.support_bodies import support_bodies
from viewer.geometry.support_columns import SupportColumns
from viewer.progress import Progress
from viewer.shop.copies import CopiesPlan, Outline, plan_copies
from viewer.shop.fit import Fit
from viewer.shop.job_numbers import Chosen, JobNumbers
from viewer.shop.sticking_out import sticking_out
from viewer.shop.volumes import Volume, standing_place_mm, volume_of_nozzle

_OFF_GRID = 0.01  # of a cell
NOTHING = np.zeros((0, 2, 3))


class Outside(NamedTuple):
    """What sticks out of what one nozzle reaches.

    what : "part" or "support"; nozzle : its name; outline_mm, hatch_mm : (n, 2, 3) lines in the
        posed frame
    """

    what: str
    nozzle: str
    outline_mm: np.ndarray
    hatch_mm: np.ndarray


@dataclass(frozen=True, eq=False)
class MachineAnswer:
    """Copies and pieces on the platform, and everything that sticks out."""

    numbers: JobNumbers
    plan: CopiesPlan
    outside: tuple[Outside, ...] = ()

    @property
    def outline_mm(self) -> np.ndarray:
        """(n, 2, 3) where anything leaves what its nozzle reaches."""
        return np.concatenate([NOTHING, *(each.outline_mm for each in self.outside)])

    @property
    def hatch_mm(self) -> np.ndarray:
        """(n, 2, 3) on all that lies beyond."""
        return np.concatenate([NOTHING, *(each.hatch_mm for each in self.outside)])


@dataclass(frozen=True, eq=False)
class MachineRequest:
    """What an answer depends on.

    mesh : the triangles of the file; columns : of the supports in this pose, None where not known
    beside : what else stands on the platform
    """

    mesh: Mesh
    pose: Pose
    numbers: JobNumbers
    copies: int = 1
    columns: SupportColumns | None = None
    layer_mm: float = 0.2
    beside: Sequence[Outline] = ()

    def answer(self, progress: Progress) -> MachineAnswer:
        """Work it out; runs on a worker's thread. Raises Cancelled."""
        numbers, chosen = self.numbers, self.numbers.chosen
        fit = numbers.fits[chosen.machine.name]
        body = numbers.estimate.purge_body_mm if numbers.estimate else (0.0, 0.0, 0.0)
        part = Outline("part", numbers.foot_mm, nozzles=fit.nozzles)
        gap_mm = chosen.process.spacing_mm
        plan = plan_copies(part, chosen.machine, self.copies, gap_mm, body[:2], self.beside)
        progress.check()
        outside: tuple[Outside, ...] = ()
        if fit.why:
            outside = (self._of_part(chosen, fit), *self._of_supports(chosen, fit))
            outside = tuple(each for each in outside if len(each.outline_mm) + len(each.hatch_mm))
        return MachineAnswer(numbers, plan, outside)

    def _of_part(self, chosen: Chosen, fit: Fit) -> Outside:
        posed = posed_vertices_mm(self.mesh.vertices_mm, self.pose)
        volume = volume_of_nozzle(chosen.machine, fit.nozzles[0])
        return _outside("part", volume, posed, self.mesh.faces, self._place(chosen, fit))

    def _of_supports(self, chosen: Chosen, fit: Fit) -> list[Outside]:
        """Support body and contact layers, each by what its own nozzle reaches."""
        pair, found = chosen.pair, []
        if self.columns is None or not len(self.columns.cell):
            return found
        body, contact = _split(self.columns, pair.contact_layers * self.layer_mm)
        contact_name = pair.contact if pair.contact_layers else pair.support_body
        if contact_name == pair.support_body:
            body, contact = self.columns, None
        for columns, name in ((body, pair.support_body), (contact, contact_name)):
            place = pair.materials.index(name)
            if columns is None or not len(columns.cell) or place >= len(fit.nozzles):
                continue
            corners = support_bodies(columns).corners_mm.astype(np.float64)
            first = 4 * np.arange(len(corners))[:, None]
            faces = np.concatenate([first + np.array(three) for three in ((0, 1, 2), (0, 2, 3))])
            volume = volume_of_nozzle(chosen.machine, fit.nozzles[place])
            spot = self._place(chosen, fit)
            # A side of the reach that runs between two cells would cut neither.
            less = _OFF_GRID * columns.pitch_mm
            found.append(_outside("support", volume, corners.reshape(-1, 3), faces, spot, less))
        return found

    def _place(self, chosen: Chosen, fit: Fit) -> np.ndarray:
        return np.array([*standing_place_mm(chosen.machine, fit), 0.0])


def _outside(
    what: str,
    volume: Volume,
    points_mm: np.ndarray,
    faces: np.ndarray,
    place: np.ndarray,
    less_mm: float = 0.0,
) -> Outside:
    inward = np.array([less_mm, less_mm, 0.0])
    low = np.array(volume.low_mm) - place + inward
    high = np.array(volume.high_mm) - place - inward
    return Outside(what, volume.name, *sticking_out(points_mm, faces, low, high))


def _split(columns: SupportColumns, contact_mm: float) -> tuple[SupportColumns, SupportColumns]:
    """The bulk of each column, and its uppermost layers next to the part."""
    between = np.maximum(columns.bottom_mm, columns.top_mm - np.float32(contact_mm))
    bulk = between > columns.bottom_mm + np.float32(1e-4)
    lower = {
        name: getattr(columns, name)[bulk] for name in ("cell", "bottom_mm", "bottom_face",
                                                        "top_face")
    }  # fmt: skip
    return (
        replace(columns, top_mm=between[bulk], **lower),
        replace(columns, bottom_mm=between),
    )
