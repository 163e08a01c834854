"""The turn and shift that lay one part on another version of it, where its file lies otherwise.

Tried are, in this order, until one fits: lying still; shifts that bring corners or middles of the
boxes together; the 24 turns that carry the axes onto one another; and turns that carry principal
axes onto one another, brought home by fitting points to planes (Y. Chen & G. Medioni, Object
modelling by registration of multiple range images, 1992; the name ICP is from P. Besl & N. McKay,
A method for registration of 3-D shapes, 1992; both MEM).
"""

from typing import NamedTuple

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.nearest_face import nearest_in_tree
from viewer.geometry.ray_tree import RayTree, build_ray_tree
from viewer.geometry.rotations import (
    quarter_turns,
    turn_angle_deg,
    turn_of_vector,
    turns_of_quaternions,
)
from viewer.progress import Progress

FITS = 0.8  # of the surface found where it should be: no other motion is looked for
LEAST_FIT = 0.5  # what a turn must bring back at least
SHIFT_GAIN, TURN_GAIN = 0.05, 0.1  # so much more than the simpler motion finds
AS_GOOD = 0.02  # of motions whose shares differ by less the smallest is taken
SAMPLES, FEW = 2000, 300
LOOSE = 10.0  # times as far apart as surfaces that are the same: where a fit may begin
BEGUN, STEPS = 8, 40  # fits begun, and steps of each at most
ALIKE = 0.15  # principal moments that differ by less tell no axes
STEP_DEG = 15.0  # then turns are tried so far apart
NEARLY_SQUARE_DEG = 0.05  # so close to a quarter turn it is one
_STEP_U, _STEP_V = 0.7548776662466927, 0.5698402909980532  # R2 sequence (Roberts 2018; MEM)


class RigidMotion(NamedTuple):
    """A place p of the old part is turn · p + shift on the newer one.

    turn : (3, 3) rotation; shift_mm : (3,)
    """

    turn: np.ndarray
    shift_mm: np.ndarray

    @property
    def turn_deg(self) -> float:
        """By how much it turns, about whatever axis."""
        return turn_angle_deg(self.turn)

    def of_points(self, points_mm: np.ndarray) -> np.ndarray:
        """(k, 3) points after the motion."""
        return points_mm @ self.turn.T + self.shift_mm

    def shift_of_mm(self, point_mm: np.ndarray) -> float:
        """How far a point (3,) is moved."""
        return float(np.linalg.norm(self.of_points(point_mm) - point_mm))


STILL = RigidMotion(np.eye(3), np.zeros(3))


class Samples(NamedTuple):
    """(k, 3) places spread evenly over a surface, and the (k, 3) unit normals there."""

    points_mm: np.ndarray
    normals: np.ndarray

    def some(self, count: int) -> "Samples":
        """Fewer, spread as evenly."""
        which = np.linspace(0, len(self.points_mm) - 1, min(count, len(self.points_mm))).astype(int)
        return Samples(self.points_mm[which], self.normals[which])


class Side(NamedTuple):
    """One of the two parts, ready to be looked at."""

    mesh: Mesh
    tree: RayTree
    samples: Samples


def spread_samples(mesh: Mesh, count: int) -> Samples:
    """Places on a surface, each of which stands for the same area."""
    passed = np.cumsum(mesh.face_areas_mm2)
    number = np.arange(count)
    faces = np.searchsorted(passed, (number + 0.5) * passed[-1] / count)
    faces = np.minimum(faces, mesh.face_count - 1)
    u, v = (number * _STEP_U) % 1.0, (number * _STEP_V) % 1.0
    over = u + v > 1.0
    u, v = np.where(over, 1.0 - u, u), np.where(over, 1.0 - v, v)
    a, b, c = (mesh.vertices_mm[mesh.faces[faces, k]] for k in range(3))
    points = a + u[:, None] * (b - a) + v[:, None] * (c - a)
    return Samples(points, mesh.face_normals[faces])


def likely_motion(
    old: Mesh, new: Mesh, within_mm: float, progress: Progress | None = None
) -> RigidMotion:
    """From the old part to the newer one; the simplest that explains where it lies.

    within_mm : how far apart two surfaces may lie to be the same. Raises Cancelled.
    """
    progress = progress or Progress()
    if not old.face_count or not new.face_count or not new.face_areas_mm2.sum() > 0.0:
        return STILL
    before = Side(old, build_ray_tree(old.vertices_mm, old.faces, progress), Samples(*[()] * 2))
    after = spread_samples(new, SAMPLES)
    best = STILL
    share = _share(before.tree, after, STILL, within_mm, progress)
    if share >= FITS:
        return best
    for motion in _by_boxes(old, new, [np.eye(3)]):
        found = _share(before.tree, after, motion, within_mm, progress)
        if found > share + (SHIFT_GAIN if best is STILL else 0.0):
            best, share = motion, found
    if share >= FITS or not old.face_areas_mm2.sum() > 0.0:
        return best
    tree = build_ray_tree(new.vertices_mm, new.faces, progress)
    sides = before._replace(samples=spread_samples(old, SAMPLES)), Side(new, tree, after)
    turned, fit = _best_turn(*sides, within_mm, progress)
    straight = _share_both(*sides, best, within_mm, progress)
    return turned if fit >= max(straight + TURN_GAIN, LEAST_FIT) else best


def _best_turn(
    old: Side, new: Side, within_mm: float, progress: Progress
) -> tuple[RigidMotion, float]:
    """The turn that brings the parts together best, and the share of both that is then found."""
    squares = quarter_turns()
    few = new.samples.some(FEW)
    tried = list(_by_boxes(old.mesh, new.mesh, squares))
    shares = [_share(old.tree, few, motion, within_mm, progress) for motion in tried]
    likely = [tried[i] for i in np.argsort(shares)[::-1][:BEGUN]]
    if max(shares) < FITS:
        begun = _by_moments(old.samples, new.samples)
        loose = [_share(old.tree, few, one, LOOSE * within_mm, progress) for one in begun]
        for i in np.argsort(loose)[::-1][:BEGUN]:
            likely.append(_fitted(old, new.samples, begun[i], within_mm, progress))
    likely += [_squared(motion, old, new.samples, within_mm, progress) for motion in likely]
    found = [_share_both(old, new, motion, within_mm, progress) for motion in likely]
    middle = old.mesh.box_mm.mean(axis=0)
    as_good = [i for i in range(len(likely)) if found[i] >= max(found) - AS_GOOD]
    least = min(
        as_good,
        key=lambda i: (round(likely[i].turn_deg, 2), round(likely[i].shift_of_mm(middle), 3)),
    )
    return likely[least], found[least]


def _share(
    tree: RayTree, samples: Samples, motion: RigidMotion, within_mm: float, progress: Progress
) -> float:
    """Of the newer part's samples the share that lie on the old one, taken back by a motion."""
    progress.check()
    points = (samples.points_mm - motion.shift_mm) @ motion.turn
    enough = np.ones(len(points), bool)
    near = nearest_in_tree(
        tree, points, progress, samples.normals @ motion.turn, within_mm, enough
    )  # fmt: skip
    return float(np.mean(near.faces >= 0))


def _share_both(
    old: Side, new: Side, motion: RigidMotion, within_mm: float, progress: Progress
) -> float:
    """The mean of the shares of either part that lie on the other."""
    back = RigidMotion(motion.turn.T, -motion.turn.T @ motion.shift_mm)
    return 0.5 * (
        _share(old.tree, new.samples, motion, within_mm, progress)
        + _share(new.tree, old.samples, back, within_mm, progress)
    )


def _by_boxes(old: Mesh, new: Mesh, turns: list[np.ndarray] | np.ndarray) -> list[RigidMotion]:
    """For each turn the shifts that bring low corners, middles or high corners of boxes together.

    Programs put a part at its corner, its middle, or where it was drawn.
    """
    motions = []
    for turn in turns:
        ends = old.box_mm @ turn.T
        low, high = new.box_mm - np.stack([ends.min(axis=0), ends.max(axis=0)])
        motions += [RigidMotion(turn, shift) for shift in (low, 0.5 * (low + high), high)]
    return motions


def _by_moments(old: Samples, new: Samples) -> list[RigidMotion]:
    """Motions that carry the middle and the principal axes of one surface onto the other's."""
    middles, frames, moments = [], [], []
    for samples in (old, new):
        middle = samples.points_mm.mean(axis=0)
        moment, axes = np.linalg.eigh(np.cov((samples.points_mm - middle).T))
        axes[:, 0] *= np.sign(np.linalg.det(axes))  # right-handed
        middles.append(middle)
        frames.append(axes)
        moments.append(moment)
    between = quarter_turns()
    low, mid, high = moments[0] / moments[0].max()
    if high - low < ALIKE:
        # No axis stands out: turns all round, about as far apart as a fit reaches.
        quaternions = np.random.default_rng(1).normal(size=(600, 4))
        between = np.concatenate([between, turns_of_quaternions(quaternions)])
    elif mid - low < ALIKE or high - mid < ALIKE:
        axis = np.eye(3)[2 if mid - low < ALIKE else 0]
        about = [
            turn_of_vector(np.radians(deg) * axis) for deg in np.arange(STEP_DEG, 90.0, STEP_DEG)
        ]
        between = np.concatenate([between, *(one @ between for one in about)])
    turns = frames[1] @ between @ frames[0].T
    return [RigidMotion(turn, middles[1] - turn @ middles[0]) for turn in turns]


def _fitted(
    old: Side, samples: Samples, motion: RigidMotion, within_mm: float, progress: Progress
) -> RigidMotion:
    """A motion brought home: step by step, samples are moved to the planes that lie nearest."""
    reach_mm = LOOSE * within_mm
    some = samples.some(2 * FEW)
    for _ in range(STEPS):
        step = _step(old, some, motion, reach_mm, progress, turning=True)
        if step is None:
            break
        motion, moved_mm = step
        reach_mm = max(0.8 * reach_mm, 2.0 * within_mm)
        if moved_mm < 1e-7 and reach_mm <= 2.0 * within_mm:
            break
    return motion


def _squared(
    motion: RigidMotion, old: Side, samples: Samples, within_mm: float, progress: Progress
) -> RigidMotion:
    """The same with axes carried exactly onto axes, if they nearly are; the shift fitted anew."""
    square = np.round(motion.turn) + 0.0
    apart = RigidMotion(motion.turn @ square.T, np.zeros(3))
    if not np.isclose(np.linalg.det(square), 1.0) or apart.turn_deg > NEARLY_SQUARE_DEG:
        return motion
    middle = samples.points_mm.mean(axis=0)
    shift = middle - square @ motion.turn.T @ (middle - motion.shift_mm)
    squared = RigidMotion(square, shift)
    for _ in range(3):
        step = _step(old, samples, squared, 2.0 * within_mm, progress, turning=False)
        if step is not None:
            squared = step[0]
    return squared


def _step(
    old: Side,
    samples: Samples,
    motion: RigidMotion,
    reach_mm: float,
    progress: Progress,
    turning: bool,
) -> tuple[RigidMotion, float] | None:
    """One step of a fit, and how far it moves; None where too little of the surface is near."""
    progress.check()
    points = (samples.points_mm - motion.shift_mm) @ motion.turn
    near = nearest_in_tree(old.tree, points, progress, samples.normals @ motion.turn, reach_mm)
    held = np.flatnonzero(near.faces >= 0)
    if len(held) < 6:
        return None
    faces = near.faces[held]
    normals = old.mesh.face_normals[faces]
    off = points[held] - old.mesh.vertices_mm[old.mesh.faces[faces, 0]]
    residuals = np.einsum("ij,ij->i", normals, off)
    middle = points.mean(axis=0)
    size_mm = max(float(np.abs(points - middle).max()), 1e-12)
    columns = normals
    if turning:
        arms = np.cross((points[held] - middle) / size_mm, normals)
        columns = np.concatenate([arms, normals], axis=1)
    # Least squares of least size: along directions that the surface does not tell, nothing moves.
    answer = np.linalg.lstsq(columns, -residuals, rcond=1e-6)[0]
    turn = np.eye(3)
    if turning:
        turn = turn_of_vector(answer[:3] / size_mm)
    # Points q of the newer part, taken back, go to turn (q − middle) + middle + shift.
    shift = middle + answer[-3:] - turn @ middle
    back_turn = turn @ motion.turn.T
    back_shift = turn @ (-motion.turn.T @ motion.shift_mm) + shift
    moved_mm = float(np.abs(answer).max())
    return RigidMotion(back_turn.T, -back_turn.T @ back_shift), moved_mm
