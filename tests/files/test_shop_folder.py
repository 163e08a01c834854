"""The user's own shop on disk: kept, replaced, forgotten; finished prints noted."""

import msgspec
import pytest

from tests.shop.made_jobs import ALONE, SALT, machine
from viewer.errors import CannotWrite, UnreadableFile
from viewer.files import shop_folder
from viewer.files.shop_folder import (
    forget_thing,
    note_finished_print,
    read_finished_prints,
    read_user_shop,
    save_thing,
)
from viewer.shop.calibrate import FinishedPrint
from viewer.shop.processes import Process
from viewer.shop.shop import example_shop


def test_what_is_saved_is_read_again_before_the_examples(tmp_path):
    for thing in (machine(), SALT, ALONE, Process(name="Own")):
        save_thing(thing, tmp_path)
    shop = read_user_shop(tmp_path)
    assert shop.machines == (machine(), *example_shop().machines)
    assert shop.materials[0] == SALT
    assert shop.pairs[0] == ALONE
    assert shop.processes[0].name == "Own"
    assert shop.problems == ()


def test_a_thing_of_the_same_name_is_replaced_and_one_of_another_is_not(tmp_path):
    first = save_thing(machine(name="Größe 2!"), tmp_path)
    other = save_thing(machine(name="Größe (2)"), tmp_path)
    assert first != other
    again = save_thing(machine(name="Größe 2!", hourly_rate=9.0), tmp_path)
    assert again == first
    shop = read_user_shop(tmp_path)
    assert shop.machine("Größe 2!").hourly_rate == 9.0
    assert shop.machine("Größe (2)").hourly_rate == 3.0
    assert forget_thing(machine(name="Größe 2!"), tmp_path)
    assert not forget_thing(machine(name="Größe 2!"), tmp_path)
    assert read_user_shop(tmp_path).machines[0].name == "Größe (2)"


def test_an_own_thing_stands_for_the_example_of_that_name_until_it_is_forgotten(tmp_path):
    name = "Two nozzles, large"
    example = example_shop().machine(name)
    save_thing(msgspec.structs.replace(example, hourly_rate=99.0), tmp_path)
    assert read_user_shop(tmp_path).machine(name).hourly_rate == 99.0
    forget_thing(example, tmp_path)
    assert read_user_shop(tmp_path).machine(name) == example


def test_the_folder_can_be_named(tmp_path, monkeypatch):
    monkeypatch.setenv("SHOWSIDE_SHOP", str(tmp_path))
    save_thing(SALT)
    assert (tmp_path / "materials" / "salt.toml").is_file()
    assert read_user_shop().materials[0] == SALT
    monkeypatch.delenv("SHOWSIDE_SHOP")
    assert shop_folder.shop_folder() != tmp_path


def test_finished_prints_are_noted_in_order(tmp_path):
    assert read_finished_prints(tmp_path) == ()
    first = FinishedPrint(estimated_s=100.0, time_s=120.0, machine="Made", day="2026-11-26")
    second = FinishedPrint(estimated_s=0.0, estimated_g=10.0, mass_g=11.0)
    note_finished_print(first, tmp_path)
    note_finished_print(second, tmp_path)
    assert read_finished_prints(tmp_path) == (first, second)


@pytest.mark.parametrize(
    "text", ["prints = 3", "[[prints]]\nestimated_s = 1.0", "[[prints]", '[[prints]]\nday = "x"']
)
def test_damaged_prints_are_told_and_not_overwritten(tmp_path, text):
    path = tmp_path / "finished-prints.toml"
    path.write_text(text, "utf-8")
    with pytest.raises(UnreadableFile, match=r"finished-prints\.toml cannot be read"):
        note_finished_print(FinishedPrint(estimated_s=1.0, time_s=1.0), tmp_path)
    assert path.read_text("utf-8") == text


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "file").write_text("x", "utf-8")
    with pytest.raises(CannotWrite):
        save_thing(SALT, tmp_path / "file" / "shop")
