"""Every way to mark that is not painted: what it is called and what it works out, by its action."""

from collections.abc import Callable
from functools import partial

import numpy as np
from PySide6.QtCore import QObject

from viewer.document.document import Document
from viewer.document.state import State
from viewer.geometry.carried_marks import mirror_marks
from viewer.geometry.cut_surface import Marked
from viewer.geometry.face_classes import UNMARKED
from viewer.geometry.fine_ways import grow, mark_band, mark_loop, mark_seen, shrink, smooth
from viewer.geometry.mesh import Mesh
from viewer.geometry.outlines import LEAST_EDGE_MM
from viewer.geometry.pose import rotation
from viewer.geometry.visible_faces import Eye, ring_of_eyes
from viewer.geometry.whole_marks import see_faces, swap_classes
from viewer.live.jobs import Jobs
from viewer.progress import Progress
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.eyes import to_pixels
from viewer.window.mark_planner import Maker, MarkPlanner, Plan
from viewer.window.mark_tool import CLASS_NAMES
from viewer.window.part_view import PartView
from viewer.window.stages import Stage
from viewer.window.way_options import WayOptions
from viewer.words import say

LOOP_EDGE_PX = 2.0  # the rim of a lasso is as fine as it is drawn
COARSEST_LOOP_MM = 1.0


class SeenOnce:
    """What an eye sees of a part, worked out once and kept for the rest of a drag."""

    def __init__(self, eye: Eye) -> None:
        self.eye = eye
        self._known: tuple[Mesh, np.ndarray] | None = None

    def faces(self, part: Mesh, mesh: Mesh, progress: Progress) -> np.ndarray:
        """(m,) uint8 as of `see_faces`, kept if the mesh is the part's; runs on a worker."""
        if mesh is not part:
            return see_faces(mesh, [self.eye], progress)
        if self._known is None or self._known[0] is not part:
            self._known = part, see_faces(part, [self.eye], progress)
        return self._known[1]

    def edge_mm(self, mesh: Mesh, height_px: float) -> float:
        """Length of the edges along the rim of a loop, from what a pixel covers on the part."""
        away_mm = float(np.linalg.norm(mesh.box_mm.mean(axis=0) - self.eye.place_mm))
        pixel_mm = 2.0 * away_mm * np.tan(np.radians(self.eye.half_angle_deg)) / height_px
        return min(max(LOOP_EDGE_PX * pixel_mm, LEAST_EDGE_MM), COARSEST_LOOP_MM)


class MarkWays(QObject):
    """Makes a plan for each way; `planner` shows and takes it."""

    def __init__(
        self,
        view: PartView,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        jobs: Jobs,
    ) -> None:
        super().__init__(view)
        self._view, self._document, self._choices = view, document, choices
        self.options = WayOptions(self)
        self.planner = MarkPlanner(view.scene, document, signals, jobs, self)
        self.planner.redraw.connect(view.redraw)
        self._makers: dict[str, Callable[[State], Plan]] = {
            "mark_band": self._band,
            "mark_seen_here": self._seen_here,
            "mark_seen_in_use": self._seen_in_use,
            "marks_grow": self._grow,
            "marks_shrink": self._shrink,
            "marks_smooth": self._smooth,
            "marks_mirror": self._mirror,
            "marks_swap": self._swap,
        }
        self._previewed: str | None = None
        self.options.changed.connect(self._preview_again)
        choices.mark_changed.connect(self._preview_again)

    @property
    def keys(self) -> tuple[str, ...]:
        """The actions that are ways to mark."""
        return tuple(self._makers)

    def verbs(self) -> dict[str, Callable[..., object]]:
        """What the actions do."""
        verbs = {key: lambda *_, key=key: self.take(key) for key in self._makers}
        verbs["lasso_through"] = lambda checked: self.options.set(lasso_through=bool(checked))
        return verbs

    def preview(self, key: str) -> None:
        """Show what a way would change."""
        self._previewed = key
        self.planner.show(partial(self._plan, key))

    def end_preview(self) -> None:
        """Show it no more."""
        self._previewed = None
        self.planner.put_away()

    def take(self, key: str) -> None:
        """Do it."""
        self._choices.set_stage(Stage.MARK)
        self.planner.take(partial(self._plan, key))

    def close(self) -> None:
        """Stop working."""
        self.planner.close()

    def _preview_again(self) -> None:
        if self._previewed is not None:
            self.preview(self._previewed)

    def _plan(self, key: str) -> Plan | None:
        state = self._document.state
        return None if state.part is None else self._makers[key](state)

    # --- for the tools
    def band_between(self, one_mm: float, other_mm: float) -> Maker:
        """A plan of the faces between two heights over the platform."""
        return lambda: self._band_plan(self._document.state, one_mm, other_mm)

    def within_loop(self, loop_px: np.ndarray, seen: SeenOnce) -> Maker:
        """A plan of the faces within (k, 2) device pixels, as `seen.eye` looks at the part."""
        size_px = self._view.size_px
        frame = to_pixels(seen.eye, *size_px)
        through, face_class = self.options.now.lasso_through, self._choices.face_class

        def make() -> Plan | None:
            state = self._document.state
            if state.part is None:
                return None

            def work(progress: Progress) -> Marked:
                mesh = state.part.mesh
                see = None if through else lambda m: seen.faces(mesh, m, progress)
                finest_mm = seen.edge_mm(mesh, size_px[1])
                return mark_loop(
                    mesh, state.face_classes, face_class, frame, loop_px, finest_mm, see, progress
                )

            key = (face_class, through, loop_px.tobytes(), frame.tobytes())
            return Plan("lasso", key, self._label(say("Lasso")), work)

        return make

    # --- the ways
    def _label(self, way: str) -> str:
        face_class = self._choices.face_class
        if face_class == UNMARKED:
            return say("{way}: unmark", way=way)
        return say("{way} as {class_names}", way=way, class_names=say(CLASS_NAMES[face_class]))

    def _band(self, state: State) -> Plan:
        now = self.options.now
        return self._band_plan(state, now.band_low_mm, now.band_high_mm)

    def _band_plan(self, state: State, one_mm: float, other_mm: float) -> Plan | None:
        if state.part is None:
            return None
        face_class, matrix = self._choices.face_class, self._view.scene.matrix

        def work(progress: Progress) -> Marked:
            return mark_band(
                state.part.mesh, state.face_classes, face_class, matrix, (one_mm, other_mm)
            )

        return Plan("band", (face_class, one_mm, other_mm), self._label(say("Band")), work)

    def _seen(self, state: State, kind: str, key: tuple, label: str, eyes: list[Eye]) -> Plan:
        face_class = self._choices.face_class

        def work(progress: Progress) -> Marked:
            return mark_seen(state.part.mesh, state.face_classes, face_class, eyes, progress)

        return Plan(kind, (face_class, *key), self._label(label), work)

    def _seen_here(self, state: State) -> Plan:
        eye = self._view.eye()
        key = tuple(np.concatenate([eye.place_mm, eye.towards, eye.upright]).round(9))
        return self._seen(state, "seen_here", (*key, eye.aspect), say("Seen from here"), [eye])

    def _seen_in_use(self, state: State) -> Plan:
        now = self.options.now
        mesh = state.part.mesh
        axis = rotation(state.pose)[2] if now.ring_axis is None else np.eye(3)[now.ring_axis]
        eyes = ring_of_eyes(
            axis, now.ring_lift_deg, now.ring_distance_mm, now.ring_count, mesh.box_mm
        )
        key = (now.ring_lift_deg, now.ring_distance_mm, now.ring_count, now.ring_axis)
        return self._seen(state, "seen_in_use", key, say("Seen in use"), eyes)

    def _rolled(self, state: State, kind: str, label: str, roll: Callable) -> Plan:
        face_class, width_mm = self._choices.face_class, self.options.now.width_mm
        work = partial(_roll, roll, state, face_class, width_mm)
        return Plan(kind, (face_class, width_mm), label, work)

    def _grow(self, state: State) -> Plan:
        name = say(CLASS_NAMES[self._choices.face_class])
        return self._rolled(state, "grow", say("Grow what is {name}", name=name), grow)

    def _shrink(self, state: State) -> Plan:
        name = say(CLASS_NAMES[self._choices.face_class])
        return self._rolled(state, "shrink", say("Shrink what is {name}", name=name), shrink)

    def _smooth(self, state: State) -> Plan:
        width_mm = self.options.now.width_mm

        def work(progress: Progress) -> Marked:
            return smooth(state.part.mesh, state.face_classes, width_mm, progress)

        return Plan("smooth", width_mm, say("Smooth the borders"), work)

    def _mirror(self, state: State) -> Plan:
        now = self.options.now
        side = (now.mirror_axis, now.mirror_from_greater)

        def work(progress: Progress) -> Marked:
            return mirror_marks(state.part.mesh, state.face_classes, *side, progress)

        return Plan("mirror", side, say("Mirror the marks"), work)

    def _swap(self, state: State) -> Plan:
        def work(progress: Progress) -> Marked:
            return Marked(None, swap_classes(state.face_classes))

        return Plan("swap", None, say("Exchange A and B"), work)


def _roll(
    roll: Callable, state: State, face_class: int, width_mm: float, progress: Progress
) -> Marked:
    return roll(state.part.mesh, state.face_classes, face_class, width_mm, progress)
