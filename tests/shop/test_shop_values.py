"""Machines, materials, pairs and processes: refused in one sentence, read back as they were."""

import re

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from viewer.errors import RequestProblem
from viewer.shop.machines import ForbiddenArea, Machine, Nozzle
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.processes import Process
from viewer.shop.shop import Shop, example_shop, read_shop
from viewer.shop.toml_text import KINDS, read_toml
from viewer.shop.toml_writing import write_toml

NOZZLE = Nozzle(name="left", reach_low_mm=(-50.0, -50.0, 0.0), reach_high_mm=(50.0, 50.0, 90.0))
MACHINE = Machine(name="Mill", build_volume_mm=(100.0, 100.0, 90.0), nozzles=(NOZZLE,))
MATERIAL = Material(name="Wax", density_g_cm3=0.9, price_per_kg=10.0)
PAIR = Pair(name="Wax alone", model="Wax", support_body="Wax", contact="Wax")
PROCESS = Process(name="Usual")
THINGS = [thing for kind in KINDS for thing in getattr(example_shop(), kind)]
SOURCE = re.compile(r"READ |common practice, no source|from memory, check|an example"
                    r"|nothing is")  # fmt: skip


@pytest.mark.parametrize(
    ("thing", "change", "part_of_sentence"),
    [
        (MACHINE, {"build_volume_mm": (0.0, 100.0, 100.0)}, "build volume must lie between"),
        (MACHINE, {"build_volume_mm": (100.0, float("nan"), 1.0)}, "build volume must lie between"),
        (MACHINE, {"name": ""}, "give it a name"),
        (MACHINE, {"nozzles": ()}, "at least one nozzle"),
        (MACHINE, {"nozzles": (NOZZLE, NOZZLE)}, "same name"),
        (MACHINE, {"materials": 2}, "as many materials as it has nozzles"),
        (MACHINE, {"shared_nozzle": True, "materials": 0}, "as many materials"),
        (MACHINE, {"layer_low_mm": 0.4}, "range of layer heights must rise"),
        (MACHINE, {"acceleration_mm_s2": float("inf")}, "acceleration"),
        (MACHINE, {"purge_mm3": 5.0, "prime_mm3": 6.0}, "no more than purging"),
        (MACHINE, {"hourly_rate": -1.0}, "hourly rate"),
        (MACHINE, {"currency": ""}, "currency"),
        (MACHINE, {"sources": {"colour": "READ a book"}}, '"colour" belongs to no value'),
        (NOZZLE, {"reach_high_mm": (50.0, -50.0, 90.0)}, "above the lower one"),
        (NOZZLE, {"flow_limit_mm3_s": 0.0}, "flow limit"),
        (MATERIAL, {"density_g_cm3": 0.0}, "density"),
        (MATERIAL, {"support_limit_deg": 91.0}, "between 0° and 90°"),
        (PAIR, {"support_density": 0.0}, "between 0.01 and 1"),
        (PAIR, {"contact_gap_mm": -0.1}, "contact gap"),
        (PAIR, {"removal": "solvent"}, "name the solvent"),
        (PAIR, {"contact": ""}, "name the materials"),
        (PROCESS, {"fill_density": 1.1}, "between 0 and 1"),
        (PROCESS, {"wall_mm_s": 0.0}, "speed"),
    ],
)
def test_a_value_that_cannot_be_is_refused_in_one_sentence(thing, change, part_of_sentence):
    with pytest.raises(RequestProblem) as refusal:
        msgspec.structs.replace(thing, **change)
    sentence = str(refusal.value)
    assert part_of_sentence in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence
    assert change.get("name", thing.name) in sentence


def test_a_forbidden_area_has_two_sides():
    with pytest.raises(RequestProblem, match="beyond the lower one"):
        ForbiddenArea(low_mm=(0.0, 0.0), high_mm=(10.0, 0.0))


@pytest.mark.parametrize("thing", THINGS, ids=lambda thing: thing.name)
def test_the_start_set_is_read_back_as_it_was(thing):
    assert read_toml(write_toml(thing), type(thing), "x.toml") == thing


@given(
    st.builds(
        Machine,
        name=st.text("abcäß \"'#[]=.", min_size=1, max_size=20).map(lambda t: f"m{t}m"),
        build_volume_mm=st.tuples(*[st.floats(1, 1e4)] * 3),
        nozzles=st.just((NOZZLE,)),
        hourly_rate=st.floats(0, 1e6),
        notes=st.text(max_size=60),
    )
)
def test_any_machine_is_read_back_as_it_was(machine):
    assert read_toml(write_toml(machine), Machine, "m.toml") == machine


@pytest.mark.parametrize("thing", THINGS, ids=lambda thing: thing.name)
def test_every_number_of_the_start_set_has_its_source(thing):
    numbers = [
        name
        for name in thing.__struct_fields__
        if isinstance(value := getattr(thing, name), (int, float))
        or (isinstance(value, tuple) and value and isinstance(value[0], (int, float)))
    ]
    assert [name for name in numbers if not SOURCE.match(thing.source(name))] == []


def test_the_start_set_fits_together():
    shop = example_shop()
    assert shop.problems == ()
    for pair in shop.pairs:
        assert shop.materials_of(pair).model.name == pair.model
    assert all(pair.bond_source for pair in shop.pairs)


@pytest.mark.parametrize(
    ("name", "least", "most"),
    [
        ("PLA", 1.22, 1.26), ("PETG", 1.25, 1.29),  # READ
        ("ABS", 1.03, 1.07), ("HIPS", 1.03, 1.06), ("TPU 95A", 1.19, 1.24),  # MEM
        ("PVA", 1.19, 1.31), ("PC", 1.20, 1.20), ("PA12", 1.01, 1.01),  # MEM
    ],
)  # fmt: skip
def test_densities_of_the_start_set(name, least, most):
    """Section "Time, material, tool changes" of the check values."""
    assert least <= example_shop().material(name).density_g_cm3 <= most


def test_unlike_materials_are_kept_apart_by_no_gap():
    for pair in example_shop().pairs:
        assert (pair.contact_gap_mm == 0) == (pair.contact != pair.model), pair.name


def test_a_wrong_name_names_the_nearest():
    with pytest.raises(RequestProblem, match='did you mean "PLA with PETG"'):
        example_shop().pair("PLA PETG")
    assert example_shop().machine("one nozzle, MEDIUM").name == "One nozzle, medium"
    with pytest.raises(RequestProblem, match="there is none yet"):
        Shop().machine("Mill")


@pytest.mark.parametrize(
    ("text", "part_of_sentence"),
    [
        ("name = ", "mill.toml is no TOML"),
        (
            write_toml(MACHINE).replace("diameter_mm = 0.4", 'diameter_mm = "wide"'),
            "mill.toml at nozzles[0].diameter_mm: expected `float`, got `str`",
        ),
        ('colour = "red"\n' + write_toml(MACHINE), "unknown field `colour`"),
        (write_toml(MACHINE).replace('name = "Mill"\n', ""), "required field `name`"),
        (write_toml(MACHINE).replace("materials = 1", "materials = 3"), "as it has nozzles"),
    ],
)
def test_a_file_at_fault_is_told_in_one_sentence(text, part_of_sentence):
    with pytest.raises(RequestProblem) as refusal:
        read_toml(text, Machine, "mill.toml")
    assert part_of_sentence in str(refusal.value)
    assert "\n" not in str(refusal.value)


def test_one_bad_file_does_not_hide_the_others(tmp_path):
    folder = tmp_path / "machines"
    folder.mkdir()
    (folder / "good.toml").write_text(write_toml(MACHINE), "utf-8")
    (folder / "bad.toml").write_text("name = 3", "utf-8")
    (folder / "worse.toml").write_bytes(b"\xff\xfe")
    shop = read_shop(tmp_path)
    assert shop.machines == (MACHINE,)
    assert len(shop.problems) == 2
    assert shop.problems[0].startswith("bad.toml")


def test_own_things_come_first_and_replace_those_of_the_same_name():
    own = Shop(machines=(msgspec.structs.replace(MACHINE, name="Two nozzles, large"),))
    shop = example_shop().with_own(own)
    assert shop.machines[0] == own.machines[0]
    assert len(shop.machines) == len(example_shop().machines)
    assert shop.machine("Two nozzles, large").build_volume_mm == (100.0, 100.0, 90.0)
