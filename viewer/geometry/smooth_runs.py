"""Runs of faces that go on smoothly: neighbours within 10° of each other, joined."""

import numpy as np

from viewer.geometry.compiled import compiled

RUN_ANGLE_DEG = 10.0


def smooth_runs(neighbours: np.ndarray, normals: np.ndarray) -> tuple[np.ndarray, int]:
    """Number the runs: connected faces whose neighbours' normals differ by at most 10°.

    neighbours : (m, 3) int32 from `face_neighbours`
    normals : (m, 3) float, unit, oriented alike; zero for faces without area
    returns (m,) int32 run of each face, and the number of runs

    A face without area joins its neighbours whatever their angle, so that a needle does not cut a
    surface in two.
    """
    return _number_runs(neighbours, normals, float(np.cos(np.radians(RUN_ANGLE_DEG + 1e-4))))


@compiled
def _number_runs(neighbours, normals, least_cosine):
    run = np.full(len(neighbours), -1, np.int32)
    stack = np.empty(len(neighbours), np.int32)
    count = 0
    for seed in range(len(neighbours)):
        if run[seed] >= 0:
            continue
        run[seed] = count
        stack[0], height = seed, 1
        while height > 0:
            height -= 1
            f = stack[height]
            ax, ay, az = normals[f]
            for k in range(3):
                g = neighbours[f, k]
                if g < 0 or run[g] >= 0:
                    continue
                bx, by, bz = normals[g]
                flat = (ax == 0 and ay == 0 and az == 0) or (bx == 0 and by == 0 and bz == 0)
                if flat or ax * bx + ay * by + az * bz >= least_cosine:
                    run[g] = count
                    stack[height] = g
                    height += 1
        count += 1
    return run, count
