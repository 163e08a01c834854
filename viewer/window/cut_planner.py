"""The cut that is being planned in stage Try: where it lies, what is drawn of it, what it makes."""

from dataclasses import replace
from functools import partial

import numpy as np
from PySide6.QtCore import QObject, Signal

from viewer.document.cutting import Cut, CutPlan, Way
from viewer.document.document import Changed, Document
from viewer.document.job_piece import MOST_PIECES, JobPiece, free_name
from viewer.geometry.cut_lines import CutShape
from viewer.geometry.laid_planes import laid_matrix
from viewer.geometry.pose import Pose
from viewer.geometry.worst_patch import WorstPatch
from viewer.live.live_cuts import LiveCuts
from viewer.scene.cut_view import Handle
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.part_view import PartView
from viewer.window.quantities import number_text
from viewer.window.rescale import times_as_large
from viewer.window.stages import Stage
from viewer.window.verbs import Verbs, plain
from viewer.words import say

SHARE = 0.4  # of the part that a fresh box takes along each side
BEYOND_MM = 3.0  # that planes are drawn beyond the part
STEP_MM = 1.0  # of the keys that move the box
NO_BOX = np.zeros((0, 4, 3))
MOVES = {
    "left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0), "back": (0, 1, 0),
    "down": (0, 0, -1), "up": (0, 0, 1),
}  # fmt: skip


class CutPlanner(QObject):
    """Writes plans to `LiveCuts` and draws them while the stage is Try.

    changed : another plan, or what it makes is known; begun : a plan of another way
    """

    changed = Signal()
    begun = Signal()

    def __init__(
        self,
        view: PartView,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        live: LiveCuts,
    ) -> None:
        super().__init__(view)
        self._view, self._document, self._choices, self.live = view, document, choices, live
        self.signals = signals
        self._box_of: tuple[object, Pose] | None = None
        self._box_mm = np.zeros((2, 3))
        self._part = document.state.part
        self.sentence = ""
        signals.changed.connect(self._document_changed)
        live.cut.connect(self._cut)
        live.placed.connect(self._placed)
        live.refused.connect(self._refused)
        for signal in (
            choices.stage_changed, choices.presenting_changed, choices.comparing_changed,
        ):  # fmt: skip
            signal.connect(self._draw)

    # --- for boxes, tools and actions
    @property
    def plan(self) -> CutPlan | None:
        """The plan in force, None for no cut."""
        return self.live.plan

    @property
    def made(self) -> tuple[JobPiece, ...]:
        """What the plan makes, () while that is not known."""
        return () if self.live.latest is None else self.live.latest.pieces

    def verbs(self) -> Verbs:
        """What the actions of cutting do."""
        verbs: Verbs = {
            "cut_quarters": lambda checked: self._switch("quarters", checked),
            "cut_slab": lambda checked: self._switch("slab", checked),
            "cut_box": lambda checked: self._switch("box", checked),
            "worst_touch": plain(partial(self._find_worst, "touch")),
            "worst_terrace": plain(partial(self._find_worst, "terrace")),
            "take_cut": plain(self.take),
            "cut_away": plain(partial(self.set_plan, None)),
        }
        for name, way in MOVES.items():
            verbs[f"box_{name}"] = plain(partial(self.move, STEP_MM * np.array(way, float)))
        return verbs

    def start(self, way: Way) -> None:
        """Begin a plan; what the last one was like is kept as far as it fits."""
        self._choices.set_stage(Stage.TRY)
        state = self._document.state
        if state.part is None:
            return
        low, high = self.part_box_mm()
        middle, size = 0.5 * (low + high), high - low
        size = SHARE * size if way == "box" else np.array([*size[:2], size[2] / 3])
        old = self.plan or CutPlan(way)
        fresh = replace(old, way=way, plane=None, largest_only=False, angle_deg=0.0)
        self.sentence = ""
        self.set_plan(fresh.placed(middle, size))
        self.begun.emit()

    def set_plan(self, plan: CutPlan | None) -> None:
        """Cut otherwise; None: not at all."""
        if plan is None:
            self.sentence = ""
        if plan != self.plan:
            self.live.set_plan(plan)
            self._draw()
            self.changed.emit()

    def change(self, **values: object) -> None:
        """Change some values of the plan."""
        if self.plan is not None:
            self.set_plan(replace(self.plan, **values))

    def move(self, by_mm: np.ndarray) -> None:
        """Move the box by (3,) in the posed frame; what a way does not know stays."""
        if self.plan is not None:
            self.set_plan(self.plan.moved(np.asarray(by_mm, float)))

    def take(self) -> None:
        """Put what the plan makes on the list of pieces: one undo step."""
        cut, state = self.live.latest, self._document.state
        if cut is None:
            return
        pieces = state.pieces
        if len(pieces) + len(cut.pieces) > MOST_PIECES:
            self._refused(say("The list of pieces is full; take some off it first."))
            return
        for piece in cut.pieces:
            pieces = (*pieces, piece.renamed(free_name(pieces, piece.name)))
        self._document.set_pieces(pieces, say("Take the pieces"))
        self.set_plan(None)

    def part_box_mm(self) -> np.ndarray:
        """(2, 3) corners of the box around the part as it is laid."""
        state = self._document.state
        about = (state.part.mesh, state.pose)
        if self._box_of is None or self._box_of[0] is not about[0] or self._box_of[1] != about[1]:
            matrix = laid_matrix([state.part.mesh], state.pose)
            # Of faces' corners, since vertices that no face uses are no part of it.
            laid = state.part.mesh.corners_mm.reshape(-1, 3) @ matrix[:3, :3].T + matrix[:3, 3]
            self._box_of, self._box_mm = about, np.array([laid.min(axis=0), laid.max(axis=0)])
        return self._box_mm

    # --- acting
    def _switch(self, way: Way, checked: bool) -> None:
        if checked:
            self.start(way)
        else:
            self.set_plan(None)
            self.changed.emit()

    def _find_worst(self, kind: str) -> None:
        self._choices.set_stage(Stage.TRY)
        doing = say("Looking for the worst patch")
        self.live.find_worst(kind, doing)

    def _placed(self, plan: CutPlan, patch: WorstPatch) -> None:
        old = self.plan or plan
        kind = say("touch") if patch.kind == "touch" else say("terraces")
        self.sentence = say(
            "The box holds the largest patch of {kind} on class A: {area} mm².",
            kind=kind,
            area=number_text(patch.area_mm2),
        )
        self.set_plan(replace(plan, anew=old.anew))
        self.begun.emit()

    # --- showing
    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            part, before = self._document.state.part, self._part
            self._part = part
            factor = times_as_large(part, before)
            plan = self.plan
            self.set_plan(None if plan is None or factor is None else plan.scaled(factor))
        elif what & Changed.POSE:
            self._draw()

    def _cut(self, cut: Cut | None) -> None:
        if self._shown:
            if self.plan.way == "split":
                self._draw()
            else:
                self._view.scene.cuts.show_cut(None if cut is None else cut.shape)
                self._view.redraw()
        self.changed.emit()

    def _refused(self, sentence: str) -> None:
        self.sentence = sentence
        self.changed.emit()

    @property
    def _shown(self) -> bool:
        choices = self._choices
        trying = choices.stage is Stage.TRY and not (choices.presenting or choices.comparing)
        return trying and self.plan is not None and self._document.state.part is not None

    def _draw(self, *_: object) -> None:
        cuts = self._view.scene.cuts
        if not self._shown:
            cuts.show_box(None, NO_BOX, ())
            cuts.show_cut(None)
        else:
            shape = None if self.live.latest is None else self.live.latest.shape
            cuts.show_box(*drawn(self.plan, self.part_box_mm(), shape))
            cuts.show_cut(shape)
        self._view.redraw()


def drawn(
    plan: CutPlan, part_box_mm: np.ndarray, shape: CutShape | None
) -> tuple[np.ndarray | None, np.ndarray, tuple[Handle, ...]]:
    """Corners of the box to draw, planes to draw, and handles, all in the posed frame."""
    axes = plan.axes
    middle = plan.middle_mm
    if plan.way == "split":
        return None, _quad_around(shape), ()
    if plan.way == "quarters":
        quads = [_upright_quad(plan, axis, part_box_mm) for axis in (0, 1)]
        return None, np.array(quads), (Handle(-1, False, middle @ axes),)
    ends = np.array([plan.low_mm, plan.high_mm])
    if plan.way == "slab":
        ends[:, :2] = part_box_mm[:, :2] + [[-BEYOND_MM], [BEYOND_MM]]
        axes, middle = np.eye(3), ends.mean(axis=0)
    handles = [Handle(-1, False, middle @ axes)]
    for axis in (2,) if plan.way == "slab" else (0, 1, 2):
        for high in (False, True):
            at = middle.copy()
            at[axis] = ends[int(high), axis]
            handles.append(Handle(axis, high, at @ axes))
    corners = np.array([[ends[x, 0], ends[y, 1], ends[z, 2]]
                        for z in (0, 1) for y in (0, 1) for x in (0, 1)])  # fmt: skip
    return corners @ axes, NO_BOX, tuple(handles)


def _upright_quad(plan: CutPlan, axis: int, box_mm: np.ndarray) -> np.ndarray:
    """(4, 3) the plane across one upright axis, as large as the part."""
    at, along = plan.middle_mm @ plan.axes, plan.axes[1 - axis]
    reach = 0.5 * float(np.linalg.norm(np.ptp(box_mm[:, :2], axis=0))) + BEYOND_MM
    foot = np.array([at[0], at[1], 0.0])
    low, high = -0.0, box_mm[1, 2] + BEYOND_MM
    return np.array([foot + s * reach * along + [0, 0, z]
                     for s, z in ((-1, low), (1, low), (1, high), (-1, high))])  # fmt: skip


def _quad_around(shape: CutShape | None) -> np.ndarray:
    """(1, 4, 3) the plane of a split around its cut face, (0, 4, 3) while that is not known."""
    if shape is None or not len(shape.faces):
        return NO_BOX
    points, (a, b, c) = shape.points_mm, shape.points_mm[_largest(shape)]
    normal = np.cross(b - a, c - a)
    normal /= np.linalg.norm(normal)
    u = np.cross(normal, np.eye(3)[int(np.abs(normal).argmin())])
    u /= np.linalg.norm(u)
    v = np.cross(normal, u)
    low, high = (points @ np.stack([u, v]).T).min(axis=0), (points @ np.stack([u, v]).T).max(axis=0)
    low, high = low - BEYOND_MM, high + BEYOND_MM
    level = float(a @ normal) * normal
    corners = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
    return np.array([[level + x * u + y * v for x, y in corners]])


def _largest(shape: CutShape) -> np.ndarray:
    """The largest cut face, which lies in the plane itself and not on a pin."""
    a, b, c = (shape.points_mm[shape.faces[:, k]] for k in range(3))
    return shape.faces[int(np.linalg.norm(np.cross(b - a, c - a), axis=1).argmax())]
