"""Every direction: fills the pane from the live search and turns the part where the map says.

It ranks what is known anew whenever the table, a slider or a limit changes, which is quick; the
search itself runs in `LiveSearch`.
"""

from functools import partial
from typing import Protocol

import numpy as np
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QAction

from viewer.document.document import Changed, Document
from viewer.geometry.hard_limits import limits_left
from viewer.geometry.pose import Pose
from viewer.geometry.ranking import RankedPose, Ranking, rank_directions
from viewer.geometry.sphere_directions import angles_deg
from viewer.live.jobs import Jobs
from viewer.live.kernel_warm_up import BEGINS_LATER
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_search import LiveSearch
from viewer.window.choices import Choices
from viewer.window.direction_pane import DirectionPane
from viewer.window.document_signals import DocumentSignals
from viewer.window.map_drawing import MapMarks, MapPicture
from viewer.window.map_layers import clean_directions, cut_shares, map_layer
from viewer.window.part_view import PartView
from viewer.window.picked_results import PickedResults
from viewer.window.quantities import number_text
from viewer.window.result_words import bound_words, direction_words, limits_words, sure_words
from viewer.window.results_box import Result
from viewer.window.search_choices import SearchChoices
from viewer.window.searched_spin import pose_walked
from viewer.window.spinning import Spinning
from viewer.window.stages import Stage
from viewer.window.verbs import Verbs, plain
from viewer.words import say

MARK_REACH_DEG = 3.0  # a click so near to a marked direction means the mark
SAME_DEG = 0.01


class SearchingWindow(Protocol):
    """What searching needs of the window."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    view: PartView
    jobs: Jobs
    live_measures: LiveMeasures


class Searching(QObject):
    """shown_changed : the pane takes its place, or gives it back
    step_ended : a walk over the map became one step, or none
    failed : a sentence for the user
    """

    shown_changed = Signal()
    step_ended = Signal()
    failed = Signal(str)

    def __init__(self, window: SearchingWindow) -> None:
        super().__init__(window)
        self._window, self._document = window, window.document
        self.choices = SearchChoices(window.document, self)
        self.live = LiveSearch(window.document, window.jobs, window.live_measures)
        self.pane: DirectionPane | None = None
        self.ranking: Ranking | None = None
        self.offered: tuple[RankedPose, ...] = ()
        self._shown, self._under = False, None
        self.spinning = Spinning(window, self.choices, self.live, self)
        self.picked = PickedResults(window, lambda: self.offered, self._pose_at, self)

    # --- building
    def verbs(self) -> Verbs:
        """What the actions of the search do."""
        return {
            "search_directions": plain(self.search),
            "direction_map": self._open,
            "next_result": plain(partial(self._step, 1)),
            "previous_result": plain(partial(self._step, -1)),
            "compare_results": plain(self.picked.compare),
            "keep_results": plain(self._keep),
            "keep_spin": self.choices.set_keep_spin,
            "direction_globe": self._show_globe_too,
        } | self.spinning.verbs()

    def make_pane(self, actions: dict[str, QAction]) -> DirectionPane:
        """The pane, which the window gives its place; once."""
        self.pane = pane = DirectionPane(actions, self.choices)
        pane.stop_button.clicked.connect(lambda: self.live.stop())
        pane.map.hovered.connect(self._hover)
        pane.map.chosen.connect(self._choose)
        pane.map.walk_began.connect(self._begin_walk)
        pane.map.walked.connect(self._walk)
        pane.map.walk_ended.connect(partial(self._end_walk, self._document.end_gesture))
        pane.map.walk_cancelled.connect(partial(self._end_walk, self._document.cancel_gesture))
        pane.results.gone_to.connect(self.go_to)
        pane.results.kept.connect(self.picked.keep)
        pane.results.ticked.connect(self.picked.tick)
        pane.results.compared.connect(self.picked.compare)
        window = self._window
        for signal in (
            window.choices.stage_changed,
            window.choices.presenting_changed,
            window.choices.comparing_changed,
            self.choices.open_changed,
        ):
            signal.connect(self._show_place)
        self.choices.open_changed.connect(
            lambda: actions["direction_map"].setChecked(self.choices.open)
        )
        self.choices.spin_changed.connect(
            lambda: actions["keep_spin"].setChecked(self.choices.keep_spin)
        )
        self.choices.globe_changed.connect(
            lambda: actions["direction_globe"].setChecked(self.choices.globe)
        )
        self.choices.globe_changed.connect(self._show_picture)
        self.choices.aims_changed.connect(self._aims_changed)
        self.choices.colouring_changed.connect(self._show_picture)
        self.picked.changed.connect(self._show_results)
        self.picked.failed.connect(self.failed)
        self.spinning.failed.connect(self.failed)
        pane.spin_chosen.connect(self.spinning.choose)
        self.live.told.connect(self._table_changed)
        self.live.closer_told.connect(self._show_results)
        self.live.progressed.connect(self._show_progress)
        self.live.failed.connect(self.failed)
        window.signals.changed.connect(self._document_changed)
        self._show_place()
        self._aims_changed()
        return pane

    def close(self) -> None:
        """Stop searching."""
        self.choices.close()
        self.live.close()

    # --- the pane
    @property
    def shown(self) -> bool:
        """Whether the pane takes the place of the height strip."""
        return self._shown

    def _open(self, on: bool) -> None:
        if on:
            self._window.choices.set_stage(Stage.TURN)
            self._window.choices.set_comparing(False)
        self.choices.set_open(on)

    def _show_place(self, *_: object) -> None:
        choices, has_part = self._window.choices, self._document.state.part is not None
        alone = choices.presenting or choices.comparing
        shown = self.choices.open and choices.stage is Stage.TURN and has_part and not alone
        if shown != self._shown:
            self._shown = shown
            self._hover(None)
            self.pane.setVisible(shown)
            self.shown_changed.emit()
            self._window.view.scene.show_globe(None)
            if shown:
                self._show_all()

    def _show_globe_too(self, on: bool) -> None:
        if on:
            self._open(True)
        self.choices.set_globe(on)

    def put_away(self) -> bool:
        """Escape: break off a walk, stop the search, or close the map; False if there is none."""
        if self.pane.map.put_away() or self.live.stop():
            return True
        was_shown = self._shown
        if was_shown:
            self.choices.set_open(False)
        return was_shown

    def search(self) -> None:
        """Open the map and search every direction."""
        if self._document.state.part is not None:
            self._open(True)
            self.live.search()

    # --- what changed
    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self.spinning.forget()
            self.picked.clear()
            self._show_place()
        if what & (Changed.POSE | Changed.KEPT | Changed.PART):
            self._hover(None)
            self._show_results()

    def _aims_changed(self) -> None:
        self.live.set_aims(self.choices.counted, self.choices.limits)
        self._table_changed()

    def _table_changed(self) -> None:
        """Rank what is known."""
        table, weights, limits = self.live.table, self.choices.counted, self.choices.limits
        self.ranking, self.offered = None, ()
        if table is not None:
            self.ranking = rank_directions(table, weights, limits)
            self.offered = self.ranking.poses
            if self.ranking.in_the_way:  # rather something to look at than nothing
                left = limits_left(table, limits)
                self.offered = rank_directions(table, weights, left).poses
        self._show_all()

    def _show_all(self) -> None:
        if not self._shown:
            return
        self._show_picture()
        self._show_results()
        fraction = 0.0 if self.live.table is None else self.live.table.fraction
        self._show_progress(fraction, "")

    def _show_progress(self, fraction: float, doing: str) -> None:
        self.pane.show_running(self.live.running, say(doing) if doing else "", fraction)

    def _show_picture(self, *_: object) -> None:
        ranking, view = self.ranking, self._window.view
        if ranking is None:
            self.pane.map.show_picture(None)
            view.scene.show_globe(None)
            return
        layer = map_layer(self.choices.colouring, ranking)
        globe = self.choices.globe and self._shown
        view.scene.show_globe(layer.colours(layer.values) if globe else None)
        view.redraw()
        picture = MapPicture(layer, clean_directions(ranking), cut_shares(ranking))
        self.pane.map.show_picture(picture, faded=self.live.outdated)

    def _show_results(self, *_: object) -> None:
        """The list, the marks on the map, and the numbers of the present direction."""
        if not self._shown:
            return
        ranking, state = self.ranking, self._document.state
        poses = self.offered
        results = [self._result(place, pose) for place, pose in enumerate(poses)]
        bound = "" if ranking is None else bound_words(self.live.closer.bound, ranking.table)
        self.pane.results.show_results(results, self._state_words(), bound)
        flats = np.zeros((0, 3))
        if ranking is not None:
            flats = ranking.table.directions[ranking.table.flat_standing]
        self.pane.map.show_marks(
            MapMarks(
                np.array([pose.up for pose in poses]).reshape(-1, 3),
                flats,
                np.array([one.pose.up for one in state.kept_poses]).reshape(-1, 3),
                np.array(state.pose.up),
            )
        )
        words = "" if state.part is None else self.spinning.shown().words(state.pose)
        self.pane.show_spin(words)
        self._show_numbers()

    def _result(self, place: int, pose: RankedPose) -> Result:
        lines = [
            say("{place}. Score {score:.0f}", place=place + 1, score=pose.score)
            + (f" · {say('stands flat')}" if pose.flat_standing else ""),
            say(pose.why),
            sure_words(self.live.closer.sure.get(pose.index), self.ranking.table),
        ]
        state = self._document.state
        kept = any(_same(pose.up, one.pose.up) for one in state.kept_poses)
        return Result("\n".join(lines), _same(pose.up, state.pose.up), kept, self.picked.has(pose))

    def _state_words(self) -> str:
        if self.ranking is None:
            if not self.live.running:
                return say("Press Search to look everywhere (Shift+S).")
            at_hand = self._window.live_measures.kernels_at_hand
            return say("Searching …") if at_hand else say(BEGINS_LATER)
        words = limits_words(self.ranking)
        if self.live.outdated:
            return say("Older than the marks or the process.") + " " + words
        return words

    # --- the map
    def _aimed_at(self, up: np.ndarray) -> np.ndarray:
        """The direction that a place on the map means: a mark's near by, or the nearest known."""
        if self.ranking is None:
            return up
        table, kept = self.ranking.table, self._document.state.kept_poses
        marked = [
            np.array([pose.up for pose in self.offered]).reshape(-1, 3),
            table.directions[table.flat_standing],
            np.array([one.pose.up for one in kept]).reshape(-1, 3),
        ]
        for ups in marked:
            angles = angles_deg(ups, up)
            if len(ups) and angles.min() <= MARK_REACH_DEG:
                return ups[int(angles.argmin())]
        return table.directions[table.nearest(up)]

    def _pose_at(self, up: np.ndarray) -> Pose:
        """As it was kept, or with the spin that the user wants."""
        state = self._document.state
        for one in state.kept_poses:
            if _same(up, one.pose.up):
                return one.pose
        return self.spinning.pose_towards(up)

    def _hover(self, up: np.ndarray | None) -> None:
        """Numbers of what is under the pointer, and a ghost of the part lying so."""
        if up is None and self._under is None:
            return
        self._under = (
            None if up is None or self._document.state.part is None else self._aimed_at(up)
        )
        matrix = None
        if self._under is not None:
            matrix = self.spinning.corners().matrix(self._pose_at(self._under))
        self._window.view.scene.show_ghost(matrix)
        self._window.view.redraw()
        self._show_numbers()

    def _show_numbers(self) -> None:
        ranking, under = self.ranking, self._under
        if ranking is None:
            self.pane.numbers.setText("")
            return
        up = np.array(self._document.state.pose.up) if under is None else under
        row = ranking.table.nearest(up)
        words = direction_words(ranking, row)
        away = float(angles_deg(ranking.table.directions[row][None], up)[0])
        if under is None and away > SAME_DEG:
            words = say("{angle}° from here: {words}", angle=number_text(away), words=words)
        self.pane.numbers.setText(words)
        self.pane.map.setAccessibleDescription(words)  # what the pointer or the cross is on

    def _choose(self, up: np.ndarray) -> None:
        if self._document.state.part is not None:
            pose = self._pose_at(self._aimed_at(up))
            self._document.turn(pose, say("Turn to a place on the map"))

    def _begin_walk(self) -> None:
        self._document.begin_gesture(say("Walk over the direction map"))

    def _walk(self, up: np.ndarray) -> None:
        if self._document.state.part is not None:
            pose = pose_walked(up, self._document.state.pose, self.choices.keep_spin)
            self._document.turn(pose)

    def _end_walk(self, finish) -> None:
        finish()
        self.step_ended.emit()

    # --- results
    def go_to(self, place: int) -> None:
        """Lay the part like a result."""
        if 0 <= place < len(self.offered):
            pose = self._pose_at(np.array(self.offered[place].up))
            self._document.turn(pose, say("Go to result {place}", place=place + 1))

    def _step(self, by: int) -> None:
        """The next or previous result, round and round."""
        poses = self.offered
        if not poses:
            self.failed.emit(
                say("There are no results yet: search every direction first (Shift+S).")
            )
            return
        up = self._document.state.pose.up
        here = next((k for k, pose in enumerate(poses) if _same(pose.up, up)), None)
        if here is None:
            here = -1 if by > 0 else len(poses)
        self._open(True)
        self.go_to((here + by) % len(poses))

    def _keep(self) -> None:
        places = self.pane.results.to_keep()
        if places:
            self.picked.keep(places)
        else:
            self.failed.emit(say("Choose a result that is not kept yet, or tick several."))


def _same(up: tuple[float, float, float], other: tuple[float, float, float]) -> bool:
    return float(angles_deg(np.array([up]), np.array(other))[0]) < SAME_DEG
