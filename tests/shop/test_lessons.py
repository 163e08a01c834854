"""What trials of a machine and material teach, as proposals in plain sentences."""

import math

import msgspec
import pytest

from tests.shop.made_trials import steps, trial
from viewer.geometry.print_settings import PrintSettings
from viewer.shop.lessons import (
    CLEAN_ONLY,
    GOOD_ENOUGH,
    basis_sentence,
    lesson_sentence,
    lessons,
    release_lesson,
    terrace_mm,
    value_text,
)
from viewer.shop.shop import example_shop
from viewer.shop.taken_limits import pair_with, settings_with
from viewer.shop.touch_weight import TouchTrial, touch_worth
from viewer.shop.trials import MODEL_ON_SUPPORT

PLA = example_shop().material("PLA")
PROCESS = PrintSettings()
ANGLES = (30, 35, 40, 45, 50)


def fans(*outcomes, **more):
    return tuple(
        trial(f"fan {k}", ANGLES, each, day=f"2026-11-{10 + k}", **more)
        for k, each in enumerate(outcomes)
    )


def only(found):
    (lesson,) = found
    return lesson


def test_a_fan_proposes_a_support_limit_between_the_steps_that_failed_and_came_out():
    lesson = only(lessons(fans("bbccc", "bbccc", "bbccc"), "Made", PLA, PROCESS))
    assert lesson.limit == "support_limit_deg"
    assert 35 < lesson.likely < 40
    assert lesson.low < lesson.likely < lesson.high <= lesson.safe + 0.5
    assert (lesson.now, lesson.start, lesson.prints) == (45.0, PLA.support_limit_deg, 3)
    assert (lesson.first_day, lesson.last_day) == ("2026-11-10", "2026-11-12")
    assert lesson_sentence(lesson) == (
        f"3 trials say {lesson.likely:g}°, between {lesson.low:g}° and {lesson.high:g}°; now 45°."
    )
    basis = basis_sentence(lesson)
    for words in ("“PLA” on “Made”", "2026-11-10 to 2026-11-12", "Before any trial: 45°"):
        assert words in basis


def test_what_counts_as_good_is_the_users_choice():
    made = fans("baccc", "baccc", "baccc")
    clean = only(lessons(made, "Made", PLA, PROCESS, CLEAN_ONLY))
    enough = only(lessons(made, "Made", PLA, PROCESS, GOOD_ENOUGH))
    assert 35 < clean.likely < 40
    assert 30 < enough.likely < 35


def test_other_machines_and_materials_teach_nothing_here():
    assert lessons(fans("bbccc"), "Other", PLA, PROCESS) == ()
    assert lessons(fans("bbccc"), "Made", example_shop().material("PVA"), PROCESS) == ()
    mixed = (*fans("bbccc"), *fans("ccccc", machine="Other"))
    assert only(lessons(mixed, "Made", PLA, PROCESS)).prints == 1


def test_a_bridge_ladder_proposes_the_longest_span_that_comes_out():
    made = [
        trial(str(k), (5, 10, 15, 20), "ccbb", kind="bridge-ladder", unit="mm") for k in range(4)
    ]
    lesson = only(lessons(made, "Made", PLA, PROCESS))
    assert lesson.limit == "bridge_mm"
    assert 10 < lesson.likely < 15
    assert lesson.safe <= lesson.likely  # shorter is safer
    assert lesson.now == 0.0
    assert lesson_sentence(lesson).endswith("; now 0 mm.")
    assert settings_with(PROCESS, lesson.limit, lesson.likely).bridge_mm == lesson.likely


def test_wedges_and_cut_outs_tell_together_from_which_width_terraces_show():
    """Layers of 0.2: 20° makes 0.549 mm, 30° 0.346 mm (CALC t / tan α)."""
    assert terrace_mm(30, "deg", 0.2) == pytest.approx(0.2 / math.tan(math.radians(30)))
    wedges = [
        trial(str(k), (10, 20, 30, 45), "bbcc", kind="terrace-wedge", layer_mm=0.2)
        for k in range(4)
    ]
    lesson = only(lessons(wedges, "Made", PLA, PROCESS))
    assert lesson.limit == "visible_terrace_mm"
    assert 0.346 < lesson.likely < 0.549
    assert lesson.now == PROCESS.road_mm  # in force as long as nothing was taken
    finer = [msgspec.structs.replace(each, layer_mm=0.1) for each in wedges]
    assert only(lessons(finer, "Made", PLA, PROCESS)).likely < 0.8 * lesson.likely
    cut_out = trial("c", (0.36,), "b", kind="cut-out-terrace", unit="mm")
    both = only(lessons([*wedges, cut_out], "Made", PLA, PROCESS))
    assert both.prints == 5
    assert both.likely < lesson.likely


def test_where_the_limit_was_not_seen_the_sentence_says_so():
    all_good = only(lessons(fans("ccccc"), "Made", PLA, PROCESS))
    none_good = only(lessons(fans("bbbbb"), "Made", PLA, PROCESS))
    assert all_good.likely < 30
    assert "try harder steps" in basis_sentence(all_good)
    assert none_good.likely > 50
    assert "try easier steps" in basis_sentence(none_good)
    assert lesson_sentence(all_good).startswith("1 trial says ")


def test_pieces_that_no_limit_follows_from_teach_none():
    made = [
        trial("r", (0.0, 0.1), "cb", kind="pair-release", unit="mm"),
        trial("s", (0.8, 1.2), "bc", kind="slender-fins", unit="mm"),
        trial("n", (-0.1, 0.1), "bc", kind="nozzle-offset", unit="mm"),
    ]
    assert lessons(made, "Made", PLA, PROCESS) == ()
    odd = trial("z", kind="bridge-ladder", steps=steps([0.0, 8.0], "bc", "mm"))
    assert only(lessons([odd], "Made", PLA, PROCESS)).likely > 8  # a span of nothing is no step


def test_values_are_written_with_their_unit():
    assert value_text("support_limit_deg", 38.0) == "38°"
    assert value_text("support_limit_deg", 38.5) == "38.5°"
    assert value_text("bridge_mm", 12.0) == "12 mm"
    assert value_text("visible_terrace_mm", 0.5) == "0.50 mm"


def released(key, outcomes, row=MODEL_ON_SUPPORT, **more):
    """A release piece with gaps of 0, 0.1, 0.2 and 0.3."""
    return trial(
        key, (0.0, 0.1, 0.2, 0.3), outcomes, kind="pair-release", unit="mm", row=row, **more
    )


def test_how_a_touched_face_comes_out_is_told_at_the_pairs_own_gap():
    """As `touch_worth` reckons with the one step of each print that shows such a face."""
    pair = example_shop().pair("PLA alone")
    assert (pair.contact_gap_mm, pair.touch_weight) == (0.2, 1.0)
    made = [released("a", "bbcb"), released("b", "bbab"), released("c", "bbcb")]
    beside = [
        released("d", "bbbb", row="support on model"), released("e", "bbbb", machine="Other"),
        released("f", "bbbb", pair="PLA with PVA"), trial("g", (0.0,), "b", kind="terrace-wedge"),
    ]  # fmt: skip
    lesson = release_lesson([*made, *beside], "Made", pair)
    wanted = touch_worth(pair, tuple(TouchTrial(w) for w in ("clean", "acceptable", "clean")))
    assert lesson.likely == pytest.approx(wanted.weight, abs=0.025)
    assert (lesson.low, lesson.high) == pytest.approx((wanted.low, wanted.high), abs=0.025)
    assert (lesson.now, lesson.start, lesson.prints) == (1.0, 1.0, 3)
    assert lesson_sentence(lesson) == "3 trials say 0.50, between 0.15 and 0.85; now 1.00."
    again = release_lesson(made, "Made", pair, (lesson.take(),))
    assert (again.now, again.likely) == (lesson.likely, lesson.likely)  # not learnt twice over
    assert release_lesson(beside, "Made", pair) is None


def test_a_touched_cut_out_tells_with_its_roughness_where_that_was_measured():
    pair = example_shop().pair("PLA alone")
    cut_out = trial("a", (0.2,), "b", kind="cut-out-touch", unit="mm", layer_mm=0.2)
    smooth = msgspec.structs.replace(cut_out.steps[0], ra_um=5.0)
    rough = release_lesson([cut_out], "Made", pair)
    fine = release_lesson([msgspec.structs.replace(cut_out, steps=(smooth,))], "Made", pair)
    assert rough.likely == 1.0
    assert fine.likely == pytest.approx((2 * 1.0 + 0.05) / 3, abs=0.026)  # 0.5 · 5 µm / (t / 4)


def test_a_taken_weight_says_where_it_comes_from():
    pair = example_shop().pair("PLA alone")
    lesson = release_lesson([released("a", "bbcb")], "Made", pair)
    taken = pair_with(pair, (lesson.take(0.4),))
    assert (taken.touch_weight, taken.source("touch_weight")) == (0.4, "taken from trials: 1")
