"""The one window: stages at the left, the scene in the middle, numbers at the right."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import (
    QCloseEvent,
    QDragEnterEvent,
    QDropEvent,
    QIcon,
    QKeyEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QMainWindow

from viewer.document.document import Changed, Document
from viewer.geometry.fault_places import Sight
from viewer.live.jobs import Jobs
from viewer.live.live_check import LiveCheck
from viewer.live.live_compare import LiveCompare
from viewer.live.live_deviation import LiveDeviation
from viewer.live.live_measures import LiveMeasures
from viewer.resource_files import resource_file
from viewer.scene.lenses import Lens
from viewer.window.action_finder import ActionFinder
from viewer.window.actions import Actions
from viewer.window.adapting import Adapting
from viewer.window.busy_bar import BusyBar
from viewer.window.caption_bar import CaptionBar
from viewer.window.choices import Choices, TurnMode
from viewer.window.compare_box import CompareBox
from viewer.window.comparing import Comparing
from viewer.window.cut_link import CutLink
from viewer.window.difference_link import DifferenceLink
from viewer.window.document_signals import DocumentSignals
from viewer.window.file_work import FileWork
from viewer.window.height_strip import HeightStrip
from viewer.window.job_keeper import JobKeeper
from viewer.window.kept_choices import opens_last_job
from viewer.window.keyed_pointer import KeyedPointer
from viewer.window.large_part import LargePart
from viewer.window.layout import lay_out, share_width
from viewer.window.legend_link import LegendLink
from viewer.window.legend_strip import LegendStrip
from viewer.window.lens_bar import LensBar
from viewer.window.manners import Manners
from viewer.window.mend_work import MendWork
from viewer.window.notice_bar import NoticeBar
from viewer.window.panels.check_panel import CheckPanel
from viewer.window.panels.hand_over_panel import HandOverPanel
from viewer.window.panels.mark_panel import MarkPanel
from viewer.window.panels.numbers_panel import NumbersPanel
from viewer.window.panels.try_panel import TryPanel
from viewer.window.panels.turn_panel import TurnPanel
from viewer.window.part_view import PartView
from viewer.window.picture_keeper import PictureKeeper
from viewer.window.picture_work import PictureWork
from viewer.window.piece_desk import PieceDesk
from viewer.window.presentation import Presentation
from viewer.window.print_colour import kept_colour
from viewer.window.prompts import Prompts
from viewer.window.recent_files import recent_files
from viewer.window.recovering import Recovering
from viewer.window.rescale import read_in_unit
from viewer.window.revision_link import RevisionLink
from viewer.window.safe_keeping import SafeKeeping
from viewer.window.scene_link import SceneLink
from viewer.window.searching import Searching
from viewer.window.sheet_desk import SheetDesk
from viewer.window.shop_desk import ShopDesk
from viewer.window.side_panels import StageColumn
from viewer.window.stages import (
    BUTTONS,
    STAND_BUTTONS,
    STAND_ON,
    WHAT_TO_DO,
    Stage,
    stage_states,
)
from viewer.window.theme import scene_theme
from viewer.window.theme_keeper import ThemeKeeper
from viewer.window.tool_box import ToolBox
from viewer.window.trial_desk import TrialDesk
from viewer.window.window_verbs import window_verbs
from viewer.words import say

# How each stage looks at first: its lens, and whether supports are shown. A change is remembered.
STARTING_LOOK = {
    Stage.CHECK: (Lens.CLASSES, False),
    Stage.MARK: (Lens.CLASSES, False),
    Stage.TURN: (Lens.TOUCH, True),
    Stage.TRY: (Lens.TOUCH, True),
    Stage.HAND_OVER: (Lens.CLASSES, False),
}


class MainWindow(QMainWindow):
    """Holds document, live numbers, scene and panels together; no truth of its own."""

    def __init__(
        self, document: Document, jobs: Jobs, live_measures: LiveMeasures, live_check: LiveCheck
    ) -> None:
        super().__init__()
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.document, self.jobs = document, jobs
        self.live_measures, self.live_check = live_measures, live_check
        self.live_deviation = LiveDeviation(document, jobs)
        self.live_compare = LiveCompare(document, jobs, live_measures)
        self.signals = DocumentSignals(document, self)
        self.choices = Choices(self)
        self.choices.set_print_colour(kept_colour())
        self.prompts = Prompts(self)
        self.theming = ThemeKeeper(self)
        self._looks = dict(STARTING_LOOK)
        self.view = PartView(scene_theme(self.theming.theme))
        self.keyed_pointer = KeyedPointer(self.view, self.choices)
        self.tools = ToolBox(self.view, document, self.signals, self.choices, jobs)
        self.files = FileWork(document, self.view.scene.camera_state)
        self.picturing = PictureWork(jobs)
        self.mending = MendWork(document, self.signals, jobs)
        self.safety = SafeKeeping(self)
        self.keeper, self.recovering = JobKeeper(self), Recovering(self)
        self.large = LargePart(self)
        self.pictures, self.manners = PictureKeeper(self), Manners(self)
        self.searching, self.adapting = Searching(self), Adapting(self)
        self.shop = ShopDesk(document, self.signals, self.choices, jobs, live_measures)
        self.pieces, self.trials = PieceDesk(self), TrialDesk(self)
        self.sheets = SheetDesk(self)
        self.actions = Actions(document, self.signals, self.choices, window_verbs(self), self)
        self._build()
        lives = (live_measures, live_check, self.live_deviation)
        self._link = SceneLink(self.view, document, self.signals, self.choices, *lives)
        self.shop.show_in(self.view, self.strip)
        self.newer = RevisionLink(self, self.panels[Stage.MARK].say_what_is_new)
        self._cut_link = CutLink(self.strip, self.view, self.signals, live_measures)
        self._connect()
        self.theming.show()
        self._show_stage(self.choices.stage)
        self._show_document(Changed.EVERYTHING)
        self.resize(1280, 800)
        self.view.interactor.setFocus()
        self.manners.start()

    # --- for app.py
    def open_demo(self) -> None:
        """Make and open the demo job."""
        self.files.open_demo()

    def open_path(self, path: Path) -> None:
        """Open a mesh or a job."""
        self.files.open_file(Path(path))

    def open_last_job(self) -> None:
        """Open what was open last; the first page where there is none, or none is wanted."""
        listed = recent_files()
        if listed and opens_last_job():
            self.open_path(listed[0])
        else:
            self.manners.open_first_page()

    # --- building
    def _build(self) -> None:
        actions = self.actions.by_key
        self.setWindowIcon(QIcon(str(resource_file("icons/showside.svg"))))
        self.setAcceptDrops(True)
        menus = self.actions.fill(self.menuBar())
        self.keeper.add_recent_menu(menus["&File"], actions["demo"])
        self.finder = ActionFinder(actions, self)
        both = (self.document, self.signals)
        self.panels = {
            Stage.CHECK: CheckPanel(
                *both, self.live_check, self._rescale, self.files.split_anew, self.mending, actions
            ),
            Stage.MARK: MarkPanel(*both, self.choices, actions, self.tools.ways),
            Stage.TURN: TurnPanel(*both, actions),
            Stage.TRY: TryPanel(
                *both,
                self.live_measures,
                self.live_check,
                self.trials.around(self.pieces.boxes(actions), actions),
            ),
            Stage.HAND_OVER: HandOverPanel(
                *both, self.choices, actions, self.sheets.make_box(actions)
            ),
        }
        self.stage_column = StageColumn(self.panels)
        self.numbers = NumbersPanel(self.live_measures)
        self.number_column = self.shop.build(self.numbers, actions)
        self.notice, self.legend, self.busy = NoticeBar(), LegendStrip(), BusyBar()
        self.strip, lens_bar = HeightStrip(), LensBar(actions)
        self.caption = CaptionBar(*both, self.live_measures)
        self.compare_box = CompareBox(actions)
        self.direction_pane = self.searching.make_pane(actions)
        self.shop.touch_told.connect(self.searching.choices.set_touch)
        self.searching.choices.set_touch(self.shop.live.touch_worth())
        self.direction_pane.add_tab(self.adapting.make_box(actions), say("Layers"))
        lay_out(self, lens_bar)
        self.presentation = Presentation(self)
        self.comparing = Comparing(self)
        self.difference = DifferenceLink(self)
        self.legends = LegendLink(self)

    def _connect(self) -> None:
        """Who tells whom."""
        choices, notice = self.choices, self.notice
        self.signals.changed.connect(self._show_document)
        self.stage_column.stages.chosen.connect(choices.set_stage)
        choices.stage_changed.connect(self._show_stage)
        choices.turn_mode_changed.connect(self._show_instruction)
        choices.lens_changed.connect(self._remember_look)
        choices.supports_changed.connect(self._remember_look)
        choices.strip_changed.connect(self._show_strip)
        choices.presenting_changed.connect(self._show_strip)
        choices.comparing_changed.connect(self._show_strip)
        self.searching.shown_changed.connect(self._show_strip)
        self.searching.failed.connect(notice.say)
        self.trials.failed.connect(notice.say)
        self.searching.step_ended.connect(self.actions.refresh)
        choices.handed_over_changed.connect(self._show_states)
        self.panels[Stage.CHECK].fault_chosen.connect(self._show_fault)
        self.live_measures.measured.connect(self._show_states)
        self.live_measures.measured.connect(self.strip.show_measures)
        self.live_check.checked.connect(self._show_states)
        self.live_check.checked.connect(self.strip.show_faults)
        for live in (
            self.live_measures, self.live_deviation, self.live_compare, self.shop.live,
        ):  # fmt: skip
            live.failed.connect(notice.say)
        self.tools.hint.connect(self._show_hint)
        self.tools.step_ended.connect(self.actions.refresh)
        cuts, ways, sheets = self.pieces.cuts, self.tools.ways.planner, self.sheets.work
        for work in (self.files, self.mending, self.picturing, ways, cuts, sheets):
            work.started.connect(self.busy.follow)
            work.progressed.connect(self.busy.report)
            work.ended.connect(self.busy.finish)
            work.failed.connect(notice.say)
        self.busy.finished.connect(self.pictures.hush)

    # --- the document and the choices are shown
    def _show_document(self, what: Changed) -> None:
        """Title, unsaved sign and stages."""
        self.keeper.show_title()
        self._show_states()

    def _show_states(self, *_: object) -> None:
        """How far each stage is."""
        state = self.document.state
        measures = self.live_measures.latest
        states = stage_states(state, measures, self.live_check.latest, self.choices.handed_over)
        self.stage_column.stages.show_states(states)

    def _show_stage(self, stage: Stage) -> None:
        """The panel, the hint and the look of a stage."""
        self.stage_column.show_stage(stage)
        self.panels[Stage.CHECK].put_away()
        self._show_instruction()
        self.choices.set_look(*self._looks[stage])

    def _show_instruction(self, *_: object) -> None:
        """What to do, and what the mouse buttons do."""
        stage = self.choices.stage
        standing = stage is Stage.TURN and self.choices.turn_mode is TurnMode.STAND
        self.stage_column.instruction.setText(say(STAND_ON if standing else WHAT_TO_DO[stage]))
        self.buttons_hint.setText(say(STAND_BUTTONS if standing else BUTTONS[stage]))

    def _remember_look(self, *_: object) -> None:
        """Each stage comes back with the lens and supports it was left with."""
        self._looks[self.choices.stage] = (self.choices.lens, self.choices.supports)

    def _show_strip(self, *_: object) -> None:
        """The height strip, where it is wanted and has room."""
        alone = self.choices.presenting or self.choices.comparing or self.searching.shown
        self.strip.setVisible(self.choices.strip and not alone)
        if not self.choices.strip or self.choices.comparing or self.searching.shown:
            self.strip.put_away()

    def _show_fault(self, place: Sight | None) -> None:
        """Fly to a place of a fault and outline its faces; None takes the outline away."""
        part = self.document.state.part
        self.view.scene.preview_faces(None if place is None else part.pieces_of(place.faces))
        self.view.redraw()
        if place is not None:
            self.choices.set_lens(Lens.FAULTS)
            self.view.fly_to(place.centre_mm, place.radius_mm, place.normal)

    def _show_hint(self, sentence: str) -> None:
        """A sentence in the status bar; an empty one clears it."""
        if sentence:
            self.statusBar().showMessage(sentence)
        else:
            self.statusBar().clearMessage()

    # --- the rest of the window
    def _rescale(self, unit: str) -> None:
        self.document.replace_part(read_in_unit(self.document.state, unit), say("Change the unit"))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape takes back the drag under way, closes the cut, or stops the long job."""
        if event.key() == Qt.Key.Key_Escape and (
            self.tools.cancel()
            or self.strip.put_away()
            or self.busy.cancel()
            or self.comparing.put_away()
            or self.searching.put_away()
        ):
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The scene keeps two thirds of the width."""
        share_width(self.sides, self.width())
        super().resizeEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files only."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open what was dropped."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        if paths:
            event.acceptProposedAction()
            self.keeper.open_dropped(paths)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes, then let go of threads, listeners and VTK in this order."""
        if not self.keeper.may_close():
            event.ignore()
            return
        self.manners.remember()
        self.presentation.close()
        self.files.close()
        self.safety.close()
        self.mending.close()
        self.picturing.close()
        self.sheets.close()
        self.tools.close()
        self.searching.close()
        self.adapting.close()
        self.live_measures.close()
        self.live_check.close()
        self.live_deviation.close()
        self.live_compare.close()
        self.pieces.close()
        self.trials.close()
        self.shop.close()
        self.jobs.close()
        self.signals.close()
        self.view.close_scene()
        super().closeEvent(event)
