"""What scene tests put on the stage: poses, measures, blocks of support columns."""

import numpy as np

from viewer.geometry.mesh import Mesh
from viewer.geometry.pose_measures import FaceFields
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_columns import SupportColumns

NEAR = 4 / 255  # rounding to bytes, and the polynomial for a colour map
SETTINGS = PrintSettings(layer_mm=0.2, support_limit_deg=45.0, road_mm=0.42)


class Shown:
    """The part of PoseMeasures that the scene reads."""

    def __init__(self, touch_share, terrace_counts, columns=None, islands=(), shut_in=()):
        share = np.asarray(touch_share, np.float32)
        self.faces = FaceFields(share, np.asarray(terrace_counts, bool))
        self.columns = columns
        self.island_places, self.unreachable_places = islands, shut_in


def tilted(inclination_deg: float) -> np.ndarray:
    """(3, 3) turn about y that gives the side that faced +z this inclination from horizontal."""
    a = np.radians(inclination_deg)
    return np.array([[np.cos(a), 0, np.sin(a)], [0, 1, 0], [-np.sin(a), 0, np.cos(a)]])


def pose_of(mesh: Mesh, turn: np.ndarray, height_mm: float = 0.0) -> np.ndarray:
    """(4, 4) turn, then stand on z = height."""
    matrix = np.eye(4)
    matrix[:3, :3] = turn
    matrix[2, 3] = height_mm - (mesh.vertices_mm @ turn.T)[:, 2].min()
    return matrix


def columns(bottom_face: int, low: float, high: float, cells: int = 20) -> SupportColumns:
    """A block of columns of 1 mm about the origin."""
    count = cells * cells
    start = -(cells - 1) / 2
    return SupportColumns(
        np.array([start, start]), 1.0, (cells, cells), np.arange(count, dtype=np.int32),
        np.full(count, low, np.float32), np.full(count, high, np.float32),
        np.full(count, bottom_face, np.int32), np.zeros(count, np.int32),
    )  # fmt: skip


def show_side(stage, mesh, turn, side, lens, *, height_mm=0.0, measures=None, classes=None):
    """Look square on at the side whose normal, before turning, is `side`; its middle pixel."""
    scene = stage.scene
    scene.set_settings(SETTINGS)
    scene.set_lens(lens)
    scene.show_part(mesh)
    if classes is not None:
        scene.set_classes(classes)
    scene.set_pose(pose_of(mesh, turn, height_mm))
    scene.show_measures(measures)
    scene.set_view_direction(turn @ np.asarray(side, float))
    return stage.middle()
