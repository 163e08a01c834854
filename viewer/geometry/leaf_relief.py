"""Raised leaves on climbing stems: a height over an unrolled surface, for the demo part.

The surface is unrolled to u (along the part, mm) and v (around it, mm, periodic). A stem winds
along u with leaves to its left and right; each leaf is an almond with a raised midrib and side
veins pressed into it. Where shapes meet, the higher one wins.
"""

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class LeafPattern:
    """The pattern's dimensions.

    The field covers u from `start_mm` to `end_mm`; `around_mm` is the period in v.
    """

    start_mm: float
    end_mm: float
    around_mm: float
    stems: int = 6
    leaf_length_mm: float = 11.6
    leaf_width_mm: float = 5.8
    leaf_step_mm: float = 6.6
    leaf_height_mm: float = 0.42
    rib_height_mm: float = 0.16
    stem_height_mm: float = 0.34
    stem_width_mm: float = 1.1
    stem_sway_mm: float = 1.6
    stem_wave_mm: float = 30.0


def smooth_step(low: float, high: float, x: np.ndarray) -> np.ndarray:
    """0 below `low`, 1 above `high`, a cubic with level ends between them."""
    t = np.clip((x - low) / (high - low), 0.0, 1.0)
    return t * t * (3.0 - 2.0 * t)


def _stem_line(pattern: LeafPattern, stem: int, u: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """v of a stem's middle line at `u`, and its slope dv/du."""
    middle = (stem + 0.5) * pattern.around_mm / pattern.stems
    turn = 2.0 * np.pi / pattern.stem_wave_mm
    phase = turn * u + 2.0 * np.pi * stem / pattern.stems  # even steps: stems never crowd
    return (
        middle + pattern.stem_sway_mm * np.sin(phase),
        pattern.stem_sway_mm * turn * np.cos(phase),
    )


def _leaf_height(pattern: LeafPattern, x: np.ndarray, y: np.ndarray, size: float) -> np.ndarray:
    """Height of one leaf: `x` from its stalk (0) to its tip (1), `y` across in mm, `size` scale."""
    along = np.clip(x, 0.0, 1.0)
    # An almond, fullest at 40 % of its length, running out in a point.
    half_width = 0.5 * pattern.leaf_width_mm * size * (along**0.62) * (1.0 - along) ** 0.8 / 0.374
    bow = 0.07 * pattern.leaf_length_mm * size * np.sin(np.pi * along)
    across = y - bow
    inside = half_width - np.abs(across)
    edge = smooth_step(-0.1, 0.65, inside) * ((x > 0.0) & (x < 1.0))
    share = np.abs(across) / np.maximum(half_width, 0.2)
    dome = 1.0 - 0.30 * share**2
    rib = pattern.rib_height_mm * np.exp(-((across / 0.42) ** 2)) * smooth_step(1.0, 0.75, along)
    # Side veins leave the midrib forward at about 40°, five to each side.
    vein_at = along * 5.6 - 0.55 * np.abs(across) / (0.5 * pattern.leaf_width_mm * size)
    from_vein = np.abs(vein_at - np.round(vein_at)) * pattern.leaf_length_mm * size / 5.6
    vein = 0.17 * np.exp(-((from_vein / 0.38) ** 2)) * smooth_step(0.08, 0.3, share)
    return np.maximum(edge * (pattern.leaf_height_mm * dome + rib - vein), 0.0)


def _window(u_mm: np.ndarray, v_mm: np.ndarray, u0: float, v0: float, reach: float, around: float):
    """Indices of the grid rows and columns within `reach` of (u0, v0), and v measured from v0."""
    rows = np.flatnonzero(np.abs(u_mm - u0) < reach)
    from_v0 = (v_mm - v0 + 0.5 * around) % around - 0.5 * around
    columns = np.flatnonzero(np.abs(from_v0) < reach)
    return rows, columns, from_v0[columns]


def leaf_relief_mm(u_mm: np.ndarray, v_mm: np.ndarray, pattern: LeafPattern) -> np.ndarray:
    """Height of the relief over the grid `u_mm` × `v_mm`.

    u_mm : (r,) float64, places along the part; v_mm : (c,) float64, places around it
    returns (r, c) float64, mm, 0 where there is no leaf; periodic in v
    """
    height = np.zeros((len(u_mm), len(v_mm)))
    around = pattern.around_mm
    for stem in range(pattern.stems):
        line, slope = _stem_line(pattern, stem, u_mm)
        off = (v_mm[None, :] - line[:, None] + 0.5 * around) % around - 0.5 * around
        distance = off / np.sqrt(1.0 + slope[:, None] ** 2)
        ridge = np.exp(-((2.0 * distance / pattern.stem_width_mm) ** 2))
        within = smooth_step(pattern.start_mm, pattern.start_mm + 2.0, u_mm)
        within = within * smooth_step(pattern.end_mm, pattern.end_mm - 2.0, u_mm)
        np.maximum(height, pattern.stem_height_mm * ridge * within[:, None], out=height)
        _add_leaves(height, u_mm, v_mm, pattern, stem)
    return height


def _add_leaves(
    height: np.ndarray, u_mm: np.ndarray, v_mm: np.ndarray, pattern: LeafPattern, stem: int
) -> None:
    """Raise `height` by the leaves of one stem, alternating sides."""
    reach = 1.15 * pattern.leaf_length_mm
    first = pattern.start_mm + 1.0 + (stem * 0.382 % 1.0) * pattern.leaf_step_mm
    places = np.arange(first, pattern.end_mm - 0.75 * pattern.leaf_length_mm, pattern.leaf_step_mm)
    for k, u0 in enumerate(places):
        side = 1.0 if (k + stem) % 2 else -1.0
        line, slope = _stem_line(pattern, stem, np.array([u0]))
        size = 0.88 + 0.12 * np.sin(2.1 * k + 1.3 * stem)
        angle = np.arctan(slope[0]) + side * np.radians(38.0 + 5.0 * np.sin(1.7 * k + stem))
        rows, columns, dv = _window(u_mm, v_mm, u0, float(line[0]), reach, pattern.around_mm)
        du = (u_mm[rows] - u0)[:, None]
        along = du * np.cos(angle) + dv[None, :] * np.sin(angle)
        across = side * (-du * np.sin(angle) + dv[None, :] * np.cos(angle))
        leaf = _leaf_height(pattern, (along - 0.5) / (pattern.leaf_length_mm * size), across, size)
        patch = np.ix_(rows, columns)
        height[patch] = np.maximum(height[patch], leaf)
