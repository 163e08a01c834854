"""Everything of trials in the window: the list, the form, what they teach, the table."""

from dataclasses import replace
from typing import Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget
from shiboken6 import isValid

from viewer.document.document import Document
from viewer.document.job_piece import free_name
from viewer.live.jobs import Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_proposals import LiveProposals
from viewer.live.live_trials import LiveTrials
from viewer.shop.trials import CUT_OUT_TERRACE, CUT_OUT_TOUCH, Trial
from viewer.window.actions import Actions
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.file_work import FileWork
from viewer.window.fold import Fold
from viewer.window.job_keeper import JobKeeper
from viewer.window.lesson_box import LessonBox
from viewer.window.prompts import Prompts
from viewer.window.proposal_box import ProposalBox
from viewer.window.shop_desk import ShopDesk
from viewer.window.stages import Stage
from viewer.window.trial_box import TrialBox
from viewer.window.trial_form import Printed, TrialForm
from viewer.window.verbs import Verbs, plain
from viewer.words import say


class TrialsWindow(Protocol):
    """What the desk needs of the window."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    jobs: Jobs
    live_measures: LiveMeasures
    files: FileWork
    keeper: JobKeeper
    shop: ShopDesk
    prompts: Prompts
    actions: Actions


class TrialDesk(QObject):
    """Makes `LiveTrials`, and lets go of it in `close`.

    failed : a sentence for the user
    """

    failed = Signal(str)

    def __init__(self, window: TrialsWindow) -> None:
        super().__init__(window)
        self._window = window
        self.live = LiveTrials(window.document, window.jobs, window.shop.live)
        self.live.failed.connect(self.failed)
        self.proposals = LiveProposals(
            window.document, window.jobs, window.live_measures, window.shop.live, self.live
        )
        self.proposals.failed.connect(self.failed)
        self.proposals.told.connect(self.refresh)
        window.choices.stage_changed.connect(self._stage_changed)
        self.likely_kind = "inclination-fan"
        self.box: TrialBox | None = None
        self.lessons: LessonBox | None = None
        self.tests: ProposalBox | None = None
        self.form: TrialForm | None = None
        self._actions: dict[str, QAction] = {}

    def verbs(self) -> Verbs:
        """What the menu Try does with trials."""
        return {
            "take_best_test": plain(self._take_best),
            "take_all_tests": plain(self._take_all),
            "save_tests": plain(self._save_tests),
            "write_trial": plain(self._write),
            "change_trial": plain(self._change),
            "remove_trial": plain(self._remove),
            "bring_back_trial": plain(self.live.bring_back),
            "export_trials": plain(self._export),
        }

    def around(
        self, boxes: tuple[QWidget, ...], actions: dict[str, QAction]
    ) -> tuple[QWidget, ...]:
        """What stands in the panel of stage Try, about the boxes of the pieces; once."""
        self._actions = actions
        window = self._window
        window.actions.refreshed.connect(self.refresh)
        self.box = TrialBox(self.live, actions)
        self.box.chosen.connect(self.refresh)
        self.lessons = LessonBox(window.document, window.signals, self.live)
        self.tests = ProposalBox(window.document, self.proposals, actions)
        self.tests.wanted.connect(self._take)
        made = []
        for name, tip, widget in (
            (say("Which test pays"), say("For each open question the piece that answers it in the "
             "least time; first what decides most class A in an hour."), self.tests),
            (say("Results"), say("Test pieces that were printed, and how they came out."),
             self.box),
            (say("What they teach"), say("Limits that the results propose; nothing is changed "
             "until you take it."), self.lessons),
        ):  # fmt: skip
            fold = Fold(name, tip)
            fold.add(widget)
            made.append(fold)
        self.refresh()
        return (made[0], *boxes, *made[1:])

    def close(self) -> None:
        """Close the form; write what is still to be written."""
        if self.form is not None and isValid(self.form):
            self.form.close()
        self.proposals.close()
        self.live.close()

    def refresh(self, *_: object) -> None:
        """Enable what fits the list and the choice in it."""
        if not self._actions or self.box is None:
            return
        for key in ("change_trial", "remove_trial"):
            self._actions[key].setEnabled(self.box.current is not None)
        self._actions["bring_back_trial"].setEnabled(self.live.can_bring_back)
        known = self.proposals.latest
        for key in ("take_best_test", "take_all_tests"):
            self._actions[key].setEnabled(known is not None and bool(known.pieces))
        self._actions["save_tests"].setEnabled(known is not None and bool(known.places))
        self._actions["export_trials"].setEnabled(bool(self.live.known))

    def _stage_changed(self, stage: Stage) -> None:
        self.proposals.watch(stage is Stage.TRY)

    # --- verbs
    def _take_best(self) -> None:
        self._take(0)

    def _take(self, *numbers: int) -> None:
        """Put proposed pieces on the job's list, and let the form begin with the last of them."""
        known, state = self.proposals.latest, self._window.document.state
        if known is None or not known.pieces:
            return
        pieces = state.pieces
        for number in numbers or range(len(known.pieces)):
            piece, best = known.pieces[number], known.proposals[number].best
            pieces = (*pieces, replace(piece, name=free_name(pieces, piece.name)))
            self.likely_kind = best.kind
        label = say("Take a test piece") if len(numbers) == 1 else say("Take test pieces")
        self._window.document.set_pieces(pieces, label)

    def _take_all(self) -> None:
        self._take()

    def _save_tests(self) -> None:
        known, window = self.proposals.latest, self._window
        if known is None or not known.places:
            return
        path = window.prompts.file_to_export(
            window.keeper.folder() / f"{say('test pieces')}.3mf", "3mf"
        )
        if path is not None:
            window.files.write_platform(known.pieces, known.places, path)

    def _write(self) -> None:
        self._open(None)

    def _change(self) -> None:
        if self.box.current is not None:
            self._open(self.box.current)

    def _open(self, old: Trial | None) -> None:
        self._window.choices.set_stage(Stage.TRY)
        if self.form is not None and isValid(self.form):
            self.form.close()
        printed = self._printed()
        if printed is None:
            self.failed.emit(
                say("Choose a machine and a pair of the shop first: a result belongs to them.")
            )
            return
        parent = self._window if isinstance(self._window, QWidget) else None
        self.form = TrialForm(parent, self._window.prompts, printed, old)
        self.form.written.connect(self._written)
        self.form.show()
        self.form.raise_()
        self.form.activateWindow()

    def _written(self, trial: Trial) -> None:
        self.live.write_down(trial)
        self.box.choose(trial.key)

    def _printed(self) -> Printed | None:
        chosen, state = self.live.chosen(), self._window.document.state
        if chosen is None:
            return None
        # Of the job: steps that were judged before, and those of pieces that are to be printed.
        values = {t.kind: tuple(dict.fromkeys(s.value for s in t.steps)) for t in state.trials}
        values |= {piece.kind: piece.steps for piece in state.pieces if piece.steps}
        values[CUT_OUT_TOUCH] = (chosen.pair.contact_gap_mm,)
        measures = self._window.live_measures.latest
        if measures is not None and measures.terrace_mean_width_mm.A > 0:
            values[CUT_OUT_TERRACE] = (round(measures.terrace_mean_width_mm.A, 2),)
        return Printed(
            chosen.machine.name, chosen.materials.model.name, chosen.materials.support_body.name,
            chosen.pair.name, state.settings.layer_mm, state.pose,
            state.part.name if state.part else "", self.likely_kind, values,
        )  # fmt: skip

    def _remove(self) -> None:
        if self.box.current is not None:
            self.live.remove(self.box.current.key)

    def _export(self) -> None:
        window = self._window
        path = window.prompts.table_to_save(window.keeper.folder() / f"{say('trials')}.csv")
        if path is not None:
            window.files.write_trials(self.live.known, path)
