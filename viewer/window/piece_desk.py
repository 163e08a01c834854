"""Everything of pieces in the window: the cut that is planned, the list, the scene, the files."""

from functools import partial
from pathlib import Path
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from viewer.document.document import Changed, Document
from viewer.document.job_piece import JobPiece
from viewer.document.piece_state import as_own_job
from viewer.live.jobs import Jobs
from viewer.live.live_cuts import LiveCuts
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_pieces import LivePieces
from viewer.scene.cut_view import BesideBody
from viewer.window.actions import Actions
from viewer.window.box_tool import BoxTool
from viewer.window.choices import Choices
from viewer.window.cut_box import CutBox
from viewer.window.cut_planner import CutPlanner
from viewer.window.document_signals import DocumentSignals
from viewer.window.file_work import FileWork
from viewer.window.fold import Fold
from viewer.window.in_view import bring_into_view
from viewer.window.job_keeper import JobKeeper, file_words, plain_name
from viewer.window.part_view import PartView
from viewer.window.piece_box import PieceBox
from viewer.window.prompts import Prompts
from viewer.window.shop_desk import ShopDesk
from viewer.window.specimen_box import SpecimenBox
from viewer.window.specimen_work import SpecimenWork
from viewer.window.split_box import SplitBox
from viewer.window.split_work import SplitWork
from viewer.window.stages import Stage
from viewer.window.tool_box import ToolBox
from viewer.window.verbs import Verbs, plain
from viewer.words import say

APART_MM = 10.0  # between the part and what is shown beside it


class PiecesWindow(Protocol):
    """What the desk needs of the window."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    jobs: Jobs
    live_measures: LiveMeasures
    view: PartView
    tools: ToolBox
    files: FileWork
    keeper: JobKeeper
    shop: ShopDesk
    prompts: Prompts
    actions: Actions


class PieceDesk(QObject):
    """Makes what works out pieces, and lets go of it in `close`."""

    def __init__(self, window: PiecesWindow) -> None:
        super().__init__(window)
        self._window, self._document = window, window.document
        both = (window.document, window.signals)
        self.cuts = LiveCuts(window.document, window.jobs, window.live_measures)
        self.numbers = LivePieces(window.document, window.jobs, window.shop.live)
        self.planner = CutPlanner(window.view, *both, window.choices, self.cuts)
        self.splits = SplitWork(window.document, window.choices, window.shop, self.planner)
        self.specimen = SpecimenWork(window.document, window.jobs, window.shop.live)
        self.box: PieceBox | None = None
        self.cut_box: CutBox | None = None
        self._actions: dict[str, QAction] = {}
        self._folds: dict[QWidget, Fold] = {}
        self._count = 0
        tool = BoxTool(window.view.scene, self.planner, window.tools)
        window.tools.take_trying(tool)
        window.choices.stage_changed.connect(self._show_beside)
        window.choices.presenting_changed.connect(self._show_beside)
        window.choices.comparing_changed.connect(self._show_beside)
        window.signals.changed.connect(self._document_changed)
        self.planner.changed.connect(self._plan_changed)
        self.planner.begun.connect(lambda: self.specimen.set_wanted(False))
        self.specimen.changed.connect(self._plan_changed)

    def verbs(self) -> Verbs:
        """What the menu Try does with pieces."""
        verbs = self.planner.verbs() | {
            "cut_split": plain(self._split),
            "next_split": plain(self.splits.step),
            "specimen_show": self._show_specimen,
            "specimen_add": plain(self.specimen.add),
            "specimen_usual": plain(self.specimen.as_usual),
            "next_piece": plain(self._next),
            "rename_piece": plain(self._rename),
            "open_piece": plain(self._open),
            "remove_piece": plain(self._remove),
        }
        for suffix in ("3mf", "stl"):
            verbs[f"save_piece_{suffix}"] = plain(partial(self._save, suffix))
            verbs[f"save_pieces_{suffix}"] = plain(partial(self._save_all, suffix))
        return verbs

    def boxes(self, actions: dict[str, QAction]) -> tuple[QWidget, ...]:
        """What stands in the panel of stage Try; once."""
        self._actions = actions
        self._window.actions.refreshed.connect(self.refresh)
        both = (self._document, self._window.signals)
        self.box = PieceBox(*both, self.numbers, actions)
        self.box.chosen.connect(self._chosen)
        self.split_box = SplitBox(self.splits, self.planner, self.numbers, actions)
        self.specimen_box = SpecimenBox(self.specimen, self.numbers, actions)
        self.cut_box = CutBox(self.planner, self.numbers, actions)
        self.planner.begun.connect(self._bring_plan_into_view)
        folds = (
            (say("Cut out a piece"), say("Quarters, slabs, a box, or the worst patch."),
             self.cut_box),
            (say("Split for real"), say("Two halves that are joined again, for a part that is "
                                        "too large, or comes out cleaner in two."),
             self.split_box),
            (say("Specimens"), say("Standard prints that each answer one question."),
             self.specimen_box),
            (say("Pieces of the job"), say("What is printed by itself, and what it takes."),
             self.box),
        )  # fmt: skip
        made = []
        for name, tip, widget in folds:
            seldom = widget in (self.split_box, self.specimen_box)
            fold = Fold(name, tip, opened=not seldom)
            fold.add(widget)
            made.append(fold)
            self._folds[widget] = fold
        self.refresh()
        return tuple(made)

    def close(self) -> None:
        """Stop listening and asking."""
        self.cuts.close()
        self.specimen.close()
        self.numbers.close()

    # --- what can be done now
    def refresh(self) -> None:
        """Enable and check what fits the plan, the list and the choice."""
        if not self._actions:
            return
        actions, plan = self._actions, self.planner.plan
        for way in ("quarters", "slab", "box"):
            actions[f"cut_{way}"].setChecked(plan is not None and plan.way == way)
        has_box = plan is not None and plan.way != "split"
        for name in ("left", "right", "front", "back", "up", "down"):
            actions[f"box_{name}"].setEnabled(has_box)
        actions["specimen_show"].setChecked(self.specimen.wanted)
        actions["specimen_add"].setEnabled(self.specimen.piece is not None)
        actions["specimen_usual"].setEnabled(self.specimen.by_hand)
        actions["next_split"].setEnabled(len(self.splits.gains) > 1)
        actions["take_cut"].setEnabled(bool(self.planner.made))
        actions["cut_away"].setEnabled(plan is not None)
        pieces = self._document.state.pieces
        for key in ("rename_piece", "open_piece", "remove_piece", "save_piece_3mf",
                    "save_piece_stl"):  # fmt: skip
            actions[key].setEnabled(self.box.current is not None)
        for key in ("next_piece", "save_pieces_3mf", "save_pieces_stl"):
            actions[key].setEnabled(bool(pieces))

    def _plan_changed(self) -> None:
        made = self.specimen.piece
        self.numbers.look_at((*self.planner.made, *((made,) if made is not None else ())))
        self._show_beside()
        self.refresh()

    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.PIECES | Changed.PART | Changed.POSE):
            self._show_beside()
        count = len(self._document.state.pieces)
        if what & Changed.PIECES and count > self._count:
            self._bring(self.box)
        self._count = count

    def _chosen(self, _: JobPiece | None) -> None:
        self._show_beside()
        self.refresh()

    # --- verbs
    def _bring_plan_into_view(self) -> None:
        plan = self.planner.plan
        self._bring(self.split_box if plan is not None and plan.way == "split" else self.cut_box)

    def _bring(self, box: QWidget) -> None:
        """Open the fold of a box, and scroll to it."""
        self._folds[box].set_wanted(True)
        bring_into_view(box)

    def _split(self) -> None:
        self.splits.look()
        self._bring(self.split_box)

    def _show_specimen(self, checked: bool) -> None:
        if checked:
            self._window.choices.set_stage(Stage.TRY)
            self.planner.set_plan(None)
            self._bring(self.specimen_box)
        self.specimen.set_wanted(checked)

    def _next(self) -> None:
        pieces = self._document.state.pieces
        if pieces:
            self._window.choices.set_stage(Stage.TRY)
            place = pieces.index(self.box.current) if self.box.current in pieces else -1
            self.box.choose(pieces[(place + 1) % len(pieces)])

    def _rename(self) -> None:
        self._window.choices.set_stage(Stage.TRY)
        self.box.start_renaming()

    def _remove(self) -> None:
        self.box.remove()

    def _open(self) -> None:
        if self.box.current is not None:
            state = as_own_job(self._document.state, self.box.current)
            self._window.keeper.open_made_after_asking(state)

    def _save(self, suffix: str) -> None:
        piece, window = self.box.current, self._window
        if piece is None:
            return
        name = f"{plain_name(self._document.state)}-{file_words(piece.name) or 'piece'}.{suffix}"
        path = window.prompts.file_to_export(window.keeper.folder() / name, suffix)
        if path is not None:
            window.files.write_piece(piece, path)

    def _save_all(self, suffix: str) -> None:
        window = self._window
        name = f"{plain_name(self._document.state)}-{say('job-pieces')}"
        folder: Path | None = window.prompts.folder_to_write(window.keeper.folder() / name)
        if folder is not None:
            window.files.write_pieces(folder, f".{suffix}")

    # --- the scene
    def _show_beside(self, *_: object) -> None:
        window, choices = self._window, self._window.choices
        state, cuts = self._document.state, window.view.scene.cuts
        alone = choices.presenting or choices.comparing or choices.stage is not Stage.TRY
        piece = None if self.box is None else self.specimen.piece or self.box.current
        if alone or piece is None or state.part is None or self.planner.plan is not None:
            if len(cuts.beside_mm):
                cuts.show_beside([])
                window.view.fit_again()
                window.view.redraw()
            return
        right = float(self.planner.part_box_mm()[1, 0])
        laid = piece.laid_mm
        shift = np.array([right + APART_MM - min(float(p[:, 0].min()) for p in laid), 0.0, 0.0])
        cuts.show_beside([
            BesideBody(points + shift, body.mesh.faces, body.material)
            for points, body in zip(laid, piece.bodies, strict=True)
        ])  # fmt: skip
        window.view.fit_again()
        window.view.redraw()
