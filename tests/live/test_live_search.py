"""The search beside the window: asked for once, anew with other marks, dropped when outdated."""

from dataclasses import replace
from functools import partial

import numpy as np
import pytest

from tests import shapes
from tests.waiting import LONG_MS
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.files.shop_folder import read_user_shop
from viewer.geometry.aims import QUICKEST, SHOW_SIDE
from viewer.geometry.direction_search import SearchRequest
from viewer.geometry.hard_limits import LIMIT_KEYS, limits_left
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.ranking import rank_directions
from viewer.live import live_search
from viewer.live.jobs import Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_search import LiveSearch

FEW = 162  # directions, where it does not matter how many there are


@pytest.fixture
def live(usual_directions, monkeypatch):
    monkeypatch.setattr(live_search, "SearchRequest", partial(SearchRequest, directions=FEW))
    return usual_directions


@pytest.fixture
def usual_directions(qapp, tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path))
    document, jobs = Document(), Jobs()
    document.open(State.of_part(Part("post and cap", shapes.post_and_cap())))
    measures = LiveMeasures(document, jobs)
    search = LiveSearch(document, jobs, measures)
    yield document, search
    search.close()
    measures.close()
    assert jobs.close()


def known(qtbot, search):
    """Wait until the search is over and the best were looked at."""
    qtbot.waitUntil(lambda: search.complete and not search.looking_closer, timeout=LONG_MS)


def test_nothing_is_searched_until_asked_and_then_every_usual_direction(usual_directions, qtbot):
    document, search = usual_directions
    qtbot.wait(300)
    assert not search.running
    assert search.table is None
    fractions = []
    search.told.connect(lambda: fractions.append(search.table and search.table.fraction))
    search.search()
    assert search.running
    qtbot.waitUntil(lambda: search.complete, timeout=LONG_MS)
    grown = [f for f in fractions if f is not None]
    assert grown == sorted(grown)
    assert len(grown) > 2
    assert grown[0] < 0.2
    assert grown[-1] == 1.0
    spread = slice(0, search.table.spread)
    assert search.table.spread == 2562
    vertices_mm = document.state.part.mesh.vertices_mm
    along = vertices_mm @ search.table.directions[spread].T  # CALC: how high it stands with each up
    assert search.table.column("height_mm")[spread] == pytest.approx(np.ptp(along, axis=0))


def test_the_best_are_measured_in_full_with_how_sure_they_are_and_the_bound(live, qtbot):
    document, search = live
    document.set_classes(np.ones_like(document.state.face_classes), "all A")
    search.search()
    known(qtbot, search)
    table, closer = search.table, search.closer
    ranking = rank_directions(table, SHOW_SIDE.weights, limits_left(table, LIMIT_KEYS))
    best = ranking.poses[0]
    assert best.checked
    state = document.state
    direct = measure_pose(
        prepare_part(state.part.mesh), state.face_classes, Pose(best.up), state.settings
    )
    assert closer.measures[best.index].touch_area_mm2 == direct.touch_area_mm2
    assert table.row(best.index)["support_volume_mm3"] == direct.support_volume_mm3
    assert closer.sure
    assert 0 <= closer.bound.least_mm2 <= closer.bound.found_mm2


def test_tables_that_come_fast_are_told_now_and_then_and_the_last_one_always(
    live, qtbot, monkeypatch
):
    _, search = live
    ends, found = 20, {}

    def in_a_hurry(wanted, tell, progress):
        request, found["all"] = real(wanted, lambda _: None, progress)
        for step in range(ends):
            found["last"] = replace(found["all"], fraction=step / ends)
            tell(found["last"])
        return request, found["all"]

    real = live_search._search
    monkeypatch.setattr(live_search, "_search", in_a_hurry)
    monkeypatch.setattr(live_search, "_know_more", lambda request, *_, progress: request)
    told = []
    search.told.connect(lambda: told.append(search.table) if search.table is not None else None)
    search.search()
    qtbot.waitUntil(lambda: search.complete, timeout=LONG_MS)
    qtbot.wait(live_search.SHOWN_EVERY_MS + 200)  # nothing late comes after the end
    assert told[0].fraction == 0.0
    assert len(told) == 2
    assert told[-1] is search.table is found["all"]


def test_other_marks_search_anew_by_themselves_and_other_sliders_do_not(live, qtbot):
    document, search = live
    search.search()
    known(qtbot, search)
    before = search.table
    assert not before.column("touch_a_mm2").any()
    search.set_aims(QUICKEST.weights, LIMIT_KEYS)
    qtbot.waitUntil(lambda: search.looking_closer, timeout=LONG_MS)
    known(qtbot, search)
    assert search.table.directions is before.directions or np.array_equal(
        search.table.directions, before.directions
    )
    assert all(pose.checked for pose in rank_directions(search.table, QUICKEST.weights).poses)
    document.set_classes(np.ones_like(document.state.face_classes), "all A")
    assert search.outdated
    assert search.running
    assert search.table is not None  # shown as older than the marks, never blank
    known(qtbot, search)
    assert search.table.column("touch_a_mm2").any()


def test_a_choice_in_the_shop_searches_anew_only_for_another_build_volume(live, qtbot):
    document, search = live
    search.search()
    known(qtbot, search)
    time_min = search.table.column("time_min")
    assert np.isfinite(time_min).all()
    document.choose_shop(replace(document.state.shop_choice, copies=3))
    assert search.complete
    qtbot.waitUntil(lambda: search.table.column("time_min")[0] > time_min[0], timeout=LONG_MS)
    assert (search.table.column("time_min") < 3.2 * time_min).all()
    assert search.complete
    volume = search.platform_mm
    other = next(
        machine for machine in read_user_shop().machines if machine.build_volume_mm[:2] != volume
    )
    document.choose_shop(replace(document.state.shop_choice, machine=other.name))
    assert search.outdated
    assert search.running
    qtbot.waitUntil(lambda: search.complete, timeout=LONG_MS)
    assert search.platform_mm == other.build_volume_mm[:2]


def test_stopping_keeps_what_was_found_and_asks_no_more(live, qtbot):
    document, search = live
    search.search()
    qtbot.waitUntil(lambda: search.table is not None, timeout=LONG_MS)
    assert search.stop()
    assert not search.stop()
    kept = search.table
    document.set_classes(np.ones_like(document.state.face_classes), "all A")
    qtbot.wait(3 * live_search.SETTLED_MS)
    assert search.table is kept
    assert search.outdated
    assert not search.running


def test_another_part_forgets_and_stops(live, qtbot):
    document, search = live
    search.search()
    qtbot.waitUntil(lambda: search.table is not None, timeout=LONG_MS)
    document.open(State.of_part(Part("cube", shapes.cube())))
    assert search.table is None
    assert not search.running
    assert not search.wanted


def test_a_late_answer_to_an_older_question_is_dropped(live, qtbot):
    document, search = live
    search.search()
    qtbot.waitUntil(lambda: search.table is not None, timeout=LONG_MS)
    token, table = search._token, search.table
    document.set_classes(np.ones_like(document.state.face_classes), "all A")
    assert search.outdated
    search._grew.emit(token, table)
    assert search.outdated  # it was of the marks before


def test_nothing_is_told_after_closing(live, qtbot):
    document, search = live
    search.search()
    qtbot.waitUntil(lambda: search.table is not None, timeout=LONG_MS)
    search.close()
    told = []
    search.told.connect(lambda: told.append(1))
    qtbot.wait(500)
    document.set_classes(np.ones_like(document.state.face_classes), "all A")
    assert not told
