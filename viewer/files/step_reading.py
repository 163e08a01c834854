"""What the CAD kernel reads from a STEP or IGES file: bodies, names, unit. In the child only.

Open CASCADE converts every length to mm while it reads; the unit of the file is kept for telling.
"""

import io
from collections.abc import Callable
from pathlib import Path

from OCP.BinTools import BinTools, BinTools_FormatVersion
from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.collections import Sequence_TCollection_AsciiString, Sequence_TDF_Label
from OCP.IFSelect import IFSelect_RetDone
from OCP.IGESCAFControl import IGESCAFControl_Reader
from OCP.IGESData import IGESData_IGESModel
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_FACE, TopAbs_ShapeEnum, TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Compound, TopoDS_Iterator, TopoDS_Shape, TopoDS_Shell
from OCP.XCAFApp import XCAFApp_Application
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from viewer.files.step_bodies import CLOSED_SURFACE, LOOSE_SURFACE, OPEN_SOLID, SOLID, Body

Placed = tuple[Body, TopoDS_Shape]
Tell = Callable[[float, str], None]

# Unit words of ISO 10303-41 as the kernel spells them, and unit flags of IGES 5.3, section 2.2.4.3
# (from memory; the tests write and read both).
_STEP_UNITS = {
    "millimetre": "mm",
    "centimetre": "cm",
    "metre": "m",
    "inch": "inch",
    "foot": "ft",
    "micrometre": "micron",
}
_IGES_UNITS = {1: "inch", 2: "mm", 4: "ft", 6: "m", 9: "micron", 10: "cm"}
_DEEPEST = 200  # levels of an assembly; a tree that goes deeper runs in a circle


class NotRead(Exception):
    """The kernel refuses the file; the text says where, the user gets a sentence."""


# --- from the file
def read_bodies(path: Path, tell: Tell) -> tuple[list[Placed], str]:
    """Bodies of the file, in mm and placed, and the unit it states ("" for none or several).

    Raises NotRead.
    """
    document = TDocStd_Document(TCollection_ExtendedString("part"))
    XCAFApp_Application.GetApplication_s().InitDocument(document)
    is_iges = path.suffix.lower() in (".igs", ".iges")
    reader = IGESCAFControl_Reader() if is_iges else STEPCAFControl_Reader()
    reader.SetNameMode(True)
    reader.SetColorMode(False)
    reader.SetLayerMode(False)
    tell(0.0, "Reading the CAD file")
    if reader.ReadFile(str(path)) != IFSelect_RetDone:
        raise NotRead("not a file of its kind, or damaged")
    tell(0.3, "Building the surfaces")
    if not reader.Transfer(document):
        raise NotRead("nothing in it could be transferred")
    unit = _iges_unit(reader) if is_iges else _step_unit(reader)
    roots = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).GetFreeShapes(roots)
    placed: list[Placed] = []
    for root in roots:
        _walk(root, TopLoc_Location(), (), placed)
    return placed, unit


def _step_unit(reader: STEPCAFControl_Reader) -> str:
    lengths, angles, solid_angles = (Sequence_TCollection_AsciiString() for _ in range(3))
    reader.ChangeReader().FileUnits(lengths, angles, solid_angles)
    units = {_STEP_UNITS.get(name.ToCString().lower(), "") for name in lengths}
    return units.pop() if len(units) == 1 else ""  # several: the kernel has converted each


def _iges_unit(reader: IGESCAFControl_Reader) -> str:
    model = reader.Model()
    if not isinstance(model, IGESData_IGESModel):
        return ""
    return _IGES_UNITS.get(model.GlobalSection().UnitFlag(), "")


def _walk(
    label: TDF_Label, place: TopLoc_Location, names: tuple[str, ...], placed: list[Placed]
) -> None:
    """Add the bodies under one node of the assembly tree."""
    if len(names) > _DEEPEST:
        raise NotRead("the assembly contains itself")
    if XCAFDoc_ShapeTool.IsReference_s(label):
        referred = TDF_Label()
        XCAFDoc_ShapeTool.GetReferredShape_s(label, referred)
        _walk(referred, place.Multiplied(XCAFDoc_ShapeTool.GetLocation_s(label)), names, placed)
        return
    names = (*names, _name(label))
    if not XCAFDoc_ShapeTool.IsAssembly_s(label):
        shape = XCAFDoc_ShapeTool.GetShape_s(label)
        if shape is not None and not shape.IsNull():
            placed += split_bodies(shape.Moved(place, False), names)
        return
    components = Sequence_TDF_Label()
    XCAFDoc_ShapeTool.GetComponents_s(label, components)
    for component in components:
        _walk(component, place, names, placed)


def _name(label: TDF_Label) -> str:
    name = TDataStd_Name()
    if not label.FindAttribute(TDataStd_Name.GetID_s(), name):
        return ""
    return name.Get().ToExtString().strip()


# --- bodies of a shape
def shapes_within(
    shape: TopoDS_Shape, kind: TopAbs_ShapeEnum, *avoid: TopAbs_ShapeEnum
) -> list[TopoDS_Shape]:
    """Sub-shapes of a kind in the kernel's order, those inside an `avoid` left out."""
    explorer = TopExp_Explorer(shape, kind, *avoid)
    found = []
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def faces_of(shape: TopoDS_Shape) -> list[TopoDS_Shape]:
    """CAD faces in the order that numbers the patches."""
    return shapes_within(shape, TopAbs_FACE)


def split_bodies(shape: TopoDS_Shape, names: tuple[str, ...]) -> list[Placed]:
    """Solids of a shape first, then the shells and the faces that belong to none.

    Closed means that each edge of a shell is used an even number of times.
    """
    found = []
    for solid in shapes_within(shape, TopAbs_SOLID):
        shells = shapes_within(solid, TopAbs_SHELL)
        closed = bool(shells) and all(map(BRep_Tool.IsClosed_s, shells))
        found.append((SOLID if closed else OPEN_SOLID, solid))
    free = shapes_within(shape, TopAbs_SHELL, TopAbs_SOLID)
    free += [_shell_around(face) for face in shapes_within(shape, TopAbs_FACE, TopAbs_SHELL)]
    for shell in free:
        found.append((CLOSED_SURFACE if BRep_Tool.IsClosed_s(shell) else LOOSE_SURFACE, shell))
    counted = [(kind, each, len(faces_of(each))) for kind, each in found]
    return [(Body(names, kind, count), each) for kind, each, count in counted if count]


def _shell_around(face: TopoDS_Shape) -> TopoDS_Shell:
    shell, builder = TopoDS_Shell(), BRep_Builder()
    builder.MakeShell(shell)
    builder.Add(shell, face)
    return shell


# --- kept for splitting again
def to_bytes(placed: list[Placed]) -> bytes:
    """The exact surfaces of the bodies in the kernel's own binary form, without triangles."""
    compound, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(compound)
    for _, shape in placed:
        builder.Add(compound, shape)
    stream = io.BytesIO()
    current = BinTools_FormatVersion.BinTools_FormatVersion_CURRENT
    BinTools.Write_s(compound, stream, False, False, current)
    return stream.getvalue()


def from_bytes(data: bytes, bodies: tuple[Body, ...]) -> list[Placed]:
    """The bodies that `to_bytes` wrote; `bodies` in the same order."""
    compound = TopoDS_Shape()
    BinTools.Read_s(compound, io.BytesIO(data))
    shapes, children = [], TopoDS_Iterator(compound)
    while children.More():
        shapes.append(children.Value())
        children.Next()
    return list(zip(bodies, shapes, strict=True))
