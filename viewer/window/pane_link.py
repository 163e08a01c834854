"""Keeps the panes like the document: one scene for each pose that is compared."""

import numpy as np

from viewer.document.state import State
from viewer.geometry.deviation import Deviation
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose import Pose, pose_matrix
from viewer.geometry.pose_difference import PoseDifference, difference_of_poses
from viewer.geometry.pose_measures import PoseMeasures
from viewer.scene.lenses import Lens
from viewer.scene.machine_view import MachineLook
from viewer.scene.palettes import Colour
from viewer.scene.side_by_side import SideBySide
from viewer.window.scene_link import used_vertices_mm


class PaneLink:
    """Writes part, poses and what was measured into the scenes of `panes`."""

    def __init__(self, panes: SideBySide, platform_mm: tuple[float, float]) -> None:
        self._panes = panes
        self._shown: list[tuple[Pose, PoseMeasures | None] | None] = [None] * panes.count
        self._vertices_mm = np.zeros((0, 3))
        self._lens = Lens.CLASSES
        self._differences: dict[int, tuple[object, PoseDifference]] = {}
        for scene in panes.scenes:
            scene.set_platform(*platform_mm)

    def show_part(self, state: State) -> None:
        """Another part, or other pieces of its faces."""
        mesh = state.part.file_mesh
        self._vertices_mm = used_vertices_mm(mesh)
        self._shown = [None] * self._panes.count
        for scene in self._panes.scenes:
            scene.show_part(mesh, pickable=False)
            if state.part.base is not None:
                scene.show_pieces(state.part.mesh, state.part.base_face)
            scene.set_settings(state.settings)
            scene.set_classes(state.face_classes)

    def show_state(self, state: State) -> None:
        """Other classes or another process."""
        for scene in self._panes.scenes:
            scene.set_settings(state.settings)
            scene.set_classes(state.face_classes)

    def show_look(self, lens: Lens, supports: bool, print_colour: Colour) -> None:
        """Another lens, supports or none, another material: the same in all panes."""
        self._lens = lens
        for scene in self._panes.scenes:
            scene.set_supports_visible(supports)
            scene.set_lens(lens)
            scene.set_print_colour(print_colour)

    def show_machines(self, looks: list[MachineLook | None]) -> None:
        """What is to be seen of the machine in each pane; None: nothing is known of it."""
        for scene, look in zip(self._panes.scenes, looks, strict=True):
            if look is not None:
                scene.show_machine(look)

    def show_file(self, report: HealthReport | None, deviation: Deviation | None) -> None:
        """What is known of the file; it is the same in every pose."""
        for scene in self._panes.scenes:
            scene.show_faults(report)
            scene.show_deviation(None if deviation is None else deviation.new.face_mm)

    def show_poses(self, state: State, poses: list[tuple[Pose, PoseMeasures | None]]) -> None:
        """Lay the part in each pane, and show what was measured there; None: not yet known."""
        for place, (scene, (pose, measures)) in enumerate(
            zip(self._panes.scenes, poses, strict=True)
        ):
            before = self._shown[place]
            if before is None or before[0] != pose:
                scene.set_pose(pose_matrix(self._vertices_mm, pose))
            if before is None or before[0] != pose or before[1] is not measures:
                scene.show_measures(measures)
            self._shown[place] = (pose, measures)
        if self._lens is Lens.DIFFERENCE:
            self._show_differences(state)

    def _show_differences(self, state: State) -> None:
        for place, scene in enumerate(self._panes.scenes):
            found = self.difference(state, place)
            scene.show_difference(None if found is None else found.face_mm)

    def difference(self, state: State, place: int) -> PoseDifference | None:
        """A pane against the first, None for the first itself and while it is not known."""
        first, this = self._shown[0], self._shown[place]
        if place == 0 or None in (first, this) or None in (first[1], this[1]):
            return None
        about = (first, this, state.settings)
        known = self._differences.get(place)
        if known is None or known[0] != about:
            found = difference_of_poses(
                state.part.mesh,
                state.face_classes,
                state.settings,
                (this[0], this[1].faces),
                (first[0], first[1].faces),
            )
            self._differences[place] = known = (about, found)
        return known[1]
