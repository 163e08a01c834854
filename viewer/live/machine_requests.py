"""What of a job the picture of its machine depends on; pure functions of the state."""

import numpy as np

from viewer.document.beside_pieces import pieces_beside
from viewer.document.job_piece import JobPiece
from viewer.document.state import State
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.stability import convex_hull_2d
from viewer.shop.copies import Outline
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.machine_answer import MachineRequest


def machine_request(
    state: State, pose: Pose, numbers: JobNumbers, measures: PoseMeasures
) -> MachineRequest:
    """The request for one pose; numbers, measures : of that pose."""
    return MachineRequest(
        state.part.file_mesh,
        pose,
        numbers,
        state.shop_choice.copies,
        measures.columns,
        state.settings.layer_mm,
        tuple(piece_outline(piece, numbers) for piece in pieces_beside(state)),
    )


def piece_outline(piece: JobPiece, numbers: JobNumbers) -> Outline:
    """What a piece takes of the platform.

    A specimen of the part's material alone needs that material's nozzle only; what has a body of
    the other material, or may need supports like the part, is kept where all nozzles reach.
    """
    laid = piece.laid_mm
    hull = convex_hull_2d(np.concatenate([points[:, :2] for points in laid]))
    middle = 0.5 * (hull.min(axis=0) + hull.max(axis=0))
    one_material = piece.source == "specimen" and all(b.material == "model" for b in piece.bodies)
    fit = numbers.fits[numbers.chosen.machine.name]
    nozzles = fit.nozzles[:1] if one_material or len(numbers.chosen.pair.materials) == 1 else ()
    return Outline(piece.name, hull - middle, float(piece.size_mm[2]), nozzles)
