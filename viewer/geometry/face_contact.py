"""How two triangles meet: not at all, touching, or crossing.

Two triangles cross when each has corners on both sides of the other's plane and the stretches that
the planes' common line runs through each of them overlap (Möller 1997, "A Fast Triangle-Triangle
Intersection Test", Journal of Graphics Tools 2(2)). A corner nearer to a plane than `near` lies in
it. Corners that two faces share are in both planes by definition, whatever rounding says; what
counts is whether the faces meet anywhere else.
"""

from viewer.geometry.compiled import compiled

APART, TOUCHING, CROSSING = 0, 1, 2


@compiled
def meet(corners, planes, faces, neighbours, i, j, near):
    """APART, TOUCHING or CROSSING for the faces i and j.

    corners : (m, 3, 3) float64, about the part's middle; planes : (m, 4), unit normal and offset;
    faces, neighbours : (m, 3) int32
    """
    j0, j1, j2 = _shared(faces, i, j)
    i0, i1, i2 = _shared(faces, j, i)
    shared = j0 + j1 + j2
    if shared == 3:
        return APART  # the same triangle twice is reported as a duplicate
    if shared == 2:  # joined along an edge: only a flap folded flat can lie on the other
        free = 0 if not j0 else (1 if not j1 else 2)
        if abs(_height(planes, i, corners, j, free)) > near:
            return APART
        flat = _overlap_flat(corners, planes, i, j, near, shared, i0, i1, j0, j1)
        return TOUCHING if flat else APART
    a0, a1, a2 = _sides(planes, i, corners, j, near, j0, j1, j2)
    if _beside(a0, a1, a2, shared):
        return APART
    b0, b1, b2 = _sides(planes, j, corners, i, near, i0, i1, i2)
    if _beside(b0, b1, b2, shared):
        return APART
    level = (a0 == 0 and a1 == 0 and a2 == 0) or (b0 == 0 and b1 == 0 and b2 == 0)
    if level:
        flat = _overlap_flat(corners, planes, i, j, near, shared, i0, i1, j0, j1)
        return TOUCHING if flat else APART
    apart = _gap_on_common_line(corners, planes, i, j, b0, b1, b2, a0, a1, a2)
    if apart > (-near if shared else near):
        return APART
    i_through = min(b0, b1, b2) < 0 < max(b0, b1, b2)
    j_through = min(a0, a1, a2) < 0 < max(a0, a1, a2)
    if i_through and j_through and apart <= -near:
        return CROSSING
    if _sine_between(planes, i, j) < 0.1 and not _overlap_flat(
        corners, planes, i, j, near, shared, i0, i1, j0, j1
    ):
        return APART  # so flat a meeting moves the common line far: they lie side by side
    if apart > -near:
        return TOUCHING
    # One face has an edge lying in the other: they cross if the surface goes on at the far side.
    if i_through and _goes_on(corners, planes, faces, neighbours, i, j, a0, a1, a2, near):
        return CROSSING
    if j_through and _goes_on(corners, planes, faces, neighbours, j, i, b0, b1, b2, near):
        return CROSSING
    return TOUCHING


@compiled(inline="always")
def may_meet(corners, planes, faces, i, j, near):
    """False where `meet` answers APART because one face lies on one side of the other's plane.

    That is so for nearly all faces whose boxes meet. With few branches, and compiled into the loop
    that asks, it takes a third of the time of `meet`.
    """
    a, b, c = faces[i, 0], faces[i, 1], faces[i, 2]
    p, q, r = faces[j, 0], faces[j, 1], faces[j, 2]
    j0, j1, j2 = (
        (p == a) | (p == b) | (p == c),
        (q == a) | (q == b) | (q == c),
        (r == a) | (r == b) | (r == c),
    )
    if _aside(planes, i, corners, j, near, j0, j1, j2):
        return False
    if j0 + j1 + j2 > 1:
        return True  # joined along an edge, and flat or nearly so
    i0, i1, i2 = (
        (a == p) | (a == q) | (a == r),
        (b == p) | (b == q) | (b == r),
        (c == p) | (c == q) | (c == r),
    )
    return not _aside(planes, j, corners, i, near, i0, i1, i2)


@compiled(inline="always")
def _aside(planes, i, corners, j, near, s0, s1, s2):
    """Whether the corners of face j that are not shared all lie on one side of face i's plane."""
    h0, h1 = _height(planes, i, corners, j, 0), _height(planes, i, corners, j, 1)
    h2 = _height(planes, i, corners, j, 2)
    above = (s0 | (h0 > near)) & (s1 | (h1 > near)) & (s2 | (h2 > near))
    return above | (s0 | (h0 < -near)) & (s1 | (h1 < -near)) & (s2 | (h2 < -near))


@compiled
def _beside(h0, h1, h2, shared):
    """Whether a triangle lies on one side of a plane, up to the corner it shares with it."""
    above = (h0 > 0) + (h1 > 0) + (h2 > 0)
    below = (h0 < 0) + (h1 < 0) + (h2 < 0)
    return above + shared == 3 or below + shared == 3


@compiled
def _shared(faces, i, j):
    """For each corner of face j, 1 if it is a corner of face i too."""
    a, b, c = faces[i, 0], faces[i, 1], faces[i, 2]
    p, q, r = faces[j, 0], faces[j, 1], faces[j, 2]
    return (
        1 if p in (a, b, c) else 0,
        1 if q in (a, b, c) else 0,
        1 if r in (a, b, c) else 0,
    )


@compiled(inline="always")
def _height(planes, i, corners, j, k):
    return (
        planes[i, 0] * corners[j, k, 0]
        + planes[i, 1] * corners[j, k, 1]
        + planes[i, 2] * corners[j, k, 2]
        - planes[i, 3]
    )


@compiled
def _sides(planes, i, corners, j, near, s0, s1, s2):
    """Heights of face j's corners over the plane of face i, 0 where they lie in it."""
    h0 = 0.0 if s0 else _height(planes, i, corners, j, 0)
    h1 = 0.0 if s1 else _height(planes, i, corners, j, 1)
    h2 = 0.0 if s2 else _height(planes, i, corners, j, 2)
    return (
        0.0 if abs(h0) <= near else h0,
        0.0 if abs(h1) <= near else h1,
        0.0 if abs(h2) <= near else h2,
    )


@compiled
def _sine_between(planes, i, j):
    dx = planes[i, 1] * planes[j, 2] - planes[i, 2] * planes[j, 1]
    dy = planes[i, 2] * planes[j, 0] - planes[i, 0] * planes[j, 2]
    dz = planes[i, 0] * planes[j, 1] - planes[i, 1] * planes[j, 0]
    return (dx * dx + dy * dy + dz * dz) ** 0.5


@compiled
def _gap_on_common_line(corners, planes, i, j, b0, b1, b2, a0, a1, a2):
    """Distance between the stretches that two planes' common line cuts from i and j; < 0: overlap.

    a : heights of j's corners over plane i; b : heights of i's corners over plane j
    """
    dx = planes[i, 1] * planes[j, 2] - planes[i, 2] * planes[j, 1]
    dy = planes[i, 2] * planes[j, 0] - planes[i, 0] * planes[j, 2]
    dz = planes[i, 0] * planes[j, 1] - planes[i, 1] * planes[j, 0]
    length = (dx * dx + dy * dy + dz * dz) ** 0.5
    if length < 1e-14:
        return 1e300
    dx, dy, dz = dx / length, dy / length, dz / length
    low_i, high_i = _stretch(corners, i, dx, dy, dz, b0, b1, b2)
    low_j, high_j = _stretch(corners, j, dx, dy, dz, a0, a1, a2)
    return max(low_i, low_j) - min(high_i, high_j)


@compiled
def _stretch(corners, f, dx, dy, dz, h0, h1, h2):
    t0 = dx * corners[f, 0, 0] + dy * corners[f, 0, 1] + dz * corners[f, 0, 2]
    t1 = dx * corners[f, 1, 0] + dy * corners[f, 1, 1] + dz * corners[f, 1, 2]
    t2 = dx * corners[f, 2, 0] + dy * corners[f, 2, 1] + dz * corners[f, 2, 2]
    low, high = 1e300, -1e300
    if h0 == 0.0:
        low, high = min(low, t0), max(high, t0)
    if h1 == 0.0:
        low, high = min(low, t1), max(high, t1)
    if h2 == 0.0:
        low, high = min(low, t2), max(high, t2)
    if h0 * h1 < 0.0:
        t = t0 + (t1 - t0) * (h0 / (h0 - h1))
        low, high = min(low, t), max(high, t)
    if h1 * h2 < 0.0:
        t = t1 + (t2 - t1) * (h1 / (h1 - h2))
        low, high = min(low, t), max(high, t)
    if h2 * h0 < 0.0:
        t = t2 + (t0 - t2) * (h2 / (h2 - h0))
        low, high = min(low, t), max(high, t)
    return low, high


@compiled
def _goes_on(corners, planes, faces, neighbours, i, j, a0, a1, a2, near):
    """Whether the surface across the edge of j that lies in plane i is on i's other side."""
    if a0 == 0.0 and a1 == 0.0:
        k, here = 0, a2
    elif a1 == 0.0 and a2 == 0.0:
        k, here = 1, a0
    elif a2 == 0.0 and a0 == 0.0:
        k, here = 2, a1
    else:
        return False
    g = neighbours[j, k]
    if g < 0:
        return False
    for corner in range(3):
        v = faces[g, corner]
        if v != faces[j, k] and v != faces[j, (k + 1) % 3]:
            there = _height(planes, i, corners, g, corner)
            return abs(there) > near and (there > 0.0) != (here > 0.0)
    return False


@compiled
def _flat(corners, f, k, axis):
    """Corner k of face f seen along an axis, as a right-handed pair."""
    if axis == 0:
        return corners[f, k, 1], corners[f, k, 2]
    if axis == 1:
        return corners[f, k, 2], corners[f, k, 0]
    return corners[f, k, 0], corners[f, k, 1]


@compiled
def _overlap_flat(corners, planes, i, j, near, shared, i0, i1, j0, j1):
    """Whether two faces in one plane have some area in common."""
    x, y, z = abs(planes[i, 0]), abs(planes[i, 1]), abs(planes[i, 2])
    axis = 0 if x >= y and x >= z else (1 if y >= z else 2)
    if shared == 1:
        a = 0 if i0 else (1 if i1 else 2)
        b = 0 if j0 else (1 if j1 else 2)
        return _wedges_overlap(corners, i, a, j, b, axis)
    # Separating axis: an edge that has the whole other triangle on its outer side.
    return not (_edge_parts(corners, i, j, axis, near) or _edge_parts(corners, j, i, axis, near))


@compiled
def _edge_parts(corners, f, g, axis, near):
    ax, ay = _flat(corners, f, 0, axis)
    bx, by = _flat(corners, f, 1, axis)
    cx, cy = _flat(corners, f, 2, axis)
    turn = 1.0 if (bx - ax) * (cy - ay) - (by - ay) * (cx - ax) > 0.0 else -1.0
    for k in range(3):
        px, py = _flat(corners, f, k, axis)
        qx, qy = _flat(corners, f, (k + 1) % 3, axis)
        ex, ey = qx - px, qy - py
        length = (ex * ex + ey * ey) ** 0.5
        inside = -1e300
        for corner in range(3):
            rx, ry = _flat(corners, g, corner, axis)
            inside = max(inside, turn * (ex * (ry - py) - ey * (rx - px)))
        if inside <= near * length:
            return True
    return False


@compiled
def _wedges_overlap(corners, i, a, j, b, axis):
    """Whether the angles of two faces at their one common corner overlap."""
    ux, uy, vx, vy = _wedge(corners, i, a, axis)
    px, py, qx, qy = _wedge(corners, j, b, axis)
    if _within(px, py, ux, uy, vx, vy) or _within(qx, qy, ux, uy, vx, vy):
        return True
    if _within(ux, uy, px, py, qx, qy) or _within(vx, vy, px, py, qx, qy):
        return True
    return _within(ux + vx, uy + vy, px, py, qx, qy)


@compiled
def _wedge(corners, f, k, axis):
    """Unit directions of the two edges at corner k, anticlockwise."""
    ox, oy = _flat(corners, f, k, axis)
    ux, uy = _flat(corners, f, (k + 1) % 3, axis)
    vx, vy = _flat(corners, f, (k + 2) % 3, axis)
    ux, uy, vx, vy = ux - ox, uy - oy, vx - ox, vy - oy
    u, v = (ux * ux + uy * uy) ** 0.5, (vx * vx + vy * vy) ** 0.5
    ux, uy, vx, vy = ux / u, uy / u, vx / v, vy / v
    if ux * vy - uy * vx < 0.0:
        return vx, vy, ux, uy
    return ux, uy, vx, vy


@compiled
def _within(x, y, ux, uy, vx, vy):
    """Whether a direction lies clearly (by a millionth of its length) inside a wedge < 180°."""
    return ux * y - uy * x > 1e-6 and x * vy - y * vx > 1e-6
