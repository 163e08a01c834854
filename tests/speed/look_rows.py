"""What a frame costs while the part turns, in every lens: the whole part, and as it is dragged.

Rows "frame": the whole part against the plainest lens. Rows "drag": what is drawn while something
moves against a bare scene, which is one actor with the same triangles and VTK's own shader.
"""

import numpy as np
from vtkmodules.vtkRenderingCore import vtkActor, vtkPolyDataMapper, vtkRenderer

from tests.speed.timing import row, seconds
from viewer.geometry.known_of_mesh import get_to_know
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.scene.actors import vtk_matrix
from viewer.scene.arrays import surface
from viewer.scene.lenses import Lens
from viewer.scene.off_screen import off_screen_window
from viewer.scene.part_scene import PartScene
from viewer.scene.themes import LIGHT

SIZE_PX = (960, 720)
FRAMES = 6
GOALS = {Lens.PRINTED: 0.8}  # "moves at the speed of the scene"


def look(part: PreparedPart) -> list[dict]:
    """Frames of a turning part, measured once; all of it in the processor where no card draws."""
    settings = PrintSettings()
    middle_mm = part.points_mm[part.faces].mean(axis=1)
    classes = (middle_mm[:, 0] > 0).astype(np.uint8)  # one side shows, as on a part of a client
    measures = measure_pose(part, classes, Pose(), settings, "full", columns=True)
    turns = [pose_matrix(part.points_mm, Pose((0.02 * k, 0.0, 1.0))) for k in range(FRAMES)]
    spent, dragged = {}, {}
    get_to_know(part.mesh)
    bare = _bare_frame_s(part, turns)
    with off_screen_window(SIZE_PX) as window:
        renderer = vtkRenderer()
        window.AddRenderer(renderer)
        scene = PartScene(renderer, LIGHT)
        scene.show_part(part.mesh, pickable=False)
        scene.set_settings(settings)
        scene.set_classes(classes)
        scene.set_pose(turns[0])
        scene.fit_view()
        scene.show_measures(measures)

        def turn() -> None:
            for matrix in turns:
                scene.set_pose(matrix)
                window.Render()

        for lens in Lens:
            scene.set_lens(lens)
            window.Render()  # its shader is made beforehand
            spent[lens] = seconds(turn, 3) / FRAMES
            scene.set_moving(True)
            window.Render()
            dragged[lens] = seconds(turn, 3) / FRAMES
            scene.set_moving(False)
        scene.close()
    plain = spent[Lens.CLASSES]
    return [
        row(f"frame, lens {lens.title}", len(part.faces), spent[lens], "lens Classes", plain,
            GOALS.get(lens, 0.5))
        for lens in Lens
    ] + [
        row(f"drag, lens {lens.title}", len(part.faces), dragged[lens], "bare scene", bare, 1.0)
        for lens in Lens
    ]  # fmt: skip


def _bare_frame_s(part: PreparedPart, turns: list[np.ndarray]) -> float:
    """Processor time of a frame of the same triangles in one actor, nothing else in the scene."""
    with off_screen_window(SIZE_PX) as window:
        renderer, mapper, actor = vtkRenderer(), vtkPolyDataMapper(), vtkActor()
        window.AddRenderer(renderer)
        mapper.SetInputData(surface(part.points_mm, part.faces))
        actor.SetMapper(mapper)
        renderer.AddActor(actor)
        renderer.ResetCamera()
        window.Render()

        def turn() -> None:
            for matrix in turns:
                actor.SetUserMatrix(vtk_matrix(matrix))
                window.Render()

        return seconds(turn, 3) / FRAMES
