"""Poses side by side: follows the choice to compare, fills panes, captions and table.

Off, it costs nothing: no pane is in the window, and no pose is measured for it.
"""

from typing import Protocol

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.document.state import KeptPose, State
from viewer.geometry.pose import Pose
from viewer.geometry.pose_measures import PoseMeasures
from viewer.live.live_check import LiveCheck
from viewer.live.live_compare import LiveCompare
from viewer.live.live_deviation import LiveDeviation
from viewer.live.live_measures import MEASURED, LiveMeasures
from viewer.live.live_prices import Priced
from viewer.scene.lenses import Lens
from viewer.scene.machine_view import MachineLook
from viewer.scene.shots import ShotPane
from viewer.scene.side_by_side import MOST_PANES, Caption
from viewer.window.caption_bar import key_columns, key_numbers
from viewer.window.choices import Choices
from viewer.window.compare_box import CompareBox
from viewer.window.compare_prices import price_rows
from viewer.window.compare_rows import CompareRow, compare_rows
from viewer.window.compared_poses import (
    LEAST_PANES,
    Moving,
    Source,
    first_choice,
    name_of_source,
    one_more,
    pose_of_source,
    sources,
    still_there,
    with_results,
)
from viewer.window.document_signals import DocumentSignals
from viewer.window.pane_link import PaneLink
from viewer.window.part_view import PartView
from viewer.window.shop_desk import ShopDesk
from viewer.window.shop_rows import price_texts

Posed = list[tuple[Pose, PoseMeasures | None]]


class ComparingWindow(Protocol):
    """What comparing needs of the window."""

    document: Document
    signals: DocumentSignals
    choices: Choices
    view: PartView
    live_measures: LiveMeasures
    live_compare: LiveCompare
    live_check: LiveCheck
    live_deviation: LiveDeviation
    shop: ShopDesk
    compare_box: CompareBox


class Comparing(QObject):
    """changed : other poses, or other numbers of theirs, stand side by side."""

    changed = Signal()

    def __init__(self, window: ComparingWindow) -> None:
        super().__init__(window)
        self._window, self._document = window, window.document
        self._link: PaneLink | None = None
        self.chosen: list[Source] = []
        self._results: tuple[KeptPose, ...] = ()
        self._present_known = True  # whether the latest numbers are of the present pose
        choices, box = window.choices, window.compare_box
        choices.comparing_changed.connect(self._switch)
        choices.lens_changed.connect(self._look_changed)
        choices.supports_changed.connect(self._look_changed)
        choices.print_colour_changed.connect(self._look_changed)
        choices.presenting_changed.connect(self._show_size)
        window.signals.changed.connect(self._document_changed)
        window.live_measures.measured.connect(self._measured)
        window.live_compare.found.connect(self._show_poses)
        window.shop.prices.found.connect(self._show_prices)
        choices.volumes_changed.connect(self._show_machines)
        window.live_check.checked.connect(self._show_file)
        window.live_deviation.found.connect(self._show_file)
        box.chosen.connect(self._choose)
        box.more.connect(self._more)
        box.fewer.connect(self._fewer)

    @property
    def _state(self) -> State:
        """The job as if the results that are compared were kept."""
        return with_results(self._document.state, self._results)

    @property
    def on(self) -> bool:
        """Whether poses stand side by side."""
        return self._link is not None

    def put_away(self) -> bool:
        """Escape: show the one pose again; True if there were several."""
        was_on = self.on
        self._window.choices.set_comparing(False)
        return was_on

    def posed(self) -> Posed:
        """Pose and numbers of each pane; None where they are not known yet.

        The numbers of the present pose are those of the panel: while it turns, older ones.
        """
        state, window = self._state, self._window
        found = []
        for source in self.chosen:
            pose = pose_of_source(state, source)
            present = source is Moving.PRESENT
            known = window.live_measures.latest if present else window.live_compare.of(pose)
            found.append((pose, known))
        return found

    def _drawn(self) -> Posed:
        """The same for the scenes, which show nothing that was measured in another pose."""
        return [
            (pose, None if source is Moving.PRESENT and not self._present_known else measures)
            for source, (pose, measures) in zip(self.chosen, self.posed(), strict=True)
        ]

    def captions(self) -> list[Caption]:
        """What stands over each pane."""
        state = self._state
        return [
            Caption(
                f"{place}  {name_of_source(state, source)}",
                (
                    *(f"{title}: {value}" for title, value in key_numbers(state, measures)),
                    *([] if priced is None else price_texts(priced.numbers)[:1]),
                ),
            )
            for place, (source, (_, measures), priced) in enumerate(
                zip(self.chosen, self.posed(), self._priced(), strict=True), 1
            )
        ]

    def rows(self) -> tuple[CompareRow, ...]:
        """The table as it is shown."""
        measures = [measures for _, measures in self.posed()]
        prices = [None if one is None else one.numbers for one in self._priced()]
        return (*price_rows(prices), *compare_rows(measures, self._state.face_classes))

    def _priced(self) -> list[Priced | None]:
        """What the shop says of each pane's pose; None where it is not known yet."""
        return [self._window.shop.prices.of(pose) for pose, _ in self.posed()]

    def _machine_looks(self) -> list[MachineLook | None]:
        link = self._window.shop.scene
        return [link.look(None if one is None else one.machine) for one in self._priced()]

    def shot_panes(self) -> tuple[ShotPane, ...]:
        """The panes as they go into a picture."""
        state, looking = self._state, self._window.choices.lens is Lens.DIFFERENCE
        panes = []
        for place, (caption, (_, measures)) in enumerate(
            zip(self.captions(), self.posed(), strict=True)
        ):
            found = self._link.difference(state, place) if looking else None
            matrix = self._window.view.panes.scenes[place].matrix
            panes.append(
                ShotPane(
                    caption,
                    matrix,
                    measures,
                    None if found is None else found.face_mm,
                    self._machine_looks()[place],
                )
            )
        return tuple(panes)

    # --- switching
    def compare_results(self, results: tuple[KeptPose, ...]) -> None:
        """Show results of the search side by side, a single one beside the present pose."""
        self._window.choices.set_comparing(False)
        self._results = results[:MOST_PANES]
        self._window.choices.set_comparing(True)

    def _switch(self, on: bool) -> None:
        window = self._window
        if not on:
            self._results = ()
        self.chosen = self._first_choice() if on else []
        if on and len(self.chosen) < LEAST_PANES:
            window.choices.set_comparing(False)
            return
        self._make_panes()
        window.compare_box.setVisible(on)
        self._show_size()
        self.changed.emit()

    def _first_choice(self) -> list[Source]:
        chosen: list[Source] = [one.pose for one in self._results]
        if len(chosen) == 1 and chosen[0] != self._state.pose:
            chosen.insert(0, Moving.PRESENT)
        return chosen or first_choice(self._state)

    def _make_panes(self) -> None:
        """As many panes as poses are chosen, filled; none when not comparing."""
        view, state = self._window.view, self._state
        panes = view.show_panes(len(self.chosen))
        self._link = None if panes is None else PaneLink(panes, view.scene.platform_mm)
        self._ask()
        if self._link is not None:
            self._link.show_part(state)
            self._look_changed()
            self._show_file()
            self._show_poses()
        view.fit_again()
        view.redraw()

    def _ask(self) -> None:
        state = self._state
        self._window.live_compare.set_wanted(
            tuple(pose_of_source(state, s) for s in self.chosen if s is not Moving.PRESENT)
        )
        if not self.chosen:
            self._window.shop.prices.set_wanted({})

    # --- what is chosen
    def _choose(self, place: int, number: int) -> None:
        self.chosen[place] = sources(self._state)[number]
        self._poses_changed()

    def _more(self) -> None:
        self.chosen = one_more(self._state, self.chosen)
        self._make_panes()
        self.changed.emit()

    def _fewer(self) -> None:
        if len(self.chosen) > LEAST_PANES:
            self.chosen = self.chosen[:-1]
            self._make_panes()
            self.changed.emit()

    # --- what changed
    def _document_changed(self, what: Changed) -> None:
        if what & MEASURED:
            self._present_known = False
        if self._link is None:
            return
        if what & Changed.PART:
            self._results = ()
        state = self._state
        there = still_there(state, self.chosen) if state.part is not None else []
        if len(there) < LEAST_PANES:
            self._window.choices.set_comparing(False)
        elif len(there) < len(self.chosen):
            self.chosen = there
            self._make_panes()
            self.changed.emit()
        else:
            self._update(what)

    def _measured(self, *_: object) -> None:
        self._present_known = True
        self._show_poses()

    def _update(self, what: Changed) -> None:
        state = self._state
        if what & (Changed.PART | Changed.REFINED):
            self._link.show_part(state)
            self._look_changed()
            self._show_file()
        elif what & (Changed.CLASSES | Changed.SETTINGS):
            self._link.show_state(state)
        self._poses_changed()

    def _poses_changed(self) -> None:
        self._ask()
        self._show_poses()
        self._window.view.fit_again()
        self.changed.emit()

    def _look_changed(self, *_: object) -> None:
        if self._link is not None:
            looking = self._window.choices
            self._link.show_look(looking.lens, looking.supports, looking.print_colour)
            if self._window.choices.lens is Lens.DIFFERENCE:
                self._link.show_poses(self._state, self._drawn())
            self._window.view.redraw()

    def _show_file(self, *_: object) -> None:
        if self._link is not None:
            self._link.show_file(self._window.live_check.latest, self._window.live_deviation.latest)
            self._window.view.redraw()

    def _show_size(self, *_: object) -> None:
        self._window.compare_box.set_large(self._window.choices.presenting)
        self._show_words()

    # --- showing
    def _show_poses(self, *_: object) -> None:
        if self._link is None or self._state.part is None:
            return
        self._link.show_poses(self._state, self._drawn())
        self._window.shop.prices.set_wanted(
            {
                pose: measures
                for pose, measures in self._drawn()
                if measures is not None and measures.profile is not None
            }
        )
        self._show_prices()

    def _show_prices(self) -> None:
        """What the shop says: in the table, and its machine in the panes."""
        if self._link is not None and self._state.part is not None:
            self._show_machines()
            self._show_words()

    def _show_machines(self, *_: object) -> None:
        if self._link is not None:
            self._link.show_machines(self._machine_looks())
            self._window.view.redraw()

    def _show_words(self) -> None:
        """Captions, choice and table."""
        window, state = self._window, self._state
        if self._link is None or window.view.panes is None:
            return
        large, box = window.choices.presenting, window.compare_box
        window.view.panes.set_captions(
            [
                Caption(caption.title, moving=large and source is Moving.PRESENT)
                for source, caption in zip(self.chosen, self.captions(), strict=True)
            ],
            larger=large,
        )
        there = sources(state)
        box.show_choice(
            [name_of_source(state, source) for source in there],
            [there.index(source) for source in self.chosen],
            more=len(one_more(state, self.chosen)) > len(self.chosen),
            fewer=len(self.chosen) > LEAST_PANES,
        )
        titles = self._titles()
        rows = self.rows()
        if large:
            rows = tuple(row for row in rows if (row.key, row.column) in key_columns(state))
        box.table.show_rows(titles, rows)
        window.view.redraw()

    def _titles(self) -> list[str]:
        """Heads of the columns; three dots where the last word is not spoken yet."""
        return [
            caption.title if measures and measures.tier == "full" else f"{caption.title} …"
            for caption, (_, measures) in zip(self.captions(), self._drawn(), strict=True)
        ]
