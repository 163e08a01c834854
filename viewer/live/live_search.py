"""Search every direction beside the window, and look closer at what the search finds best.

Nothing is searched until somebody asks. From then on a change of what the search depends on
searches anew once it has settled; the older table stays to be looked at meanwhile, as `outdated`.
When a search is over, the best directions are measured by the full tier, then how sure each is and
the least touch on class A that can be proved; other sliders or limits only ask for what is missing.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial

import numpy as np
from PySide6.QtCore import QObject, QTimer, Signal

from viewer.document.document import Changed, Document
from viewer.errors import RequestProblem, ShowsideError
from viewer.files.shop_folder import read_finished_prints, read_user_shop
from viewer.geometry.aims import SHOW_SIDE
from viewer.geometry.check_directions import check_best
from viewer.geometry.direction_discs import LEFT, RIGHT, pixels_of
from viewer.geometry.direction_measures import RayedPart
from viewer.geometry.direction_search import SearchRequest, rays_for, search_directions
from viewer.geometry.direction_table import DirectionTable
from viewer.geometry.hard_limits import LIMIT_KEYS, limits_left
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.prepared_part import PreparedPart
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ranking import KEPT, rank_directions
from viewer.geometry.sensitivity import Sensitivity, measure_sensitivity
from viewer.geometry.touch_bound import TouchBound, bound_touch_on_a
from viewer.live.jobs import Job, Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.progress import Progress
from viewer.shop.direction_times import DirectionTimes, times_of_directions, with_other_times
from viewer.shop.job_numbers import choose
from viewer.shop.shop_choice import ShopChoice

SETTLED_MS = 400  # strokes of a brush follow one another; the search waits for the last
SHOWN_EVERY_MS = 500  # a table that grew is drawn not more often
DEPENDS_ON = Changed.CLASSES | Changed.SETTINGS | Changed.REFINED | Changed.SHOP


@dataclass(frozen=True, eq=False)
class Wanted:
    """Everything one search depends on, and what decides where it looks closer."""

    part: PreparedPart
    face_classes: np.ndarray
    settings: PrintSettings
    choice: ShopChoice
    weights: Mapping[str, float]
    limits: tuple[str, ...]

    def request(self) -> SearchRequest:
        """With the build volume of the machine in the shop; runs on a worker's thread."""
        return SearchRequest(
            self.part,
            self.face_classes,
            self.settings,
            platform_mm=_build_volume_mm(self.choice),
            weights=self.weights,
            limits=self.limits,
            further=_times(self.choice, self.settings),
        )


@dataclass(frozen=True, eq=False)
class Closer:
    """What is known of the best directions beyond the table, by its rows.

    measures : by the full tier; sure : what a tilt or another limit makes of them
    bound : of the touch on class A, None where none was proved (yet)
    rays : what the last two are worked out with; hull_mm : (h, 3) corners of the part's hull
    """

    measures: dict[int, PoseMeasures] = field(default_factory=dict)
    sure: dict[int, Sensitivity] = field(default_factory=dict)
    bound: TouchBound | None = None
    rays: RayedPart | None = None


class LiveSearch(QObject):
    """Listens to the document once it was asked to search.

    told : the table grew, is outdated, or is gone; look at `table`, `running`, `outdated`
    closer_told : more is known of the best; look at `closer`
    progressed : share done and what is being done; failed : a sentence for the user
    """

    told = Signal()
    closer_told = Signal()
    progressed = Signal(float, str)
    failed = Signal(str)
    _grew = Signal(object, object)
    _knew = Signal(object, object, object)

    def __init__(self, document: Document, jobs: Jobs, live_measures: LiveMeasures) -> None:
        super().__init__()
        self._document, self._jobs, self._live = document, jobs, live_measures
        self._job: Job | None = None
        self._request: SearchRequest | None = None
        self._weights: Mapping[str, float] = SHOW_SIDE.weights
        self._limits: tuple[str, ...] = LIMIT_KEYS
        self._waits, self._complete, self._searching = False, False, False
        self._other_shop = False  # times are to be reckoned anew
        self._token = object()
        self.wanted = False
        self.table: DirectionTable | None = None
        self.closer = Closer()
        self.outdated = False
        self._settled = QTimer(self, singleShot=True, interval=SETTLED_MS)
        self._settled.timeout.connect(self._go_on)
        self._grown: DirectionTable | None = None  # waits to be shown
        self._shown_lately = QTimer(self, singleShot=True, interval=SHOWN_EVERY_MS)
        self._shown_lately.timeout.connect(self._show_grown)
        self._grew.connect(self._table_grew)
        self._knew.connect(self._is_known)
        live_measures.measured.connect(self._part_is_ready)
        self._stop_listening = document.listen(self._document_changed)

    @property
    def running(self) -> bool:
        """Whether directions are being searched, or are about to be."""
        return self._searching or self._waits

    @property
    def complete(self) -> bool:
        """Whether the table holds every direction of the present part and settings."""
        return self._complete and not self.outdated

    @property
    def platform_mm(self) -> tuple[float, float] | None:
        """Width and depth of the platform that was searched for, None while that is not known."""
        size = None if self._request is None else self._request.platform_mm
        return None if size is None else size[:2]

    # --- for the window
    def search(self) -> None:
        """Search now, and anew whenever the marks or the process change."""
        if self._document.state.part is None:
            return
        self.wanted = True
        self._stop()
        self._start()

    def set_aims(self, weights: Mapping[str, float], limits: tuple[str, ...]) -> None:
        """What matters now: decides what is looked at more closely; nothing is searched anew."""
        self._weights, self._limits = dict(weights), limits
        if self.complete:
            if self._job is not None:
                self._stop()
            self._settled.start()

    def stop(self) -> bool:
        """Search no more until asked again; what was found stays. False if nothing was running."""
        was_running = self.running
        self.wanted = False
        self._stop()
        self._settled.stop()
        if was_running:
            self.told.emit()
        return was_running

    def close(self) -> None:
        """Stop listening and searching."""
        self._stop_listening()
        self._settled.stop()
        self._shown_lately.stop()
        self._stop()

    # --- what the document says
    def _document_changed(self, what: Changed) -> None:
        if what & Changed.PART:
            self._stop()
            self._settled.stop()
            self.wanted, self.table, self.closer = False, None, Closer()
            self.outdated = self._complete = False
            self.told.emit()
        elif what & DEPENDS_ON and (self.table is not None or self.running):
            if what & DEPENDS_ON == Changed.SHOP and self._same_volume():
                self._other_shop = True
                self._settled.start()
                return
            self._stop()
            self.outdated = self.table is not None
            self._waits = self.wanted
            if self.wanted:
                self._settled.start()
            self.told.emit()

    def _same_volume(self) -> bool:
        """Whether another choice in the shop left the build volume as it was searched for."""
        if self.running or self._request is None:
            return False
        return _build_volume_mm(self._document.state.shop_choice) == self._request.platform_mm

    def _part_is_ready(self, *_: object) -> None:
        if self._waits and not self._settled.isActive():
            self._start()

    def _go_on(self) -> None:
        if self._waits:
            self._start()
        elif self.complete and self.wanted:
            self._look_closer()

    def _stop(self) -> None:
        if self._job is not None:
            self._job.cancel()
        self._job, self._token, self._grown = None, object(), None
        self._waits = self._searching = False

    # --- searching
    def _start(self) -> None:
        """Begin, or wait until the part is prepared."""
        state, part = self._document.state, self._live.prepared
        self._waits = part is None or len(part.faces) != len(state.face_classes)
        if not self._waits:
            wanted = Wanted(
                part,
                state.face_classes,
                state.settings,
                state.shop_choice,
                self._weights,
                self._limits,
            )
            self._token, self._searching = object(), True
            self._job = self._jobs.run(
                partial(_search, wanted, partial(self._grew.emit, self._token)),
                done=self._searched,
                failed=self._fail,
                progressed=self.progressed.emit,
            )
        self.told.emit()

    def _table_grew(self, token: object, table: DirectionTable) -> None:
        """Show the first at once, others now and then.

        Of a small part they come faster than they can be drawn beside a search on all processors:
        the window would be busy with tables that are old already.
        """
        if token is not self._token:
            return
        self._grown = table
        if not self._shown_lately.isActive():
            if self.table is None or self.outdated:
                self._show_grown()
            self._shown_lately.start()

    def _show_grown(self) -> None:
        grown, self._grown = self._grown, None
        if grown is not None and self._searching:
            self._show(grown, False)

    def _show(self, table: DirectionTable, complete: bool) -> None:
        self.table, self.outdated, self._complete = table, False, complete
        self.closer = Closer()
        self.told.emit()

    def _searched(self, answer: tuple[SearchRequest, DirectionTable]) -> None:
        self._request, table = answer
        self._job, self._searching, self._other_shop = None, False, False
        self._grown = None
        self._show(table, True)
        self._look_closer()

    # --- looking closer
    def _look_closer(self) -> None:
        self._stop()
        self._token = object()
        request = replace(self._request, weights=self._weights, limits=self._limits)
        choice = self._document.state.shop_choice if self._other_shop else None
        self._job = self._jobs.run(
            partial(
                _know_more,
                request,
                self.table,
                self.closer,
                choice,
                partial(self._knew.emit, self._token),
            ),
            done=self._known,
            failed=self._fail,
        )

    def _is_known(self, token: object, table: DirectionTable, closer: Closer) -> None:
        if token is not self._token:
            return
        news = table is not self.table
        self.table, self.closer = table, closer
        (self.told if news else self.closer_told).emit()

    def _known(self, request: SearchRequest) -> None:
        self._job, self._request, self._other_shop = None, request, False
        self.closer_told.emit()

    @property
    def looking_closer(self) -> bool:
        """Whether the best directions are being looked at more closely."""
        return self._job is not None and not self._searching

    def _fail(self, error: ShowsideError) -> None:
        self._stop()
        self.wanted = False
        self.told.emit()
        self.failed.emit(str(error))


# --- what runs on a worker: plain functions of frozen values
def _search(
    wanted: Wanted, tell: Callable[[DirectionTable], object], progress: Progress
) -> tuple[SearchRequest, DirectionTable]:
    request = wanted.request()
    for disc in (LEFT, RIGHT):
        pixels_of(disc)  # the window would work them out with the first picture of the map
    table = None
    for table in search_directions(request, progress):
        tell(table)
    return request, table


def _know_more(
    request: SearchRequest,
    table: DirectionTable,
    closer: Closer,
    choice: ShopChoice | None,
    tell: Callable[[DirectionTable, Closer], object],
    progress: Progress,
) -> SearchRequest:
    """Full tier of the best, how sure each of the shortlist is, and the bound; told one by one.

    choice : in the shop, if another one was made since; returns the request that holds now
    """
    if choice is not None:
        request = replace(request, further=_times(choice, request.settings))
        closer = replace(closer, rays=closer.rays or rays_for(request, progress))
        table = with_other_times(table, closer.rays, request.further, closer.measures, progress)
        tell(table, closer)
    for checked in check_best(request, table, KEPT, progress):
        if checked.measures:
            table = checked.table
            closer = replace(closer, measures=closer.measures | checked.measures)
            tell(table, closer)
    rays = closer.rays or rays_for(request, progress)
    limits = limits_left(table, request.limits)
    for pose in rank_directions(table, request.weights, limits, KEPT).poses:
        if pose.index not in closer.sure:
            found = measure_sensitivity(rays, np.array(pose.up), progress)
            closer = replace(closer, rays=rays, sure=closer.sure | {pose.index: found})
            tell(table, closer)
    if closer.bound is None:
        touch = table.column("touch_a_mm2")
        bound = bound_touch_on_a(rays.searched, float(np.nanmin(touch)), progress)
        tell(table, replace(closer, rays=rays, bound=bound))
    return request


def _times(choice: ShopChoice, settings: PrintSettings) -> DirectionTimes | None:
    """What print time goes by; None where the shop cannot tell."""
    try:
        return times_of_directions(read_user_shop(), choice, settings, read_finished_prints())
    except ShowsideError:
        return None


def _build_volume_mm(choice: ShopChoice) -> tuple[float, float, float] | None:
    """Of the machine that is chosen in the shop; None where there is none."""
    try:
        return choose(read_user_shop(), choice).machine.build_volume_mm
    except RequestProblem:
        return None
