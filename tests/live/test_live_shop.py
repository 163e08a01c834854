"""The shop's numbers follow the measures and the choice, and nothing is told after closing."""

import pytest

from tests import shapes
from tests.shop.made_jobs import machine
from viewer.document.document import Document
from viewer.document.state import Part, State
from viewer.files.shop_folder import save_thing
from viewer.geometry.pose import Pose
from viewer.live.jobs import Jobs
from viewer.live.live_measures import LiveMeasures
from viewer.live.live_shop import LiveShop
from viewer.shop.job_numbers import job_numbers
from viewer.shop.shop_choice import ShopChoice
from viewer.window.shop_rows import duration_text, shop_rows

WAIT_MS = 60_000


@pytest.fixture
def live(qapp, tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path))
    document, jobs = Document(), Jobs()
    document.open(State.of_part(Part("post and cap", shapes.post_and_cap())))
    measures = LiveMeasures(document, jobs)
    shop = LiveShop(document, jobs, measures)
    yield document, measures, shop
    shop.close()
    measures.close()
    assert jobs.close()


def test_numbers_follow_the_pose_and_the_choice(live, qtbot):
    document, measures, shop = live
    qtbot.waitUntil(lambda: shop.latest is not None, timeout=WAIT_MS)
    state = document.state
    direct = job_numbers(
        state.part.mesh, state.face_classes, state.pose, state.settings, measures.latest, shop.shop
    )
    assert shop.latest.estimate.time_s == direct.estimate.time_s
    with_supports = shop.latest
    document.turn(Pose((0, 0, -1)))
    qtbot.waitUntil(lambda: shop.latest is not with_supports, timeout=WAIT_MS)
    assert shop.latest.estimate.support_g.likely == 0
    document.undo()
    document.choose_shop(ShopChoice("Two nozzles, large", "PLA with PVA"))
    qtbot.waitUntil(lambda: shop.latest.estimate.tool_changes.likely == 100, timeout=WAIT_MS)
    assert shop.latest.chosen.machine.name == "Two nozzles, large"


def test_the_pinned_pose_is_told_too_and_rows_show_the_difference(live, qtbot):
    document, _, shop = live
    qtbot.waitUntil(lambda: shop.latest is not None, timeout=WAIT_MS)
    document.pin_pose(document.state.pose)
    qtbot.waitUntil(lambda: shop.pinned is not None, timeout=WAIT_MS)
    before = shop.latest
    document.turn(Pose((0, 0, -1)))
    qtbot.waitUntil(lambda: shop.latest is not before, timeout=WAIT_MS)
    rows = {row.key: row for row in shop_rows(shop.latest, shop.pinned)}
    saved = shop.pinned.estimate.time_s.likely - shop.latest.estimate.time_s.likely
    assert rows["time_s"].cells["whole"].difference == f"−{duration_text(saved)}"
    assert rows["time_s"].cells["whole"].value == duration_text(shop.latest.estimate.time_s.likely)
    assert rows["support_g"].shown  # the pinned pose has supports
    assert rows["support_g"].cells["whole"].value == "0"
    assert not rows["purge_g"].shown
    assert rows["fits"].cells["whole"].value == "yes"
    # CALC, check value 33: 12.4 g of 1.24 g/cm³ are 10 cm³ = 4.158 m of 1.75 mm.
    grams = shop.latest.estimate.material_g["PLA"].likely
    assert f"{grams * 4.158 / 12.4:.1f} m of filament" in rows["material_g"].explanation
    document.pin_pose(None)
    qtbot.waitUntil(lambda: shop.pinned is None, timeout=WAIT_MS)
    plain = shop_rows(shop.latest, None)
    assert all(cell.difference == "" for row in plain for cell in row.cells.values())


def test_a_change_of_the_shop_is_read(live, qtbot):
    _, _, shop = live
    qtbot.waitUntil(lambda: shop.latest is not None, timeout=WAIT_MS)
    save_thing(machine(name="Mine"))
    shop.read_again()
    qtbot.waitUntil(lambda: shop.latest.chosen.machine.name == "Mine", timeout=WAIT_MS)
    assert "Mine" in shop.latest.fits


def test_a_name_that_is_not_there_is_told_and_a_pair_that_cannot_be_printed_says_why(live, qtbot):
    document, _, shop = live
    qtbot.waitUntil(lambda: shop.latest is not None, timeout=WAIT_MS)
    heard = []
    shop.failed.connect(heard.append)
    document.choose_shop(ShopChoice("Mill"))
    qtbot.waitUntil(lambda: bool(heard), timeout=WAIT_MS)
    assert 'There is no machine "Mill"' in heard[0]
    document.choose_shop(ShopChoice("One nozzle, medium", "PLA with PVA"))
    qtbot.waitUntil(lambda: shop.latest.estimate is None, timeout=WAIT_MS)
    (row,) = shop_rows(shop.latest, None)
    assert "needs 2 materials" in row.explanation
