"""CAD files made by the kernel itself, for tests: shapes whose volume is known in closed form."""

import math
from collections.abc import Iterable
from pathlib import Path

from OCP.BRep import BRep_Builder
from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy
from OCP.BRepFilletAPI import BRepFilletAPI_MakeFillet
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeBox,
    BRepPrimAPI_MakeCylinder,
    BRepPrimAPI_MakeSphere,
)
from OCP.gp import gp_Pnt, gp_Trsf, gp_Vec
from OCP.IFSelect import IFSelect_RetDone
from OCP.IGESControl import IGESControl_Writer
from OCP.Interface import Interface_Static
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_AsIs, STEPControl_Writer
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_EDGE, TopAbs_FACE
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Compound, TopoDS_Shape
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_DocumentTool


def box(x: float, y: float, z: float, at: tuple[float, float, float] = (0, 0, 0)) -> TopoDS_Shape:
    return BRepPrimAPI_MakeBox(gp_Pnt(*map(float, at)), float(x), float(y), float(z)).Shape()


def sphere(radius: float) -> TopoDS_Shape:
    return BRepPrimAPI_MakeSphere(float(radius)).Shape()


def cylinder(radius: float, height: float) -> TopoDS_Shape:
    return BRepPrimAPI_MakeCylinder(float(radius), float(height)).Shape()


def together(shapes: Iterable[TopoDS_Shape]) -> TopoDS_Shape:
    compound, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(compound)
    for shape in shapes:
        builder.Add(compound, shape)
    return compound


def moved(shape: TopoDS_Shape, x: float, y: float, z: float) -> TopoDS_Shape:
    return shape.Moved(_place(x, y, z))


def _place(x: float, y: float, z: float) -> TopLoc_Location:
    move = gp_Trsf()
    move.SetTranslation(gp_Vec(x, y, z))
    return TopLoc_Location(move)


def _pieces(shape: TopoDS_Shape, kind) -> list[TopoDS_Shape]:
    explorer, found = TopExp_Explorer(shape, kind), []
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def faces(shape: TopoDS_Shape) -> list[TopoDS_Shape]:
    return _pieces(shape, TopAbs_FACE)


def edges(shape: TopoDS_Shape) -> list[TopoDS_Shape]:
    return _pieces(shape, TopAbs_EDGE)


def rounded_boxes(count: int) -> TopoDS_Shape:
    """Boxes 10 × 8 × 6 with edges rounded by 1, in rows, none sharing its shape with another."""
    whole = box(10, 8, 6)
    rounding = BRepFilletAPI_MakeFillet(whole)
    for edge in edges(whole):
        rounding.Add(1.0, TopoDS.Edge(edge))
    one, across = rounding.Shape(), math.ceil(count**0.5)
    places = [divmod(number, across) for number in range(count)]
    return together(BRepBuilderAPI_Copy(moved(one, 12 * i, 10 * j, 0)).Shape() for i, j in places)


def opened_box(gap: float) -> TopoDS_Shape:
    """The six faces of a box 10 × 20 × 30, the lid lifted by `gap`, none joined to another."""
    loose = []
    for number, face in enumerate(faces(box(10, 20, 30))):
        loose.append(moved(face, 0, 0, gap) if number == 5 else face)
    return together(loose)


def write_step(path: Path, shape: TopoDS_Shape, unit: str = "MM") -> Path:
    """A STEP file; `unit` is MM or INCH and changes the numbers, not the size."""
    writer = STEPControl_Writer()
    Interface_Static.SetCVal_s("write.step.unit", unit)
    try:
        assert writer.Transfer(shape, STEPControl_AsIs) == IFSelect_RetDone
        assert writer.Write(str(path)) == IFSelect_RetDone
    finally:
        Interface_Static.SetCVal_s("write.step.unit", "MM")
    return path


def write_iges(path: Path, shape: TopoDS_Shape, unit: str = "MM") -> Path:
    writer = IGESControl_Writer(unit, 0)
    assert writer.AddShape(shape)
    writer.ComputeModel()
    assert writer.Write(str(path))
    return path


def write_assembly(path: Path) -> Path:
    """ "frame" holds "post" (2 × 2 × 10) twice, 20 apart, and "plate" (30 × 10 × 1) at z = 10."""
    document = TDocStd_Document(TCollection_ExtendedString("made"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    frame = tool.NewShape()
    post = tool.AddShape(box(2, 2, 10), False)
    plate = tool.AddShape(box(30, 10, 1), False)
    for label, name in ((frame, "frame"), (post, "post"), (plate, "plate")):
        TDataStd_Name.Set_s(label, TCollection_ExtendedString(name))
    tool.AddComponent(frame, post, _place(0, 0, 0))
    tool.AddComponent(frame, post, _place(20, 0, 0))
    tool.AddComponent(frame, plate, _place(0, 0, 10))
    tool.UpdateAssemblies()
    writer = STEPCAFControl_Writer()
    assert writer.Transfer(document, STEPControl_AsIs)
    assert writer.Write(str(path)) == IFSelect_RetDone
    return path
