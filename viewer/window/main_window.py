"""The one window: stages at the left, the scene in the middle, numbers at the right."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import (
    QCloseEvent,
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QIcon,
    QKeyEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QMainWindow, QVBoxLayout, QWidget

from viewer.document.document import Changed, Document
from viewer.geometry.fault_places import Sight
from viewer.live.jobs import Jobs
from viewer.live.live_check import LiveCheck
from viewer.live.live_deviation import LiveDeviation
from viewer.live.live_measures import LiveMeasures
from viewer.resource_files import resource_file
from viewer.scene.legends import deviation_note, legend
from viewer.scene.lenses import Lens
from viewer.window.action_finder import ActionFinder
from viewer.window.action_table import ENTRIES
from viewer.window.actions import Actions
from viewer.window.busy_bar import BusyBar
from viewer.window.choices import Choices, TurnMode
from viewer.window.cut_link import CutLink
from viewer.window.document_signals import DocumentSignals
from viewer.window.file_work import FileWork
from viewer.window.height_strip import HeightStrip
from viewer.window.help_pages import (
    show_about,
    show_how_it_measures,
    show_how_it_mends,
    show_mouse,
)
from viewer.window.icons import icon
from viewer.window.job_keeper import JobKeeper
from viewer.window.legend_strip import LegendStrip
from viewer.window.lens_bar import LensBar
from viewer.window.mend_work import MendWork
from viewer.window.notice_bar import NoticeBar
from viewer.window.panels.check_panel import CheckPanel
from viewer.window.panels.hand_over_panel import HandOverPanel
from viewer.window.panels.mark_panel import MarkPanel
from viewer.window.panels.numbers_panel import NumbersPanel
from viewer.window.panels.try_panel import TryPanel
from viewer.window.panels.turn_panel import TurnPanel
from viewer.window.part_view import PartView
from viewer.window.prompts import Prompts
from viewer.window.recent_files import recent_files, remember_theme, theme_choice
from viewer.window.rescale import read_in_unit
from viewer.window.scene_link import SceneLink
from viewer.window.side_panels import ColumnScroll, StageColumn
from viewer.window.stages import (
    BUTTONS,
    STAND_BUTTONS,
    STAND_ON,
    WHAT_TO_DO,
    Stage,
    stage_states,
)
from viewer.window.theme import (
    DARK_NAME,
    FOLLOW,
    LIGHT_NAME,
    apply_theme,
    chosen_theme,
    scene_theme,
    style_sheet,
)
from viewer.window.tool_box import ToolBox
from viewer.window.verbs import camera_verbs, choice_verbs, document_verbs, plain

LEAST_SIDE_PX, MOST_SIDE_PX = 206, 300
# How each stage looks at first: its lens, and whether supports are shown. A change is remembered.
STARTING_LOOK = {
    Stage.CHECK: (Lens.CLASSES, False),
    Stage.MARK: (Lens.CLASSES, False),
    Stage.TURN: (Lens.TOUCH, True),
    Stage.TRY: (Lens.TOUCH, True),
    Stage.HAND_OVER: (Lens.CLASSES, False),
}


class MainWindow(QMainWindow):
    """Wires document, live numbers, scene and panels; holds no truth of its own."""

    def __init__(
        self, document: Document, jobs: Jobs, live_measures: LiveMeasures, live_check: LiveCheck
    ) -> None:
        super().__init__()
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.document, self.jobs = document, jobs
        self.live_measures, self.live_check = live_measures, live_check
        self.live_deviation = LiveDeviation(document, jobs)
        self.signals = DocumentSignals(document, self)
        self.choices = Choices(self)
        self.prompts = Prompts(self)
        self._theme_choice, self._theme = theme_choice(), chosen_theme(theme_choice())
        apply_theme(self._theme)
        self._looks = dict(STARTING_LOOK)
        self.view = PartView(scene_theme(self._theme))
        self.tools = ToolBox(self.view, document, self.signals, self.choices, jobs)
        self.files = FileWork(document, jobs, self.view.scene.camera_state)
        self.mending = MendWork(document, self.signals, jobs)
        self.keeper = JobKeeper(self)
        self.actions = Actions(document, self.signals, self.choices, self._verbs(), self)
        self._build()
        lives = (live_measures, live_check, self.live_deviation)
        self._link = SceneLink(self.view, document, self.signals, self.choices, *lives)
        self._cut_link = CutLink(self.strip, self.view, self.signals, live_measures)
        self._connect()
        self._show_theme()
        self._stage_changed(self.choices.stage)
        self._document_changed(Changed.EVERYTHING)
        self.resize(1280, 800)
        self.view.interactor.setFocus()

    # --- for app.py
    def open_demo(self) -> None:
        """Make and open the demo job."""
        self.files.open_demo()

    def open_path(self, path: Path) -> None:
        """Open a mesh or a job."""
        self.files.open_file(Path(path))

    def open_last_job(self) -> None:
        """Open what was open last, or the demo the first time."""
        listed = recent_files()
        if listed:
            self.open_path(listed[0])
        else:
            self.open_demo()

    # --- building
    def _verbs(self) -> dict:
        verbs = document_verbs(self.document) | choice_verbs(self.choices)
        verbs |= camera_verbs(self.view) | self.keeper.verbs()
        verbs |= {
            "quit": plain(self.close),
            "find_action": plain(self._find_action),
            "how_it_measures": plain(lambda: show_how_it_measures(self)),
            "how_it_mends": plain(lambda: show_how_it_mends(self)),
            "mouse": plain(lambda: show_mouse(self)),
            "about": plain(lambda: show_about(self)),
            "full_screen": self._set_full_screen,
            "look_to_mend": plain(self._look_to_mend),
            "mend_safely": plain(self._mend_safely),
        }
        for choice in (FOLLOW, LIGHT_NAME, DARK_NAME):
            verbs[f"theme_{choice}"] = plain(lambda choice=choice: self.choose_theme(choice))
        return verbs

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
            Stage.MARK: MarkPanel(*both, self.choices, actions),
            Stage.TURN: TurnPanel(*both, actions),
            Stage.TRY: TryPanel(*both, self.live_measures, self.live_check),
            Stage.HAND_OVER: HandOverPanel(*both, self.choices, actions),
        }
        self.stage_column = StageColumn(self.panels)
        self.numbers = NumbersPanel(self.live_measures)
        self.notice, self.legend, self.busy = NoticeBar(), LegendStrip(), BusyBar()
        self.strip = HeightStrip()
        right = QFrame()
        right.setProperty("edge", "right")
        right_layout = QVBoxLayout(right)
        right_layout.setContentsMargins(0, 0, 0, 0)
        right_layout.addWidget(ColumnScroll(self.numbers))
        self._sides = (self.stage_column, right)
        middle = QVBoxLayout()
        middle.setContentsMargins(0, 0, 0, 0)
        middle.setSpacing(0)
        for piece in (LensBar(actions), self.notice, self.view, self.legend, self.strip):
            middle.addWidget(piece, 1 if piece is self.view else 0)
        whole = QWidget()
        layout = QHBoxLayout(whole)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.stage_column)
        layout.addLayout(middle, 1)
        layout.addWidget(right)
        self.setCentralWidget(whole)
        self.statusBar().setSizeGripEnabled(False)
        self.statusBar().addPermanentWidget(self.busy)
        self._buttons = QLabel()
        self._buttons.setProperty("quiet", True)
        self._buttons.setContentsMargins(10, 0, 0, 0)
        self.statusBar().addWidget(self._buttons)

    def _connect(self) -> None:
        self.signals.changed.connect(self._document_changed)
        self.stage_column.stages.chosen.connect(self.choices.set_stage)
        self.choices.stage_changed.connect(self._stage_changed)
        self.choices.turn_mode_changed.connect(self._show_instruction)
        self.choices.lens_changed.connect(self._look_changed)
        self.choices.supports_changed.connect(self._look_changed)
        self.choices.strip_changed.connect(self._show_strip)
        self.panels[Stage.CHECK].fault_chosen.connect(self._show_fault)
        self.choices.handed_over_changed.connect(self._show_states)
        self.live_measures.measured.connect(self._show_states)
        self.live_measures.measured.connect(self.strip.show_measures)
        self.live_measures.failed.connect(self.notice.say)
        self.live_deviation.found.connect(self._show_legend)
        self.live_deviation.failed.connect(self.notice.say)
        self.live_check.checked.connect(self._show_states)
        self.live_check.checked.connect(self.strip.show_faults)
        self.tools.hint.connect(self._show_hint)
        self.tools.step_ended.connect(self.actions.refresh)
        for work in (self.files, self.mending):
            work.started.connect(self.busy.follow)
            work.progressed.connect(self.busy.report)
            work.ended.connect(self.busy.finish)
            work.failed.connect(self.notice.say)
        QGuiApplication.styleHints().colorSchemeChanged.connect(self._desktop_changed)

    # --- the document and the choices are shown
    def _document_changed(self, what: Changed) -> None:
        part = self.document.state.part
        name = "No part" if part is None else part.name
        path = self.document.job_path
        self.setWindowTitle(f"{name if path is None else path.name}[*] – Showside")
        self.setWindowModified(self.document.modified)
        if what & Changed.SETTINGS:
            self._show_legend()
        self._show_states()

    def _show_states(self, *_: object) -> None:
        state = self.document.state
        measures = self.live_measures.latest
        states = stage_states(state, measures, self.live_check.latest, self.choices.handed_over)
        self.stage_column.stages.show_states(states)

    def _stage_changed(self, stage: Stage) -> None:
        self.stage_column.show_stage(stage)
        self.panels[Stage.CHECK].put_away()
        self._show_instruction()
        self.choices.set_look(*self._looks[stage])
        self._show_legend()

    def _show_instruction(self, *_: object) -> None:
        stage = self.choices.stage
        standing = stage is Stage.TURN and self.choices.turn_mode is TurnMode.STAND
        self.stage_column.instruction.setText(STAND_ON if standing else WHAT_TO_DO[stage])
        self._buttons.setText(STAND_BUTTONS if standing else BUTTONS[stage])

    def _look_changed(self, *_: object) -> None:
        self._looks[self.choices.stage] = (self.choices.lens, self.choices.supports)
        self._show_legend()

    def _show_strip(self, shown: bool) -> None:
        self.strip.setVisible(shown)
        if not shown:
            self.strip.put_away()

    def _show_fault(self, place: Sight | None) -> None:
        self.view.scene.preview_faces(None if place is None else place.faces)
        self.view.redraw()
        if place is not None:
            self.choices.set_lens(Lens.FAULTS)
            self.view.fly_to(place.centre_mm, place.radius_mm, place.normal)

    def _show_legend(self, *_: object) -> None:
        lens, known = self.choices.lens, self.live_deviation
        known.set_wanted(lens is Lens.DEVIATION)
        key = legend(lens, self.document.state.settings)
        if lens is Lens.DEVIATION:
            key = replace(key, note=deviation_note(known.latest, known.mended))
        self.legend.show_legend(key)

    def _show_hint(self, sentence: str) -> None:
        if sentence:
            self.statusBar().showMessage(sentence)
        else:
            self.statusBar().clearMessage()

    def _look_to_mend(self) -> None:
        self.choices.set_stage(Stage.CHECK)
        self.mending.look()

    def _mend_safely(self) -> None:
        self.choices.set_stage(Stage.CHECK)
        self.mending.take_safe()

    def _rescale(self, unit: str) -> None:
        self.document.replace_part(read_in_unit(self.document.state, unit), "Change the unit")

    # --- theme
    def choose_theme(self, choice: str) -> None:
        """View > Theme: "desktop", "light" or "dark"."""
        self._theme_choice = choice
        remember_theme(choice)
        self._show_theme()

    def _desktop_changed(self) -> None:
        if self._theme_choice == FOLLOW:
            self._show_theme()

    def _show_theme(self) -> None:
        self._theme = theme = chosen_theme(self._theme_choice)
        apply_theme(theme)
        self.setStyleSheet(style_sheet(theme))
        self.stage_column.stages.show_theme(theme)
        self.legend.show_theme(theme)
        self.strip.show_theme(theme)
        self.view.scene.set_theme(scene_theme(theme))
        self.view.redraw()
        for entry in ENTRIES:
            if entry.icon:
                self.actions.by_key[entry.key].setIcon(icon(entry.icon, theme.text, theme.edge))
        choice = self._theme_choice if self._theme_choice in (LIGHT_NAME, DARK_NAME) else FOLLOW
        self.actions.by_key[f"theme_{choice}"].setChecked(True)

    # --- the rest of the window
    def _find_action(self) -> None:
        self.finder.open_over(self)

    def _set_full_screen(self, wanted: bool) -> None:
        if wanted:
            self.showFullScreen()
        else:
            self.showNormal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape takes back the drag under way, closes the cut, or stops the long job."""
        if event.key() == Qt.Key.Key_Escape and (
            self.tools.cancel() or self.strip.put_away() or self.busy.cancel()
        ):
            return
        super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Each side takes a sixth, so that the scene keeps two thirds of the width."""
        side_px = min(max(self.width() // 6, LEAST_SIDE_PX), MOST_SIDE_PX)
        for side in self._sides:
            side.setFixedWidth(side_px)
        super().resizeEvent(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files only."""
        if any(url.isLocalFile() for url in event.mimeData().urls()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the first file dropped."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        if paths:
            event.acceptProposedAction()
            self.keeper.open_after_asking(paths[0])

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes, then let go of threads, listeners and VTK in this order."""
        if not self.keeper.may_close():
            event.ignore()
            return
        self.files.close()
        self.mending.close()
        self.tools.close()
        self.live_measures.close()
        self.live_check.close()
        self.live_deviation.close()
        self.jobs.close()
        self.signals.close()
        self.view.close_scene()
        super().closeEvent(event)
