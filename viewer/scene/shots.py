"""What is on the screen as a picture or a turntable, drawn where no window has to wait for it.

A `Shot` is a frozen value that can be sent to a process of its own (`viewer.own_process`), which
draws it off screen, encodes it and sends back the bytes of the file.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

import numpy as np
from vtkmodules.vtkRenderingCore import vtkCamera, vtkRenderer, vtkRenderWindow

from viewer.files.picture_files import still_bytes, turntable_bytes
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.scene import camera
from viewer.scene.legend_drawing import LegendDrawing
from viewer.scene.legends import Legend
from viewer.scene.lenses import Lens
from viewer.scene.machine_view import MachineLook
from viewer.scene.off_screen import drawn, off_screen_window
from viewer.scene.palettes import PRINT_MATERIAL, Colour
from viewer.scene.pictures import FINE, LEGEND_SHARE, averaged, legend_scale
from viewer.scene.side_by_side import Caption, SideBySide
from viewer.scene.themes import Theme
from viewer.words import say

FRAMES, FRAME_MS = 48, 80  # one turn in 3.8 s; GIF counts in hundredths of a second
TURNTABLE_PX = 960  # at most so wide: larger ones are too heavy to send
_SWEPT = 2_000  # about so many points of each pane decide how all views of a turn fit


@dataclass(frozen=True, eq=False)
class ShotPane:
    """One pose in the picture: (4, 4) how the part lies, and what was measured there.

    machine : what is to be seen of the machine, None for its platform only
    """

    caption: Caption
    matrix: np.ndarray
    measures: PoseMeasures | None = None
    difference_mm: np.ndarray | None = None
    machine: MachineLook | None = None


@dataclass(frozen=True, eq=False)
class Shot:
    """Everything a picture depends on; fields as of `PartScene`.

    mesh : the triangles of the file; pieces, base_face : what marks cut them in, or None
    eye : as of `camera.state_of`; aspect : width to height of a pane on the screen
    """

    mesh: Mesh
    face_classes: np.ndarray
    settings: PrintSettings
    lens: Lens
    legend: Legend
    panes: tuple[ShotPane, ...]
    eye: dict[str, object]
    aspect: float
    theme: Theme
    size_px: tuple[int, int]
    supports: bool = True
    pieces: Mesh | None = None
    base_face: np.ndarray | None = None
    faults: HealthReport | None = None
    deviation_mm: np.ndarray | None = None
    cut_mm: float | None = None
    platform_mm: tuple[float, float] = (220.0, 220.0)
    print_colour: Colour = PRINT_MATERIAL


def still_file(shot: Shot, progress: Progress | None = None) -> bytes:
    """A PNG of the shot, seen as on the screen."""
    return still_bytes(draw_still(shot, progress))


def turntable_file(shot: Shot, suffix: str, progress: Progress | None = None) -> bytes:
    """One turn about the upright axis as an animation; `suffix` ".gif" or ".webp"."""
    progress = progress or Progress()
    frames = draw_turntable(shot, FRAMES, progress.part(0.0, 0.8))
    return turntable_bytes(frames, suffix, FRAME_MS, progress.part(0.8, 1.0))


def draw_still(shot: Shot, progress: Progress | None = None) -> np.ndarray:
    """(height, width, 3) uint8, top row first; edges are smoothed by drawing finer."""
    progress = progress or Progress()
    progress.report(0.1, "Drawing the picture")
    with _set_up(shot) as (window, panes):
        progress.report(0.4, "Drawing the picture")
        panes.follow(_same_eye(shot, panes))
        return averaged(drawn(window))


def draw_turntable(shot: Shot, count: int, progress: Progress | None = None) -> list[np.ndarray]:
    """`count` pictures while the eye goes round once; the part fits each of them."""
    progress = progress or Progress()
    width, height = shot.size_px
    if width > TURNTABLE_PX:
        shot = replace(shot, size_px=(TURNTABLE_PX, round(height * TURNTABLE_PX / width)))
    frames = []
    with _set_up(shot) as (window, panes):
        start = _eye_for_a_turn(shot, panes)
        for number in range(count):
            progress.report(
                number / count,
                say("Drawing picture {number} of {count}", number=number + 1, count=count),
            )
            panes.follow(_turned(start, 360.0 * number / count))
            frames.append(averaged(drawn(window)))
    return frames


@contextmanager
def _set_up(shot: Shot) -> Iterator[tuple[vtkRenderWindow, SideBySide]]:
    """An off-screen window with all panes filled and the legend beside them."""
    with off_screen_window((shot.size_px[0] * FINE, shot.size_px[1] * FINE)) as window:
        split = 1.0 - LEGEND_SHARE
        margin = vtkRenderer()
        margin.SetViewport(split, 0.0, 1.0, 1.0)
        window.AddRenderer(margin)
        panes = SideBySide(window, shot.theme, len(shot.panes), (0.0, 0.0, split, 1.0))
        drawing = LegendDrawing(margin, shot.theme, shot.legend, legend_scale(shot.size_px))
        panes.set_pixel_scale(FINE)
        panes.set_captions(
            [pane.caption for pane in shot.panes], larger=shot.size_px[0] > 1.2 * TURNTABLE_PX
        )
        for scene, pane in zip(panes.scenes, shot.panes, strict=True):
            scene.set_settings(shot.settings)
            scene.set_lens(shot.lens)
            scene.set_print_colour(shot.print_colour)
            scene.show_machine(pane.machine or MachineLook(shot.platform_mm))
            scene.show_part(shot.mesh, pickable=False)
            if shot.pieces is not None:
                scene.show_pieces(shot.pieces, shot.base_face)
            scene.set_classes(shot.face_classes)
            scene.set_pose(pane.matrix)
            scene.set_supports_visible(shot.supports)
            scene.show_measures(pane.measures)
            scene.show_faults(shot.faults)
            scene.show_deviation(shot.deviation_mm)
            scene.show_difference(pane.difference_mm)
            if shot.cut_mm is not None:
                scene.cut_at(shot.cut_mm)
        try:
            yield window, panes
        finally:
            drawing.close()
            panes.close()


def _same_eye(shot: Shot, panes: SideBySide) -> vtkCamera:
    """The eye of the screen; where a pane is narrower here, it sees as much from side to side."""
    eye = vtkCamera()
    camera.restore(eye, shot.eye)
    left, lower, right, upper = panes.rects[0]
    aspect = (right - left) * shot.size_px[0] / ((upper - lower) * shot.size_px[1])
    if aspect < shot.aspect:
        half = np.tan(np.radians(eye.GetViewAngle() / 2)) * shot.aspect / aspect
        eye.SetViewAngle(2 * float(np.degrees(np.arctan(half))))
    return eye


def _eye_for_a_turn(shot: Shot, panes: SideBySide) -> vtkCamera:
    """From where the screen's eye looks, but so far off that the part fits from all around."""
    eye = vtkCamera()
    camera.restore(eye, shot.eye)
    eye.SetViewAngle(camera.VIEW_ANGLE_DEG)
    points = np.concatenate(
        [p[:: 1 + len(p) // _SWEPT] for p in (s.points_to_fit_mm() for s in panes.scenes)]
    )
    swept = []
    for angle in np.radians(np.arange(0.0, 360.0, 15.0)):
        c, s = np.cos(angle), np.sin(angle)
        swept.append(points @ np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]]))
    scene = panes.scenes[0]  # all panes are of one size
    scene.set_camera_state(camera.state_of(eye))
    scene.fit_points(np.concatenate(swept), panes.caption_share)
    camera.restore(eye, scene.camera_state())
    return eye


def _turned(start: vtkCamera, angle_deg: float) -> vtkCamera:
    """The eye after a turn about the upright axis through the middle of the part."""
    c, s = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    turn = np.array([[c, -s, 0.0], [s, c, 0.0], [0.0, 0.0, 1.0]])
    state = camera.state_of(start)
    for name in ("position_mm", "focal_mm", "view_up"):
        state[name] = (turn @ np.array(state[name])).tolist()
    eye = vtkCamera()
    camera.restore(eye, state)
    return eye
