"""Which faces an eye sees, by drawing the part's depth as the eye sees it.

Every face is drawn into a square of depths, nearest first wins, and then asked whether the depth
at its own pixels is its own. The depth of a plane, seen in perspective, is linear in the picture
if its inverse is kept. Source: the depth buffer, E. Catmull, A subdivision algorithm for computer
display of curved surfaces (1974), and its use for shadows, L. Williams, Casting curved shadows on
curved surfaces (1978).
"""

import os
from concurrent.futures import ThreadPoolExecutor
from threading import Lock
from typing import NamedTuple

import numpy as np

from viewer.geometry.compiled import compiled
from viewer.progress import Progress

PIXELS = 1536
HIDDEN, PARTLY, WHOLE = 0, 1, 2  # how much of a face is seen
RAGGED = 4  # so many pixels of a face may be a neighbour's, along edges that both draw
STEEPEST = 10.0  # pixels of depth over one pixel: steeper faces hide as if they were so steep
MOST_AT_ONCE = 4  # eyes: each needs room for its picture, and asks what the others have not seen
_STOP_EVERY = 4096  # faces between two looks at the stop flag


class Eye(NamedTuple):
    """A place to look from, through a square window.

    place_mm : (3,) where the eye is
    towards : (3,) unit, the middle of what it sees
    upright : (3,) unit, at right angles to `towards`
    half_angle_deg : from the middle of the window to the middle of a side, below 90
    aspect : width of the window by its height
    """

    place_mm: np.ndarray
    towards: np.ndarray
    upright: np.ndarray
    half_angle_deg: float
    aspect: float = 1.0


class Seen(NamedTuple):
    """What some eyes see.

    faces : (m,) uint8, HIDDEN to WHOLE, of each face by the eye that sees most of it
    eyes_in_part : (e,) bool, the eyes that see a part of a face of which none sees the whole
    """

    faces: np.ndarray
    eyes_in_part: np.ndarray


def eye_on(place_mm: np.ndarray, box_mm: np.ndarray) -> Eye:
    """An eye outside a part that sees the whole ball about its box, (2, 3)."""
    middle = np.mean(box_mm, axis=0)
    radius = 0.5 * float(np.linalg.norm(np.ptp(box_mm, axis=0)))
    towards = middle - np.asarray(place_mm, float)
    distance = float(np.linalg.norm(towards))
    towards = towards / distance
    side = np.eye(3)[np.abs(towards).argmin()]
    upright = np.cross(np.cross(towards, side), towards)
    half = np.degrees(np.arcsin(min(radius / distance, 0.999)))
    return Eye(np.asarray(place_mm, float), towards, upright / np.linalg.norm(upright), half)


def ring_of_eyes(
    axis: np.ndarray, lift_deg: float, distance_mm: float, count: int, box_mm: np.ndarray
) -> list[Eye]:
    """Eyes evenly on a circle about the middle of a box, each seeing all of it.

    axis : (3,) about which the part is seen all round
    lift_deg : how far above the plane across the axis the eyes stand, −90 to 90
    distance_mm : from the middle of the box; raised to what keeps the eyes outside it
    """
    axis = np.asarray(axis, float) / np.linalg.norm(axis)
    first = np.cross(axis, np.eye(3)[np.abs(axis).argmin()])
    first /= np.linalg.norm(first)
    second = np.cross(axis, first)
    radius = 0.5 * float(np.linalg.norm(np.ptp(box_mm, axis=0)))
    distance = max(distance_mm, 1.05 * radius)
    lift = np.radians(lift_deg)
    turns = 2.0 * np.pi * np.arange(count) / count
    across = np.cos(turns)[:, None] * first + np.sin(turns)[:, None] * second
    places = np.mean(box_mm, axis=0) + distance * (np.cos(lift) * across + np.sin(lift) * axis)
    return [eye_on(place, box_mm) for place in places]


def most_seen(
    vertices_mm: np.ndarray,
    faces: np.ndarray,
    eyes: list[Eye],
    both_sides: bool = False,
    progress: Progress | None = None,
    asked: np.ndarray | None = None,
) -> Seen:
    """How much of each face the eye sees that sees most of it.

    vertices_mm : (n, 3) float64
    faces : (m, 3) int32, anticlockwise seen from outside
    both_sides : whether the back of a face is seen, too, as of a surface that is not closed
    asked : (m,) bool, the faces of interest; of others nothing is said. None: all

    A face is seen if any pixel of it is; one that falls between pixels, if its middle is.
    Raises Cancelled if `progress` says so.
    """
    progress = progress or Progress()
    seen = np.zeros(len(faces), np.uint8)
    left = np.ones(len(faces), np.bool_) if asked is None else asked.copy()
    rows = None if asked is None else np.flatnonzero(asked)
    in_part: list[np.ndarray] = [np.empty(0, np.int64)] * len(eyes)
    one_at_a_time = Lock()

    def look(number: int) -> None:
        answer = _seen_by(
            vertices_mm, faces, eyes[number], both_sides, left, rows, progress.stop_flag
        )
        in_part[number] = np.flatnonzero(answer == PARTLY)
        with one_at_a_time:
            np.maximum(seen, answer, out=seen)
            left[answer == WHOLE] = False  # the eyes after this one need not ask

    with ThreadPoolExecutor(min(MOST_AT_ONCE, os.cpu_count() or 1)) as workers:
        for done, _ in enumerate(workers.map(look, range(len(eyes))), 1):
            progress.report(done / len(eyes), "Looking at the part from all sides")
    partly = np.array([bool((seen[each] == PARTLY).any()) for each in in_part], bool)
    return Seen(seen, partly)


def _seen_by(vertices_mm, faces, eye, both_sides, asked, rows, stop):
    right = np.cross(eye.towards, eye.upright)
    scale = 0.5 * PIXELS / np.tan(np.radians(eye.half_angle_deg))
    frame = np.stack([right * scale / eye.aspect, eye.upright * scale, eye.towards])
    drawn = _project(vertices_mm, eye.place_mm, frame)
    window = (0, PIXELS - 1, 0, PIXELS - 1) if rows is None else _window(drawn, faces, rows)
    nearest = np.zeros((PIXELS, PIXELS), np.float32)
    _draw(drawn, faces, nearest, window, both_sides, stop)
    return _ask(drawn, faces, nearest, STEEPEST / scale, both_sides, asked, stop)


def _window(drawn, faces, rows):
    """First and last row and column of the pixels that some faces lie on, or beside."""
    points = drawn[faces[rows].ravel()]
    points = points[points[:, 2] > 0.0, 1::-1]
    if not len(points):
        return 0, -1, 0, -1
    low = np.clip(np.floor(points.min(axis=0)) - 1.0, 0, PIXELS).astype(int)
    high = np.clip(np.ceil(points.max(axis=0)) + 1.0, -1, PIXELS - 1).astype(int)
    return int(low[0]), int(high[0]), int(low[1]), int(high[1])


@compiled
def _project(vertices, place, frame):
    """Of each vertex the pixel coordinates and 1 / depth; 0 for what lies behind the eye."""
    drawn = np.empty((len(vertices), 3), np.float32)
    for v in range(len(vertices)):
        x, y, z = (
            vertices[v, 0] - place[0],
            vertices[v, 1] - place[1],
            vertices[v, 2] - place[2],
        )
        depth = frame[2, 0] * x + frame[2, 1] * y + frame[2, 2] * z
        if depth <= 1e-6:
            drawn[v, 0], drawn[v, 1], drawn[v, 2] = 0.0, 0.0, 0.0
            continue
        across = frame[0, 0] * x + frame[0, 1] * y + frame[0, 2] * z
        upward = frame[1, 0] * x + frame[1, 1] * y + frame[1, 2] * z
        drawn[v, 0] = across / depth + 0.5 * PIXELS
        drawn[v, 1] = upward / depth + 0.5 * PIXELS
        drawn[v, 2] = 1.0 / depth
    return drawn


@compiled
def _corner(point):
    return np.float64(point[0]), np.float64(point[1]), np.float64(point[2])


@compiled
def _area(a, b, c):
    """Twice the area of a drawn face, anticlockwise positive."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1])


@compiled
def _slopes(a, b, c, area):
    """1 / depth of a drawn face, per pixel each way."""
    along_x = ((b[2] - a[2]) * (c[1] - a[1]) - (c[2] - a[2]) * (b[1] - a[1])) / area
    along_y = ((c[2] - a[2]) * (b[0] - a[0]) - (b[2] - a[2]) * (c[0] - a[0])) / area
    return along_x, along_y


@compiled
def _span_of_row(a, b, c, y):
    """First and last pixel whose middle lies within the face in the row of middle height y."""
    low, high = np.inf, -np.inf
    for p, q in ((a, b), (b, c), (c, a)):
        if (p[1] <= y) != (q[1] <= y):
            x = p[0] + (y - p[1]) * (q[0] - p[0]) / (q[1] - p[1])
            low, high = min(low, x), max(high, x)
    if high < low:
        return 0, -1
    return max(int(np.ceil(low - 0.5)), 0), min(int(np.floor(high - 0.5)), PIXELS - 1)


@compiled
def _rows(a, b, c):
    """First and last row of pixels whose middles a face may hold."""
    low, high = min(a[1], b[1], c[1]), max(a[1], b[1], c[1])
    first = max(int(np.ceil(max(low, -1.0) - 0.5)), 0)
    return first, min(int(np.floor(min(high, PIXELS + 1.0) - 0.5)), PIXELS - 1)


@compiled
def _draw(drawn, faces, nearest, window, both_sides, stop):
    for f in range(len(faces)):
        if f % _STOP_EVERY == 0 and stop[0]:
            return
        i, j, k = faces[f, 0], faces[f, 1], faces[f, 2]
        a, b, c = _corner(drawn[i]), _corner(drawn[j]), _corner(drawn[k])
        if a[2] == 0.0 or b[2] == 0.0 or c[2] == 0.0:
            continue
        # Before the back of a closed part there is always a front that hides it.
        area = _area(a, b, c)
        if area == 0.0 or (area < 0.0 and not both_sides):
            continue
        first, last = _rows(a, b, c)
        first, last = max(first, window[0]), min(last, window[1])
        if first > last:
            continue
        along_x, along_y = _slopes(a, b, c, area)
        for row in range(first, last + 1):
            left, right = _span_of_row(a, b, c, row + 0.5)
            start = a[2] + along_y * (row + 0.5 - a[1])
            for column in range(max(left, window[2]), min(right, window[3]) + 1):
                nearness = np.float32(start + along_x * (column + 0.5 - a[0]))
                if nearness > nearest[row, column]:
                    nearest[row, column] = nearness


@compiled
def _ask(drawn, faces, nearest, steepest, both_sides, asked, stop):
    """HIDDEN, PARTLY or WHOLE for each face that is asked about, HIDDEN for the others."""
    seen = np.zeros(len(faces), np.uint8)
    for f in range(len(faces)):
        if f % _STOP_EVERY == 0 and stop[0]:
            return seen
        if not asked[f]:
            continue
        i, j, k = faces[f, 0], faces[f, 1], faces[f, 2]
        a, b, c = _corner(drawn[i]), _corner(drawn[j]), _corner(drawn[k])
        if a[2] == 0.0 or b[2] == 0.0 or c[2] == 0.0:
            continue
        area = _area(a, b, c)
        if area == 0.0 or (area < 0.0 and not both_sides):
            continue
        along_x, along_y = _slopes(a, b, c, area)
        first, last = _rows(a, b, c)
        own, others = 0, 0
        for row in range(first, last + 1):
            left, right = _span_of_row(a, b, c, row + 0.5)
            start = a[2] + along_y * (row + 0.5 - a[1])
            for column in range(left, right + 1):
                nearness = np.float32(start + along_x * (column + 0.5 - a[0]))
                if nearness >= nearest[row, column] * np.float32(1.0 - 2e-6):
                    own += 1
                else:
                    others += 1
            if own > 0 and others > RAGGED:
                break
        if own > 0:
            seen[f] = PARTLY if others > RAGGED else WHOLE
        elif others == 0:
            seen[f] = _middle_is_seen(a, b, c, abs(along_x) + abs(along_y), steepest, nearest)
    return seen


@compiled
def _middle_is_seen(a, b, c, slope, steepest, nearest):
    """Whether the middle of a face between pixels is no farther than what its pixel shows.

    The pixel shows another face, at most a pixel away; so much may the depth differ as the face
    itself falls away over a pixel and a half each way, but no more than a steep one: a face seen
    edge-on would be seen through everything.
    """
    x, y = (a[0] + b[0] + c[0]) / 3.0, (a[1] + b[1] + c[1]) / 3.0
    row, column = int(np.floor(y)), int(np.floor(x))
    if row < 0 or row >= PIXELS or column < 0 or column >= PIXELS:
        return HIDDEN
    nearness = (a[2] + b[2] + c[2]) / 3.0
    slack = 1.5 * min(slope, steepest * nearness) + nearness * 2e-6
    return WHOLE if nearness + slack >= nearest[row, column] else HIDDEN
