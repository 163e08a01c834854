"""Triangles of CAD bodies at a chosen chord error, closed where the bodies are. In the child only.

The kernel splits each edge once for all faces at it. So the k-th point of an edge is one vertex,
whichever face names it; joining by that, not by distance, closes every seam of a solid.
"""

import math

import numpy as np
from OCP.BRep import BRep_Tool
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.BRepTools import BRepTools
from OCP.collections import IndexedMap_TopoDS_Shape
from OCP.IMeshTools import IMeshTools_Parameters
from OCP.Poly import Poly_Triangulation
from OCP.TopAbs import TopAbs_EDGE, TopAbs_FORWARD, TopAbs_REVERSED
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Shape

from viewer.files.step_reading import Placed, Tell, faces_of, shapes_within

# Small fillets get some facets even where the chord error alone would ask for none.
_ANGLE_DEG = 20.0


class _Body:
    """Triangles of one body so far, and which of their points are one."""

    def __init__(self, first_point: int) -> None:
        self.positions: list[np.ndarray] = []
        self.faces: list[np.ndarray] = []
        self.patches: list[np.ndarray] = []
        self.pairs: list[np.ndarray] = []
        self.point_count = first_point
        self.missing = 0
        self.edges = IndexedMap_TopoDS_Shape()
        self.points_of_edge: dict[int, np.ndarray] = {}


def triangulate(placed: list[Placed], chord_mm: float, tell: Tell) -> dict[str, np.ndarray | int]:
    """Arrays of all bodies together.

    Returns positions (n, 3) float64 mm, faces (m, 3) int32, patches (m,) int32, `missing`, the
    number of CAD faces the kernel could not split into triangles, and `holed`, the number of
    closed bodies whose triangles have a hole: the kernel loses slivers, or parts of them.
    """
    bodies, points, patches, holed = [], 0, 0, 0
    for done, (told, shape) in enumerate(placed):
        tell(done / len(placed), "Splitting the surfaces into triangles")
        BRepTools.Clean_s(shape)
        BRepMesh_IncrementalMesh(shape, _parameters(chord_mm))
        body = _Body(points)
        for face in faces_of(shape):
            _add_face(body, TopoDS.Face(face), patches)
            patches += 1
        holed += told.is_closed and not _has_no_border(body, points)
        points = body.point_count
        bodies.append(body)
    return _joined(bodies, points) | {"holed": holed}


def _has_no_border(body: _Body, first_point: int) -> bool:
    """Whether each directed side of a triangle meets as many in the other direction."""
    pairs = np.concatenate([np.zeros((0, 2), np.int64), *body.pairs]) - first_point
    corners = np.concatenate([np.zeros((0, 3), np.int64), *body.faces]) - first_point
    corners = _lowest_of_each_group(body.point_count - first_point, pairs)[corners]
    start, end = corners.ravel(), np.roll(corners, -1, axis=1).ravel()
    count = body.point_count - first_point
    there, back = np.sort(start * count + end), np.sort(end * count + start)
    return np.array_equal(there, back)


def _triangles_on(face: TopoDS_Shape, place: TopLoc_Location) -> Poly_Triangulation | None:
    """The kernel's triangles of a face, None where it made none; fills in `place`."""
    mesh = BRep_Tool.Triangulation_s(face, place)
    return mesh if mesh is not None and mesh.NbTriangles() else None


def _parameters(chord_mm: float) -> IMeshTools_Parameters:
    parameters = IMeshTools_Parameters()
    parameters.Deflection = chord_mm
    parameters.Angle = math.radians(_ANGLE_DEG)
    parameters.Relative = False
    parameters.InParallel = True
    return parameters


def _add_face(body: _Body, face: TopoDS_Shape, patch: int) -> None:
    place = TopLoc_Location()
    mesh = _triangles_on(face, place)
    if mesh is None:
        body.missing += 1
        return
    first = body.point_count
    points = np.array([mesh.Node(i).Coord() for i in range(1, mesh.NbNodes() + 1)])
    triangles = np.array([mesh.Triangle(i).Get() for i in range(1, mesh.NbTriangles() + 1)])
    move = place.Transformation()
    if (face.Orientation() == TopAbs_REVERSED) != move.IsNegative():
        triangles = triangles[:, ::-1]
    if not place.IsIdentity():
        matrix = np.array([[move.Value(r, c) for c in range(1, 5)] for r in range(1, 4)])
        points = points @ matrix[:, :3].T + matrix[:, 3]
    body.positions.append(points)
    body.faces.append(triangles - 1 + first)
    body.patches.append(np.full(len(triangles), patch, np.int32))
    body.point_count += len(points)
    for each in shapes_within(face, TopAbs_EDGE):
        edge = TopoDS.Edge(each)
        polygon = BRep_Tool.PolygonOnTriangulation_s(edge, mesh, place)
        if polygon is not None:
            nodes = [polygon.Node(i) for i in range(1, polygon.NbNodes() + 1)]
            _pair(body, edge, np.array(nodes) - 1 + first)


def _pair(body: _Body, edge: TopoDS_Shape, points: np.ndarray) -> None:
    """Note that points of this face are those of an edge met before."""
    if BRep_Tool.Degenerated_s(edge):  # the pole of a sphere: all its points are one
        body.pairs.append(np.column_stack([points[:-1], points[1:]]))
        return
    # The map of this binding tells the two directions of an edge apart, so both go in as one.
    number = body.edges.Add(edge.Oriented(TopAbs_FORWARD))
    known = body.points_of_edge.setdefault(number, points)
    if known is not points and len(known) == len(points):
        body.pairs.append(np.column_stack([known, points]))


def _joined(bodies: list[_Body], point_count: int) -> dict[str, np.ndarray | int]:
    def all_of(name: str, empty: np.ndarray) -> np.ndarray:
        return np.concatenate([empty, *(each for body in bodies for each in getattr(body, name))])

    first_of = _lowest_of_each_group(point_count, all_of("pairs", np.zeros((0, 2), np.int64)))
    return {
        "positions": all_of("positions", np.zeros((0, 3))),
        "faces": first_of[all_of("faces", np.zeros((0, 3), np.int64))].astype(np.int32),
        "patches": all_of("patches", np.zeros(0, np.int32)),
        "missing": sum(body.missing for body in bodies),
    }


def _lowest_of_each_group(count: int, pairs: np.ndarray) -> np.ndarray:
    """(count,) int64: the lowest number that pairs ((p, 2) int64) connect each number with."""
    lowest = np.arange(count)
    a, b = pairs.T
    while True:
        before = lowest.copy()
        both = np.minimum(lowest[a], lowest[b])
        np.minimum.at(lowest, a, both)
        np.minimum.at(lowest, b, both)
        lowest = lowest[lowest]
        if np.array_equal(before, lowest):
            return lowest
