"""The form of machines, materials and pairs: copy, change, refuse, save, rename, remove."""

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from tests.shapes import cube
from tests.waiting import LONG_MS
from tests.window.test_shop_column import told
from tests.window.test_window_layout import nameless_in
from viewer.errors import ShowsideError
from viewer.files.shop_folder import read_user_shop
from viewer.shop.shop import example_shop, read_shop
from viewer.shop.toml_text import KINDS
from viewer.window.shop_fields import FIELDS, PARTS, TITLES
from viewer.window.thing_form import ThingForm


@pytest.fixture(autouse=True)
def own_shop(tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path / "shop"))


@pytest.fixture
def dialog(opened):
    opened.press_keys("F4")
    made = opened.window.shop.things
    opened.qtbot.waitUntil(made.isVisible, timeout=LONG_MS)
    yield made
    if made.isVisible():
        made.close()
        made.close()


def type_into(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Qt.Key.Key_Tab)
    QApplication.processEvents()


@pytest.mark.parametrize("kind", KINDS)
def test_every_value_of_a_thing_is_in_the_form(kind):
    made = KINDS[kind]
    shown = [field.name for field in FIELDS[made]]
    assert sorted([*shown, "sources"]) == sorted(made.__struct_fields__)
    for part, fields in PARTS.values():
        assert sorted(field.name for field in fields) == sorted(part.__struct_fields__)
    assert set(TITLES) == set(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_ranges_of_the_form_are_those_that_the_thing_accepts(kind):
    """At each end it is accepted, beyond it is refused: the form shuts nothing out."""
    thing = msgspec.structs.replace(getattr(example_shop(), kind)[0])
    plain = msgspec.to_builtins(thing)
    for field in FIELDS[KINDS[kind]]:
        if field.kind not in ("number", "count"):
            continue
        step = 10.0**-field.decimals if field.kind == "number" else 1
        for end, beyond in ((field.low, field.low - step), (field.high, field.high + 1)):
            changes = {field.name: end}
            if field.name in ("layer_low_mm", "layer_high_mm"):
                changes |= {"layer_low_mm": min(end, 0.01), "layer_high_mm": end, field.name: end}
            if field.name in ("prime_mm3", "purge_mm3"):
                changes["purge_mm3" if field.name == "prime_mm3" else "prime_mm3"] = end
            if field.name == "materials":
                changes["shared_nozzle"] = True
            msgspec.convert({**plain, **changes}, KINDS[kind])
            with pytest.raises(ShowsideError):
                msgspec.convert({**plain, **changes, field.name: beyond}, KINDS[kind])
    for part, fields in PARTS.values() if kind == "machines" else ():
        for field in fields:
            if field.kind == "number":
                accepted_at_its_ends(part, field)


SOUND_PARTS = {
    "Nozzle": {"name": "left", "reach_low_mm": (0, 0, 0), "reach_high_mm": (9, 9, 9)},
    "ForbiddenArea": {"low_mm": (0, 0), "high_mm": (9, 9)},
}


def accepted_at_its_ends(part, field):
    """The same of a nozzle and of a forbidden area."""
    plain, step = SOUND_PARTS[part.__name__], 10.0**-field.decimals
    for end, beyond in ((field.low, field.low - step), (field.high, field.high + 1)):
        msgspec.convert({**plain, field.name: end}, part)
        with pytest.raises(ShowsideError):
            msgspec.convert({**plain, field.name: beyond}, part)


@pytest.mark.parametrize("kind", KINDS)
def test_the_form_gives_back_what_it_was_given(kind, qtbot):
    form = ThingForm(KINDS[kind], (), lambda: None)
    qtbot.addWidget(form)
    for thing in getattr(example_shop(), kind):
        plain = msgspec.to_builtins(thing)
        form.show_values(plain, read_only=False)
        assert msgspec.convert(form.values(), KINDS[kind]) == thing


def test_an_example_is_read_only_until_it_is_copied_and_the_copy_is_saved(opened, dialog):
    assert not dialog.form.editors["hourly_rate"].isEnabled()
    assert not dialog.remove.isEnabled()
    opened.press(dialog.copy)
    rate = dialog.form.editors["hourly_rate"]
    assert rate.isEnabled()
    type_into(dialog.form.editors["name"], "Bench 1")
    type_into(rate, "7.25")
    assert dialog.rows.item(0).text() == "* Bench 1"
    opened.press(dialog.save)
    assert dialog.rows.item(0).text() == "Bench 1"
    saved = read_user_shop().machine("Bench 1")
    example = example_shop().machines[0]
    assert saved == msgspec.structs.replace(example, name="Bench 1", hourly_rate=7.25)
    assert opened.window.shop.live.shop.machine("Bench 1") == saved
    chooser = opened.window.shop.column.chooser.lists["machine"]
    assert chooser.findData("Bench 1") == 0


def test_a_value_that_cannot_be_is_told_in_one_sentence_and_nothing_is_lost(opened, dialog):
    opened.press(dialog.copy)
    type_into(dialog.form.editors["layer_low_mm"], "0.5")
    assert "the range of layer heights must rise" in dialog.problem.text()
    opened.press(dialog.save)
    assert read_user_shop().machines == example_shop().machines
    assert "must rise" in dialog.problem.text()
    dialog.rows.setCurrentRow(1)
    assert dialog.problem.text() == ""
    dialog.rows.setCurrentRow(0)
    assert dialog.form.editors["layer_low_mm"].value() == 0.5
    dialog.close()
    assert dialog.isVisible()
    assert "Not saved yet: 1" in dialog.problem.text()
    type_into(dialog.form.editors["layer_high_mm"], "0.6")
    assert dialog.problem.text() == ""
    QTest.keyClick(dialog, Qt.Key.Key_S, Qt.KeyboardModifier.ControlModifier)
    assert read_user_shop().machines[0].layer_low_mm == 0.5


def test_renaming_leaves_one_file_and_a_taken_name_is_refused(opened, dialog):
    dialog.kinds.setCurrentIndex(dialog.kinds.findData("materials"))
    for name in ("Mine", "Other"):
        opened.press(dialog.copy)
        type_into(dialog.form.editors["name"], name)
        opened.press(dialog.save)
    type_into(dialog.form.editors["name"], "Mine")
    opened.press(dialog.save)
    assert "another “Mine” already" in dialog.problem.text()
    type_into(dialog.form.editors["name"], "Third")
    opened.press(dialog.save)
    folder = opened.window.shop.things and read_user_shop()
    assert [thing.name for thing in folder.materials[:2]] == ["Mine", "Third"]


def test_what_is_removed_can_be_brought_back(opened, dialog, tmp_path):
    dialog.kinds.setCurrentIndex(dialog.kinds.findData("pairs"))
    opened.press(dialog.new)
    type_into(dialog.form.editors["name"], "My pair")
    opened.press(dialog.save)
    own = read_shop(tmp_path / "shop").pairs
    assert [pair.name for pair in own] == ["My pair"]
    opened.press(dialog.remove)
    assert read_shop(tmp_path / "shop").pairs == ()
    opened.press(dialog.back)
    assert read_shop(tmp_path / "shop").pairs == own
    assert not dialog.back.isEnabled()


def test_nozzles_are_added_and_removed(opened, dialog):
    opened.press(dialog.copy)
    nozzles = dialog.form.editors["nozzles"]
    dialog._scroll.ensureWidgetVisible(nozzles.add_button)
    opened.press(nozzles.add_button)
    assert len(nozzles.value()) == 2
    assert dialog.problem.text() == ""
    nozzles._remove(nozzles._rows[0])
    assert len(nozzles.value()) == 1


def test_an_own_machine_prices_the_job(opened, dialog):
    opened.show(cube())
    before = told(opened)
    opened.press(dialog.copy)
    type_into(dialog.form.editors["hourly_rate"], "100")
    opened.press(dialog.save)
    opened.qtbot.waitUntil(
        lambda: opened.window.shop.live.latest.chosen.machine.hourly_rate == 100, timeout=LONG_MS
    )
    hours = before.estimate.time_s.likely / 3600
    more = opened.window.shop.live.latest.estimate.cost.likely - before.estimate.cost.likely
    assert more == pytest.approx((100 - before.chosen.machine.hourly_rate) * hours)


@pytest.mark.parametrize("kind", KINDS)
def test_everything_in_the_form_has_a_name_and_a_key(kind, opened, dialog):
    dialog.kinds.setCurrentIndex(dialog.kinds.findData(kind))
    opened.press(dialog.copy)
    assert nameless_in(dialog) == []
