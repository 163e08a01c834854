"""Supports of one build direction by few rays: quick, and the same points for all directions.

Of the points of `surface_samples` those that overhang are taken one in so many, by plan area; from
each a ray goes down to the next face or to the platform. Plan areas by class are known exactly from
the normals, so the rays only tell how high supports are and where they land (ratio estimator):
volume = Σ over classes of plan area · mean gap. Of the supports so found some are asked, by volume,
whether a straight way leads out (see `unreachable`).
"""

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.geometry.overhang import PLATFORM_HEIGHT_MM
from viewer.geometry.ray_tree import meets_anything, nearest_hit
from viewer.geometry.supports import STEEPEST_LANDING

_OFF_MM = 0.005  # rays start so far below their face
_GOLDEN = 0.6180339887498949
_STEPS = 512  # steps of height that are told apart
# Places in the row of sums that `cast_supports` fills.
VOLUME, UNREACHABLE, LANDING = 0, 1, 2  # landing: unmarked, A, B, platform
SUMS = 6


@compiled
def cast_supports(
    samples, weights, tree, rotation, low_mm, limits, plan_mm2, rays, asked, ways, reach, feet, sums
):
    """Sums over the supports of one direction, and their feet; returns how many feet there are.

    weights : (s,) float32, filled: plan area of each sample that overhangs, 0 of the others
    rotation : (3, 3) float64, whose last row is the build direction; low_mm : platform along it
    limits : (2,) float32, n_z below which a face overhangs, and below which it may lie level
    plan_mm2 : (3,) float64, exact plan area of what overhangs, by class number
    rays, asked : how many rays to cast, how many points of supports to ask for ways out
    ways : (26, 3) float64, directions of ways out; reach : how far to look
    feet : (rays, 5) float64, filled: x, y of each support, its foot and its height above the
        platform (turned frame), the volume it stands for
    sums : (6,) float64, filled
    """
    up = rotation[2]
    chosen, plan, count = _choose(samples, weights, up, low_mm, limits, rays)
    gaps, grounds = np.empty(count), np.empty(count)
    places = np.empty(count, np.int64)
    down, origin = -up, np.empty(3)
    of_class = np.zeros(3)
    for i in range(count):
        p = samples.points_mm[chosen[i]]
        height = up[0] * p[0] + up[1] * p[1] + up[2] * p[2] - low_mm
        for axis in range(3):
            origin[axis] = p[axis] - _OFF_MM * up[axis]
        distance, place = nearest_hit(tree, origin, down, max(height, _OFF_MM))
        places[i] = place
        gaps[i] = height if place < 0 else distance + _OFF_MM
        grounds[i] = 1.0
        if place >= 0:
            grounds[i] = _level_share(tree.corners_mm[place], up)
        of_class[samples.classes[chosen[i]]] += plan[i]
    met = 0.0
    for number in range(3):
        met += plan_mm2[number] if of_class[number] > 0 else 0.0
    # Classes that no ray met share the mean of the others.
    more = plan_mm2.sum() / met if met > 0 else 0.0
    for i in range(count):
        number = samples.classes[chosen[i]]
        weight = more * plan[i] * plan_mm2[number] / of_class[number]
        p, place = samples.points_mm[chosen[i]], places[i]
        sums[VOLUME] += weight * gaps[i]
        if place < 0:
            sums[LANDING + 3] += weight
        else:
            ground = max(grounds[i], STEEPEST_LANDING)
            sums[LANDING + samples.class_of_place[place]] += weight / ground
        for axis in range(2):
            turn = rotation[axis]
            feet[i, axis] = turn[0] * p[0] + turn[1] * p[1] + turn[2] * p[2]
        top = up[0] * p[0] + up[1] * p[1] + up[2] * p[2] - low_mm
        feet[i, 2] = 0.0 if place < 0 else max(top - gaps[i], 0.0)
        feet[i, 3], feet[i, 4] = gaps[i], weight * gaps[i]
    sums[UNREACHABLE] = sums[VOLUME] * _share_without_way(
        tree, samples.points_mm, chosen[:count], feet, up, asked, ways, reach
    )
    return count


@compiled
def supported_mm(feet, count, height_mm):
    """Height of the layers that have any support, by `count` of the (rays, 5) feet."""
    begun = np.zeros(_STEPS + 1, np.int64)
    per_mm = _STEPS / max(height_mm, 1e-9)
    for i in range(count):
        low, high = feet[i, 2] * per_mm, (feet[i, 2] + feet[i, 3]) * per_mm
        begun[int(min(max(np.floor(low), 0.0), _STEPS - 1.0))] += 1
        begun[int(min(max(np.ceil(high), 1.0), float(_STEPS)))] -= 1
    standing, found = 0, 0
    for k in range(_STEPS):
        standing += begun[k]
        found += standing > 0
    return found / per_mm


@compiled
def _choose(samples, weights, up, low_mm, limits, rays):
    """Samples that overhang: their numbers, the plan area each has to speak for, how many.

    All of them where they are few, with their own plan areas; otherwise one in so many by plan
    area, which then count alike (systematic sampling with probability proportional to size).
    """
    _weigh(
        samples.x, samples.y, samples.z, np.float32(up[0]), np.float32(up[1]), np.float32(up[2]),
        limits[0], weights,
    )  # fmt: skip
    total, candidates = 0.0, 0
    for i in range(len(weights)):
        if weights[i] >= -limits[1]:
            p = samples.points_mm[i]
            if up[0] * p[0] + up[1] * p[1] + up[2] * p[2] - low_mm <= PLATFORM_HEIGHT_MM:
                weights[i] = 0.0  # it lies on the platform
        total += np.float64(weights[i])
        candidates += weights[i] > 0
    chosen, plan, count = np.empty(rays, np.int64), np.ones(rays), 0
    step, passed = total / rays, 0.0
    for i in range(len(weights)):
        if candidates <= rays:
            if weights[i] > 0:
                chosen[count], plan[count] = i, weights[i]
                count += 1
            continue
        passed += np.float64(weights[i])
        while passed > (count + 0.5) * step and count < rays:
            chosen[count] = i
            count += 1
    return chosen, plan, count


@compiled(fastmath={"reassoc", "contract", "nsz"})
def _weigh(x, y, z, up_x, up_y, up_z, limit, weights):
    zero = np.float32(0)
    for i in range(len(weights)):
        n_z = x[i] * up_x + y[i] * up_y + z[i] * up_z
        weights[i] = -n_z if n_z < limit else zero


@compiled
def _level_share(corners, up):
    """|n_z| of a face."""
    ux, uy, uz = corners[1] - corners[0]
    vx, vy, vz = corners[2] - corners[0]
    x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    length = np.sqrt(x * x + y * y + z * z)
    return abs(x * up[0] + y * up[1] + z * up[2]) / length if length > 0 else 1.0


@compiled
def _share_without_way(tree, points, chosen, feet, up, asked, ways, reach):
    """Share of the support volume from which no straight way leads out, by some of its points."""
    total = 0.0
    for i in range(len(chosen)):
        total += feet[i, 4]
    if not total > 0:
        return 0.0
    order, point = np.arange(len(ways)), np.empty(3)
    found, stuck, passed, step = 0, 0, 0.0, total / asked
    for i in range(len(chosen)):
        passed += feet[i, 4]
        while found < asked and passed > (found + 0.5) * step:
            down = ((found * _GOLDEN) % 1.0) * feet[i, 3]
            for axis in range(3):
                point[axis] = points[chosen[i], axis] - max(down, _OFF_MM) * up[axis]
            stuck += _is_stuck(tree, point, ways, order, reach)
            found += 1
    return stuck / max(found, 1)


@compiled
def _is_stuck(tree, point, ways, order, reach):
    for j in range(len(order)):
        way = order[j]
        if meets_anything(tree, point, ways[way], reach):
            continue
        for k in range(j, 0, -1):  # what led out comes first the next time
            order[k] = order[k - 1]
        order[0] = way
        return False
    return True
