"""The pictures of a client sheet: the chosen pose from the sides that show, and what colours mean.

Drawn off screen with one scene, without a legend of their own: the sheet has one for all.
"""

from dataclasses import dataclass

import numpy as np
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.document.compose_sheet import SIDES
from viewer.document.state import State
from viewer.geometry.pose import pose_matrix
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.showing_sides import showing_sides
from viewer.progress import Progress
from viewer.scene.arrays import used_vertices_mm
from viewer.scene.hatches import Hatch
from viewer.scene.legends import Entry, legend
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.palettes import DARK_INK, INK_FROM, LIGHT_INK, LUMA, PRINT_MATERIAL, Colour
from viewer.scene.part_scene import PartScene
from viewer.scene.pictures import FINE, PLATFORM_MM, averaged
from viewer.scene.themes import LIGHT

WIDE_PX, TALL_PX = (840, 630), (760, 800)
_TALL = 1.3  # height to width from which a part is drawn upright
_SWATCH_PX = (22, 36)  # height, width
_SEEN = ("marked", Lens.CLASSES, False), ("printed", Lens.PRINTED, False), (
    "supports", Lens.TOUCH, True,
)  # fmt: skip


@dataclass(frozen=True, eq=False)
class Swatch:
    """One entry of the legend: what it says, and its colour with its pattern as a picture."""

    label: str
    image: np.ndarray


def sheet_pictures(
    state: State,
    measures: PoseMeasures,
    print_colour: Colour = PRINT_MATERIAL,
    progress: Progress | None = None,
    size_px: tuple[int, int] | None = None,
) -> dict[str, np.ndarray]:
    """(height, width, 3) uint8 pictures by the names that `compose_sheet` uses.

    measures : of the full tier, of the state's pose; print_colour : of the material
    size_px : width and height, to suit the part if None
    Raises Cancelled.
    """
    progress = progress or Progress()
    mesh = state.part.file_mesh
    matrix = pose_matrix(used_vertices_mm(mesh), state.pose)
    fine = state.part.mesh
    sides = showing_sides(
        fine.face_areas_mm2, fine.face_normals @ matrix[:3, :3].T, state.face_classes, SIDES
    )
    standing = used_vertices_mm(mesh) @ matrix[:3, :3].T
    x, y, z = np.ptp(standing, axis=0)
    size_px = size_px or (TALL_PX if z > _TALL * np.hypot(x, y) else WIDE_PX)
    found = {}
    with off_screen_window((size_px[0] * FINE, size_px[1] * FINE)) as window:
        renderer = vtkRenderer()
        window.AddRenderer(renderer)
        scene = PartScene(renderer, LIGHT)
        scene.set_pixel_scale(FINE)
        scene.set_settings(state.settings)
        scene.set_print_colour(print_colour)
        scene.set_platform(*PLATFORM_MM)
        scene.show_part(mesh, pickable=False)
        if state.part.base is not None:
            scene.show_pieces(state.part.mesh, state.part.base_face)
        scene.set_classes(state.face_classes)
        scene.set_pose(matrix)
        scene.show_measures(measures)
        for number, (name, lens, supports) in enumerate(_SEEN):
            scene.set_lens(lens)
            scene.set_supports_visible(supports)
            for side, towards_eye in enumerate(sides, 1):
                progress.report((number * SIDES + side - 1) / (SIDES * len(_SEEN)), "Drawing")
                scene.set_view_direction(tuple(towards_eye))
                found[f"{name}-{side}"] = averaged(drawn(window))
        scene.close()
    return found


def sheet_legend(state: State, measures: PoseMeasures) -> tuple[Swatch, ...]:
    """What of the classes and of touch and landing is to be seen in this pose."""
    classes = legend(Lens.CLASSES, state.settings).entries
    touch = legend(Lens.TOUCH, state.settings).entries
    touched, landed = measures.touch_area_mm2, measures.landing_area_mm2
    areas = (
        touched.A, touched.B, touched.unmarked, landed.A, landed.B,
        landed.unmarked + landed.platform, measures.support_volume_mm3,
    )  # fmt: skip
    entries = [*classes, *(entry for entry, area in zip(touch, areas, strict=False) if area > 0)]
    return tuple(Swatch(entry.label, _swatch(entry)) for entry in entries)


def _swatch(entry: Entry) -> np.ndarray:
    """The colour with its pattern, in a frame."""
    height, width = _SWATCH_PX
    y, x = np.mgrid[0:height, 0:width]
    pattern = {
        Hatch.RISING: (x + y) % 8 < 3,
        Hatch.FALLING: (x - y) % 8 < 3,
        Hatch.LEVEL: y % 8 < 3,
        Hatch.DOTS: ((x % 8) - 3.5) ** 2 + ((y % 8) - 3.5) ** 2 < 5.0,
    }.get(entry.hatch, np.zeros((height, width), bool))
    light = sum(share * c for share, c in zip(LUMA, entry.colour, strict=True))
    ink = DARK_INK if light > INK_FROM else LIGHT_INK
    image = np.where(pattern[..., None], ink, np.array(entry.colour))
    image[[0, -1]], image[:, [0, -1]] = 0.25, 0.25
    return (image * 255.0).round().astype(np.uint8)
