"""Words drawn into a picture: in VTK's own face, or in DejaVu Sans where that lacks a sign.

VTK's face holds the letters of western and central European languages. What it lacks it leaves
out without a word: ▲ and ■ of a legend, and Greek or Cyrillic in a name that the user gave.
"""

from functools import cache
from importlib.util import find_spec
from pathlib import Path

import vtkmodules.vtkRenderingFreeType  # noqa: F401  (brings the text renderer)
from vtkmodules.vtkCommonDataModel import vtkImageData
from vtkmodules.vtkRenderingCore import vtkTextActor, vtkTextProperty, vtkTextRenderer

_PROBE_PX, _ANY_DPI = 24, 72


def set_words(actor: vtkTextActor, text: str, bold: bool = False) -> None:
    """Let `actor` draw `text`, in a face that holds all of its signs if there is one."""
    actor.SetInput(text)
    look = actor.GetTextProperty()
    look.SetBold(bold)
    face = None if all(map(in_own_face, text)) else fuller_face(bold)
    if face is None:
        look.SetFontFamilyToArial()
    else:
        look.SetFontFamily(4)  # VTK_FONT_FILE
        look.SetFontFile(str(face))
        look.SetBold(False)  # the file is the bold face already; VTK would embolden it again


def shortened(text: str, size_px: float, bold: bool, room_px: float) -> str:
    """The text, or as much of it as fits into a width, with three dots at its end."""
    if width_px(text, size_px, bold) <= room_px:
        return text
    fits, too_long = 0, len(text)
    while too_long - fits > 1:
        middle = (fits + too_long) // 2
        inside = width_px(f"{text[:middle].rstrip()}…", size_px, bold) <= room_px
        fits, too_long = (middle, too_long) if inside else (fits, middle)
    return f"{text[:fits].rstrip()}…"


def width_px(text: str, size_px: float, bold: bool = False) -> int:
    """How wide a text is drawn."""
    probe, box = vtkTextActor(), [0, 0, 0, 0]
    set_words(probe, text, bold)
    look = probe.GetTextProperty()
    look.SetFontSize(round(size_px))
    vtkTextRenderer.GetInstance().GetBoundingBox(look, text, box, _ANY_DPI)
    return box[1] - box[0] + 1


@cache
def in_own_face(sign: str) -> bool:
    """Whether VTK's own face holds a sign: one that it lacks leaves the picture empty."""
    return sign.isspace() or _inked(sign)


def _inked(sign: str) -> bool:
    picture = vtkImageData()
    look = vtkTextProperty()
    look.SetFontSize(_PROBE_PX)
    vtkTextRenderer.GetInstance().RenderString(look, sign, picture, [0, 0], _ANY_DPI)
    values = picture.GetPointData().GetScalars()
    return values is not None and values.GetMaxNorm() > 0.0


@cache
def fuller_face(bold: bool) -> Path | None:
    """The file of DejaVu Sans that comes with matplotlib, None where it is not there."""
    home = find_spec("matplotlib")
    if home is None or home.origin is None:
        return None
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    path = Path(home.origin).parent / "mpl-data" / "fonts" / "ttf" / name
    return path if path.exists() else None
