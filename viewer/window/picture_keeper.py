"""Pictures and turntables as the user meets them: the name proposed, progress, where it went."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QLabel, QStatusBar

from viewer.document.document import Document
from viewer.document.kept_poses import place_of
from viewer.live.live_check import LiveCheck
from viewer.live.live_deviation import LiveDeviation
from viewer.live.live_measures import LiveMeasures
from viewer.scene.lenses import Lens
from viewer.scene.shots import Shot, ShotPane
from viewer.scene.side_by_side import Caption
from viewer.window.caption_bar import key_numbers, pose_words
from viewer.window.choices import Choices
from viewer.window.comparing import Comparing
from viewer.window.difference_link import DifferenceLink
from viewer.window.job_keeper import SHOWN_FOR_MS, JobKeeper, file_words, plain_name
from viewer.window.legend_link import LegendLink
from viewer.window.part_view import PartView
from viewer.window.picture_work import PictureWork
from viewer.window.prompts import Prompts
from viewer.window.shop_desk import ShopDesk
from viewer.window.verbs import Verbs, plain
from viewer.words import say


class PictureWindow(Protocol):
    """What the keeper needs of the window."""

    document: Document
    choices: Choices
    view: PartView
    live_measures: LiveMeasures
    live_check: LiveCheck
    live_deviation: LiveDeviation
    comparing: Comparing
    difference: DifferenceLink
    legends: LegendLink
    keeper: JobKeeper
    picturing: PictureWork
    shop: ShopDesk
    prompts: Prompts

    def statusBar(self) -> QStatusBar:
        """Where short messages go."""


class PictureKeeper(QObject):
    """Makes a shot of what is on the screen, asks where it goes, and says how far it is."""

    def __init__(self, window: PictureWindow) -> None:
        super().__init__(window)
        self._window = window
        self._words: QLabel | None = None
        work = window.picturing
        work.progressed.connect(self._tell)
        work.saved.connect(self._saved)
        window.choices.presenting_changed.connect(self.hush)

    def verbs(self) -> Verbs:
        """What the menu File > Pictures does."""
        return {
            "save_picture": plain(self._save_picture),
            "save_turntable": plain(self._save_turntable),
        }

    def _save_picture(self) -> None:
        prompts, work = self._window.prompts, self._window.picturing
        self._save(prompts.picture_to_save, ".png", work.save_still)

    def _save_turntable(self) -> None:
        prompts, work = self._window.prompts, self._window.picturing
        self._save(prompts.turntable_to_save, ".gif", work.save_turntable)

    def _save(
        self,
        ask: Callable[[Path], Path | None],
        suffix: str,
        save: Callable[[Shot, Path], None],
    ) -> None:
        shot = self.shot()  # what was on the screen when the key was pressed
        path = ask(self._window.keeper.folder() / f"{self.proposed_name()}{suffix}")
        if path is not None:
            save(shot, path)

    def proposed_name(self) -> str:
        """Part, pose and lens, as they can stand in a file name."""
        window, state = self._window, self._window.document.state
        place = place_of(state.kept_poses, state.pose)
        pose = "compared" if window.comparing.on else "pose"
        if place is not None and not window.comparing.on:
            pose = file_words(state.kept_poses[place].name) or pose
        return f"{plain_name(state)}-{pose}-{file_words(window.choices.lens.title)}"

    # --- the shot
    def shot(self) -> Shot:
        """What is on the screen, as a value."""
        window, state = self._window, self._window.document.state
        part, choices, scene = state.part, window.choices, window.view.scene
        deviation = window.live_deviation.latest if choices.lens is Lens.DEVIATION else None
        width, height = window.view.size_px
        return Shot(
            mesh=part.file_mesh,
            face_classes=state.face_classes,
            settings=state.settings,
            lens=choices.lens,
            legend=window.legends.legend(),
            panes=self._panes(),
            eye=scene.camera_state(),
            aspect=width / height,
            theme=window.view.theme,
            size_px=choices.picture_px,
            supports=choices.supports,
            pieces=None if part.base is None else part.mesh,
            base_face=part.base_face,
            faults=window.live_check.latest if choices.lens is Lens.FAULTS else None,
            deviation_mm=None if deviation is None else deviation.new.face_mm,
            cut_mm=None if window.comparing.on else scene.cut_height_mm,
            print_colour=choices.print_colour,
            platform_mm=scene.platform_mm,
        )

    def _panes(self) -> tuple[ShotPane, ...]:
        window, state = self._window, self._window.document.state
        if window.comparing.on:
            return window.comparing.shot_panes()
        measures = window.live_measures.latest
        numbers = tuple(f"{title}: {value}" for title, value in key_numbers(state, measures))
        found = window.difference.latest if window.choices.lens is Lens.DIFFERENCE else None
        return (
            ShotPane(
                Caption(f"{state.part.name}   {pose_words(state)}", numbers),
                window.view.scene.matrix,
                measures,
                None if found is None else found.face_mm,
                window.shop.scene.look(window.shop.scene.latest),
            ),
        )

    # --- how far it is; in front of a client the status bar is hidden
    def _tell(self, fraction: float, doing: str) -> None:
        if not self._window.choices.presenting:
            return
        if self._words is None:
            self._words = QLabel(self._window.view)
            self._words.setProperty("caption_role", "progress")
            self._words.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self._words.setText(
            say("{doing}, {fraction:.0%}. Escape stops it.", doing=doing, fraction=fraction)
        )
        self._words.adjustSize()
        self._words.move(self._window.view.width() - self._words.width() - 12, 12)
        self._words.show()

    def hush(self, *_: object) -> None:
        """Nothing is drawn any more."""
        if self._words is not None:
            self._words.hide()

    def _saved(self, path: Path) -> None:
        self._window.statusBar().showMessage(say("Written: {path}", path=path), SHOWN_FOR_MS)
