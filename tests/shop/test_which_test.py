"""What is still open about a pose by class A area at stake, and the piece that answers it."""

import numpy as np
import pytest

from tests import shapes
from tests.shop.made_trials import trial
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.job_numbers import choose
from viewer.shop.lessons import believed, lessons, release_lesson
from viewer.shop.looked import Risk
from viewer.shop.open_points import Asked, open_points
from viewer.shop.piece_numbers import Printing
from viewer.shop.shop import example_shop
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.touch_weight import touch_worth
from viewer.shop.trials import MODEL_ON_SUPPORT
from viewer.shop.which_test import MOST_STEPS, narrowed_steps, propose_tests, seconds_of

SHOP = example_shop()
PROCESS = PrintSettings()
MACHINE = "One nozzle, medium"


def asked(mesh, trials=(), taken=(), risks=(), shown=None, pair="") -> Asked:
    """All of it class A unless `shown` (m,) bool says otherwise."""
    classes = np.ones(mesh.face_count, np.uint8)
    if shown is not None:
        classes = shown.astype(np.uint8)
    part = prepare_part(mesh)
    measures = measure_pose(part, classes, Pose(), PROCESS)
    chosen = choose(SHOP, ShopChoice(pair=pair))
    return Asked(
        part, classes, Pose(), PROCESS, chosen, tuple(trials), taken, measures, tuple(risks)
    )


def fans(outcomes, angles=(30, 35, 40, 45, 50)):
    return [trial(f"fan {k}", angles, each, machine=MACHINE) for k, each in enumerate(outcomes)]


def leaning(inclination_deg, depth=10.0, high=20.0):
    """A block that leans over; its underside has that inclination. Returns it and the area."""
    over = high / np.tan(np.radians(inclination_deg))
    mesh = shapes.extruded([(0, 0), (20, 0), (20 + over, high), (over, high)], depth)
    return mesh, float(np.hypot(over, high) * depth)


def by_kind(found):
    return {each.kind: each for each in found}


def test_an_underside_near_the_support_limit_is_at_stake_until_trials_have_settled_it():
    mesh, area = leaning(40.0)
    point = by_kind(open_points(asked(mesh)))["support_limit_deg"]
    assert (point.low, point.high) == believed("support_limit_deg", SHOP.material("PLA"), PROCESS)
    assert point.low < 40 < point.high
    assert point.stake_mm2 == pytest.approx(area, rel=0.02)
    assert point.prints == 0
    # Between 30° and 35° for sure: 40° holds itself up, whichever it is.
    settled = fans(["bcccc"] * 6)
    lesson = lessons(settled, MACHINE, SHOP.material("PLA"), PROCESS)[0]
    assert lesson.high < 39
    assert "support_limit_deg" not in by_kind(open_points(asked(mesh, settled)))
    elsewhere = [trial("x", (30, 35), "bc", machine="Another")]
    assert "support_limit_deg" in by_kind(open_points(asked(mesh, elsewhere)))


def test_a_bridge_is_at_stake_as_long_as_its_span_lies_within_what_is_open():
    """Row 25: a tunnel of 20 × 20, all of it touched or all of it bridged."""
    mesh = shapes.tunnel()
    ceiling = (mesh.face_normals[:, 2] < -0.9) & (mesh.corners_mm[:, :, 2].min(axis=1) > 1)
    point = by_kind(open_points(asked(mesh, shown=ceiling)))["bridge_mm"]
    assert point.stake_mm2 == pytest.approx(400, rel=0.02)
    ladders = [
        trial(str(k), (5, 10, 15), "cbb", kind="bridge-ladder", unit="mm", machine=MACHINE)
        for k in range(4)
    ]
    assert "bridge_mm" not in by_kind(open_points(asked(mesh, ladders, shown=ceiling)))


def test_terraces_are_at_stake_where_they_may_show_or_not():
    """Row 3: a ramp of 30° has terraces of 0.346 mm."""
    mesh = shapes.wedge(30)
    ramp = mesh.face_normals[:, 2] > 0.1
    area = mesh.face_areas_mm2[ramp].sum()
    point = by_kind(open_points(asked(mesh, shown=ramp)))["visible_terrace_mm"]
    assert point.low < 0.346 < point.high
    assert point.stake_mm2 == pytest.approx(area, rel=1e-6)
    wedges = [
        trial(str(k), (3, 5, 7, 10, 14), "bbbcc", kind="terrace-wedge", machine=MACHINE)
        for k in range(5)
    ]  # it shows from 1.1 to 1.6 mm on
    assert "visible_terrace_mm" not in by_kind(open_points(asked(mesh, wedges, shown=ramp)))


def test_touch_on_a_is_at_stake_as_far_as_it_is_unknown_how_it_comes_out():
    """Row 22: 800 mm² of touch."""
    mesh = shapes.post_and_cap()
    pair = SHOP.pair("PLA alone")
    worth = touch_worth(pair)
    point = by_kind(open_points(asked(mesh)))["touch_weight"]
    wanted = 800 * min(worth.high - worth.low, 1.0)
    assert point.stake_mm2 == pytest.approx(wanted, rel=0.02)
    tried = [
        trial(str(k), (0.1, 0.2, 0.3), "bbb", kind="pair-release", unit="mm", machine=MACHINE,
              row=MODEL_ON_SUPPORT)
        for k in range(6)
    ]  # fmt: skip
    lesson = release_lesson(tried, MACHINE, pair)
    again = by_kind(open_points(asked(mesh, tried)))["touch_weight"]
    assert again.prints == 6
    assert again.stake_mm2 == pytest.approx(800 * (lesson.high - lesson.low), rel=0.02)
    assert again.stake_mm2 < 0.6 * point.stake_mm2


def test_a_tall_thin_wall_asks_for_fins_of_its_thickness_until_one_was_printed():
    """A wall of 1 × 20 × 60: 2·A/P = 40 / 42 mm thick; its upper half has 20 + 1 mm by 30 mm twice
    over, and the top (CALC)."""
    mesh = shapes.box((0, 0, 0), (1, 20, 60))
    high = mesh.corners_mm[:, :, 2].mean(axis=1) >= 30
    risk = Risk("thin_walls", True, "", 0.0, 60.0)
    point = by_kind(open_points(asked(mesh, risks=[risk])))["slender"]
    assert point.low == pytest.approx(40 / 42, rel=1e-3)
    assert point.high == 60
    assert point.stake_mm2 == pytest.approx(2 * 21 * 60 + 2 * 20)
    upper = by_kind(open_points(asked(mesh, risks=[risk._replace(from_mm=30.0)])))["slender"]
    assert upper.stake_mm2 == pytest.approx(mesh.face_areas_mm2[high].sum())
    fins = [trial("f", (0.8, 1.2), "bc", kind="slender-fins", unit="mm", machine=MACHINE)]
    assert "slender" not in by_kind(open_points(asked(mesh, fins, risks=[risk])))
    other = Risk("ooze", True, "", 0.0, 60.0)
    assert "slender" not in by_kind(open_points(asked(mesh, risks=[other])))


def test_nothing_is_open_where_nothing_shows_or_nothing_depends_on_a_limit():
    mesh, _ = leaning(40.0)
    assert open_points(asked(mesh, shown=np.zeros(mesh.face_count, bool))) == ()
    assert open_points(asked(shapes.cube())) == ()


def test_each_question_gets_its_quickest_piece_with_steps_within_what_is_open():
    mesh, area = leaning(40.0, depth=30.0)
    about = asked(mesh)
    found = propose_tests(about, Printing(PROCESS, SHOP, ShopChoice()))
    kinds = [each.point.kind for each in found]
    assert {"support_limit_deg", "touch_weight"} <= set(kinds)
    gains = [each.point.stake_mm2 / each.time_s for each in found]
    assert gains == sorted(gains, reverse=True)
    for each in found:
        assert all(seconds_of(other) >= each.time_s for other in each.others)
        assert each.best.numbers.estimate is not None
    fan = next(each for each in found if each.point.kind == "support_limit_deg")
    assert fan.best.kind == "inclination-fan"
    assert fan.best.specimen.steps[0].value == fan.best.values[0]
    assert len(fan.best.values) == MOST_STEPS
    assert fan.point.low - 1 <= fan.best.values[0] < fan.best.values[-1] <= fan.point.high + 1
    assert f"{area:,.0f}"[:2] in fan.sentence
    assert fan.sentence.startswith("Inclination fan with 32; 38; 45; 52; 58°, ")
    assert fan.sentence.endswith("depending on a limit between 32° and 58°.")
    touch = next(each for each in found if each.point.kind == "touch_weight")
    assert {touch.best.kind, *(each.kind for each in touch.others)} == {
        "pair-release", "cut-out-touch",
    }  # fmt: skip


def test_trials_narrow_the_next_piece():
    mesh, _ = leaning(37.0)
    before = next(p for p in open_points(asked(mesh)) if p.kind == "support_limit_deg")
    about = asked(mesh, fans(["bbccc", "bbccc"]))
    after = next(p for p in open_points(about) if p.kind == "support_limit_deg")
    assert after.high - after.low < 0.5 * (before.high - before.low)
    values = narrowed_steps(after, about)
    assert 1 < len(values) <= MOST_STEPS
    assert min(values) >= after.low - 0.5
    assert max(values) <= after.high + 0.5


def test_a_piece_that_the_machine_cannot_print_is_not_proposed():
    mesh = shapes.post_and_cap()
    about = asked(mesh, pair="PLA with PVA")
    one = SHOP.machine("One nozzle, medium")
    choice = ShopChoice(machine=one.name, pair="PLA with PVA")
    found = propose_tests(about, Printing(PROCESS, SHOP, choice))
    assert "pair-release" not in {each.best.kind for each in found}
