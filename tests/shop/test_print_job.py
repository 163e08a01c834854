"""Time, mass, money and tool changes of a job: closed forms, invariants, facts of the trade."""

from dataclasses import replace

import msgspec
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.shop.made_jobs import ALONE, CONTACT, MATERIALS, WHOLE, estimated, layers, machine
from viewer.errors import RequestProblem
from viewer.shop.extrusion import road_area_mm2
from viewer.shop.job_layers import JobLayers
from viewer.shop.layer_work import LIKELY, filled_areas
from viewer.shop.print_job import PrintJob, estimate
from viewer.shop.processes import Process
from viewer.shop.shop import PairMaterials, example_shop

FULL = Process(name="Full", fill_density=1.0, first_layer_mm_s=5000.0, wall_mm_s=40, fill_mm_s=40)


def test_a_full_prism_weighs_its_volume():
    """CALC: 20 × 20 × 10 at 1 g/cm³ is 4 g, whatever the walls."""
    for walls in (0, 2, 7):
        made = estimated(layers(400, 80), process=msgspec.structs.replace(FULL, walls=walls))
        assert made.model_g.likely == pytest.approx(4.0)
        assert made.material_g["Wax"].likely == pytest.approx(4.0)
        assert made.waste_g.likely == 0


def test_walls_skins_and_fill_of_a_cube_are_those_of_the_closed_form():
    """CALC: cube 20, t 0.2, two walls of 0.42, four full layers at both ends, a fifth inside."""
    cube = layers(400, 80, count=100)
    areas = filled_areas(cube, ALONE, Process(name="Usual"), 0.42)
    walls, inside = 2 * 0.42 * 80, 400 - 2 * 0.42 * 80
    np.testing.assert_allclose(areas.walls_mm2, walls)
    full = (np.arange(100) < 4) | (np.arange(100) >= 96)
    np.testing.assert_allclose(areas.skins_mm2, np.where(full, inside, 0))
    np.testing.assert_allclose(areas.fill_mm2, np.where(full, 0, 0.2 * inside), rtol=1e-12)


def test_a_ledge_gets_full_layers_below_it():
    """CALC: where the section shrinks from 400 to 100, four layers below are full beside it."""
    area = np.where(np.arange(40) < 20, 400.0, 100.0)
    process = Process(name="No walls", walls=0)
    areas = filled_areas(layers(area, 80, count=40), ALONE, process, 0.42)
    np.testing.assert_allclose(areas.skins_mm2[15:25], [0] + [300] * 4 + [0] * 5)


def test_time_of_roads_is_length_over_speed_where_nothing_slows():
    """CALC: at a boundless acceleration walls take length / speed; travel as in row 36."""
    on = machine(acceleration_mm_s2=1e6, travel_mm_s=5000.0)
    made = estimated(layers(400, 80), on=on, process=FULL)
    section = road_area_mm2(0.42, 0.2)
    walls_mm = 50 * (2 * 0.42 * 80) * 0.2 / section
    assert made.time_parts_s["walls"] == pytest.approx(walls_mm / 40, rel=1e-3)
    all_mm = 50 * 400 * 0.2 / section
    inside_s = made.time_parts_s["skins"] + made.time_parts_s["fill"]
    assert inside_s == pytest.approx((all_mm - walls_mm) / 40, rel=1e-3)
    chord = np.pi * 400 / 80  # Crofton's mean chord, too short to reach the travel speed
    moves = LIKELY.travel_share * all_mm / chord
    assert made.time_parts_s["travel"] == pytest.approx(moves * 2 * np.sqrt(chord / 1e6))


def test_row_35_through_a_whole_job():
    """CALC: 100 cm³ at a flow limit of 5 mm³/s take 5.556 h."""
    on = machine(acceleration_mm_s2=1e6, travel_mm_s=5000.0)
    slow = msgspec.structs.replace(on.nozzles[0], flow_limit_mm3_s=5.0)
    on = msgspec.structs.replace(on, nozzles=(slow, on.nozzles[1]))
    quick = msgspec.structs.replace(FULL, wall_mm_s=500, fill_mm_s=500, first_layer_mm_s=500)
    made = estimated(layers(2000, 200, count=250), on=on, process=quick)
    assert made.model_g.likely == pytest.approx(100.0)
    roads_s = sum(made.time_parts_s[name] for name in ("walls", "skins", "fill"))
    assert roads_s / 3600 == pytest.approx(5.556, rel=1e-3)


def test_contact_layers_are_the_few_below_the_touch():
    """CALC: 30 layers of 100 mm² support, three of them contact; masses by their densities."""
    made_layers = layers(400, 80, 100, touch_at=[30])
    np.testing.assert_array_equal(made_layers.contact_mm2(3)[25:32], [0, 0, 100, 100, 100, 0, 0])
    made = estimated(made_layers, WHOLE)
    body, contact = 27 * 100 * 0.2 * 0.15, 3 * 100 * 0.2 * 0.7
    assert made.support_g.likely == pytest.approx((body + contact) / 1000 * 2.0)
    assert made.material_g["Salt"].likely == pytest.approx(made.support_g.likely)
    only = estimated(made_layers, CONTACT)
    assert only.material_g["Salt"].likely == pytest.approx(contact / 1000 * 2.0)
    assert only.support_g.likely == pytest.approx(body / 1000 + contact / 1000 * 2.0)


def test_landing_gets_contact_layers_above_it():
    """CALC: supports that begin on the part in layer 10 have their first layers next to it."""
    zero = np.zeros(30)
    support = np.where((np.arange(30) >= 10) & (np.arange(30) < 20), 50.0, 0.0)
    touch, landing = zero.copy(), zero.copy()
    touch[20], landing[10] = 50.0, 50.0
    job = JobLayers(0.2, zero + 400, zero + 80, support, touch, landing)
    np.testing.assert_array_equal(np.flatnonzero(job.contact_mm2(2)), [10, 11, 18, 19])


def test_tool_changes_are_those_of_row_37():
    """CALC, row 37: 100 layers, 40 of them mixed: 40 alternating, 79 in fixed order."""
    mixed = layers(400, 80, 100, touch_at=[40], count=100)
    made = estimated(mixed, WHOLE)
    assert made.tool_changes == (40, 40, 79)
    fixed = estimated(mixed, WHOLE, process=Process(name="Fixed", order="fixed"))
    assert fixed.tool_changes == (40, 79, 79)
    assert fixed.changes_by_layer.sum() == 79
    assert estimated(mixed, ALONE).tool_changes == (0, 0, 0)


def test_money_is_material_and_hours():
    """CALC: grams × price and hours × rate."""
    made = estimated(layers(400, 80, 100, touch_at=[30]), WHOLE)
    grams = {name: each.likely for name, each in made.material_g.items()}
    expected = grams["Wax"] * 20 / 1000 + grams["Salt"] * 100 / 1000
    expected += made.time_s.likely / 3600 * 3.0
    assert made.cost.likely == pytest.approx(expected)


def test_a_short_layer_waits_for_its_shortest_time():
    """CALC: a thin post prints faster than it sets, so all its time is layers × that time."""
    slow = msgspec.structs.replace(MATERIALS["Wax"], min_layer_s=30.0)
    job = PrintJob(machine(), ALONE, PairMaterials(slow, slow, slow))
    made = estimate(layers(9, 12), job)
    assert made.time_s.likely == pytest.approx(50 * 30.0)
    two = estimate(layers(9, 12), replace(job, copies=2))
    assert two.time_s.likely == pytest.approx(50 * 30.0)  # the other one sets meanwhile
    assert two.model_g.likely == pytest.approx(2 * made.model_g.likely)


def test_the_purge_body_stands_as_high_as_the_last_change_and_holds_what_is_purged():
    """CALC: 20 × 20 mm foot; a layer of 0.2 mm holds 80 mm³, so 120 mm³ need 30 mm of depth."""
    on = machine(shared_nozzle=True, purge_mm3=120.0, purge_body_mm=(20.0, 20.0))
    made = estimated(layers(400, 80, 100, touch_at=[30], count=100), WHOLE, on)
    assert made.purge_body_mm == pytest.approx((20.0, 30.0, 30 * 0.2))
    # Waxed into salt and back in turns: 15 times salt at 2 g/cm³, 15 times wax at 1 g/cm³.
    assert made.tool_changes.likely == 30
    assert made.purge_g.likely == pytest.approx(15 * 0.12 * 2 + 15 * 0.12 * 1)
    few = layers(400, 80, 100, touch_at=[30], count=100)
    only = estimated(few, CONTACT, on)
    filled = made.purge_body_mm[0] * only.purge_body_mm[1] * 0.2 * 0.15
    assert only.purge_g.likely > 0.9 * 27 * filled / 1000  # it is kept growing up to the contact


def test_a_machine_that_cannot_load_the_pair_says_so():
    with pytest.raises(RequestProblem, match=r"needs 2 materials \(Wax, Salt\)"):
        estimated(layers(400, 80, 9, [4]), WHOLE, machine(shared_nozzle=True, materials=1))
    without = estimated(layers(400, 80), WHOLE, machine(shared_nozzle=True, materials=1))
    assert list(without.material_g) == ["Wax"]  # nothing needs support, so the model is enough


AREAS = st.lists(st.floats(0, 5000), min_size=1, max_size=30)
JOBS = st.builds(
    lambda areas, roundness, support, at: layers(
        np.array(areas),
        roundness * np.sqrt(np.array(areas)),
        support,
        [at] if 0 < at < len(areas) else [],
        count=len(areas),
    ),
    AREAS, st.floats(3.6, 40), st.floats(0, 500), st.integers(0, 40),
)  # fmt: skip
PROCESSES = st.builds(
    lambda walls, skins, fill, speed, more, order: Process(
        name="Any", walls=walls, skin_layers=skins, fill_density=fill, wall_mm_s=speed,
        fill_mm_s=speed + more, first_layer_mm_s=speed / 2, order=order,
    ),
    st.integers(0, 5), st.integers(0, 6), st.floats(0, 1), st.floats(5, 100), st.floats(0, 100),
    st.sampled_from(["alternating", "fixed"]),
)  # fmt: skip
PAIRS = st.sampled_from([ALONE, WHOLE, CONTACT])


@given(JOBS, PROCESSES, PAIRS, st.integers(0, 29), st.floats(0, 100))
def test_more_perimeter_never_takes_less_time(job, process, pair, at, more_mm):
    longer = job.perimeter_mm.copy()
    longer[at % len(longer)] += more_mm
    before = estimated(job, pair, process=process)
    after = estimated(replace(job, perimeter_mm=longer), pair, process=process)
    for less, more in zip(before.time_s, after.time_s, strict=True):
        assert more >= less * (1 - 1e-9)
    assert after.model_g.likely >= before.model_g.likely * (1 - 1e-9)


@given(JOBS, PROCESSES, PAIRS, st.booleans(), st.integers(1, 4))
def test_high_is_never_below_likely_nor_likely_below_low(job, process, pair, shared, copies):
    on = machine(shared_nozzle=shared, purge_mm3=50.0, prime_mm3=4.0, purge_body_mm=(10.0, 10.0))
    made = estimated(job, pair, on, process, copies=copies)
    ranges = [made.time_s, made.model_g, made.support_g, made.purge_g, made.cost, made.waste_g]
    for each in [*ranges, made.tool_changes, *made.material_g.values()]:
        assert 0 <= each.low <= each.likely <= each.high
    assert sum(made.time_parts_s.values()) == pytest.approx(made.time_s.likely)
    assert made.layer_s.sum() + on.start_s == pytest.approx(made.time_s.likely)
    total = made.model_g.likely + made.waste_g.likely
    assert sum(each.likely for each in made.material_g.values()) == pytest.approx(total)


@given(JOBS, PROCESSES, PAIRS, st.floats(0, 300), st.floats(0, 1), st.floats(0, 100))
def test_a_shared_nozzle_is_never_quicker(job, process, pair, purge_mm3, share, change_s):
    values = {"purge_mm3": purge_mm3, "prime_mm3": share * purge_mm3, "tool_change_s": change_s}
    own = estimated(job, pair, machine(**values), process)
    shared = estimated(job, pair, machine(shared_nozzle=True, **values), process)
    for alone, together in zip(own.time_s, shared.time_s, strict=True):
        assert together >= alone * (1 - 1e-12)
    assert shared.purge_g.likely >= own.purge_g.likely


@given(JOBS, PROCESSES, PAIRS, st.integers(1, 5))
def test_more_copies_never_take_less(job, process, pair, copies):
    fewer = estimated(job, pair, process=process, copies=copies)
    more = estimated(job, pair, process=process, copies=copies + 1)
    assert more.time_s.likely >= fewer.time_s.likely
    assert more.cost.likely >= fewer.cost.likely
    assert more.tool_changes == fewer.tool_changes


def test_a_day_long_print_of_two_materials_changes_thousands_of_times():
    """Common practice, no source: and a shared nozzle adds about as much time again.

    A tall part, 300 mm high, walls and supports nearly up to its top, in layers of 0.2 mm.
    """
    shop = example_shop()
    pair = shop.pair("TPU 95A with PLA")
    tall = layers(900, 200, 500, touch_at=[1400], count=1500)
    own, shared = (
        estimate(tall, PrintJob(shop.machine(name), pair, shop.materials_of(pair)))
        for name in ("Two nozzles, large", "Shared nozzle, four materials")
    )
    assert 12 < own.time_s.likely / 3600 < 48
    assert 1000 < own.tool_changes.likely < 10_000
    assert own.tool_changes.high > 2000
    added = shared.time_s.likely - own.time_s.likely
    assert 0.4 < added / own.time_s.likely < 2.0
    assert "changes" in shared.dominates
