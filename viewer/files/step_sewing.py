"""Join loose CAD surfaces whose edges lie within a tolerance, and call closed results solids."""

from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeSolid, BRepBuilderAPI_Sewing
from OCP.BRepLib import BRepLib
from OCP.TopoDS import TopoDS

from viewer.files.step_bodies import CLOSED_SURFACE, SOLID, Body
from viewer.files.step_reading import Placed, faces_of, split_bodies


def sew(placed: list[Placed], sew_mm: float) -> list[Placed]:
    """The closed bodies as they were, then what the others became when sewn at `sew_mm`."""
    whole = [each for each in placed if each[0].is_closed]
    loose = [each for each in placed if not each[0].is_closed]
    if not loose:
        return placed
    sewing = BRepBuilderAPI_Sewing(sew_mm)
    for _, shape in loose:
        for face in faces_of(shape):
            sewing.Add(face)
    sewing.Perform()
    sewn = sewing.SewedShape()
    if sewn is None or sewn.IsNull():
        return placed
    names = {body.names for body, _ in loose}
    joined = split_bodies(sewn, names.pop() if len(names) == 1 else ("sewn surfaces",))
    return whole + [_as_solid(body, shape) for body, shape in joined]


def _as_solid(body: Body, shell) -> Placed:
    """A shell that encloses space as a solid whose outside is outside; others as they are."""
    if body.kind != CLOSED_SURFACE:
        return body, shell
    solid = BRepBuilderAPI_MakeSolid(TopoDS.Shell(shell)).Solid()
    BRepLib.OrientClosedSolid_s(solid)
    return Body(body.names, SOLID, body.patch_count), solid
