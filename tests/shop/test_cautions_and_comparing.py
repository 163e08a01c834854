"""What is said about pairs, and what another machine or pair takes more."""

import msgspec
import pytest

from tests.shop.made_jobs import ALONE, CONTACT, WHOLE, estimated, layers, machine
from viewer.errors import RequestProblem
from viewer.shop.cautions import ALWAYS, CAUTIONS, cautions_for
from viewer.shop.comparing import difference, duration_change, grams_change
from viewer.shop.shop import example_shop

SHOP = example_shop()
TALL = layers(400, 80, 100, touch_at=[900], count=1000)


def said(pair_name):
    pair = SHOP.pair(pair_name)
    return {caution.key for caution in cautions_for(pair, SHOP.materials_of(pair))}


@pytest.mark.parametrize("pair", SHOP.pairs, ids=lambda pair: pair.name)
def test_every_pair_says_what_always_holds(pair):
    found = cautions_for(pair, SHOP.materials_of(pair))
    assert {caution.key for caution in found} >= set(ALWAYS)
    assert len({caution.key for caution in found}) == len(found)
    assert all(caution.source for caution in found)


def test_what_is_particular_is_said_too():
    """Section "Support pairs" of the check values (READ safety data sheet)."""
    assert said("ABS with HIPS") >= {"styrene", "limonene", "dissolving-solvent"}
    for words in ("5989-27-5", "48 °C", "H226", "H304", "H315", "H317", "H410", "drains"):
        assert words in CAUTIONS["limonene"].text
    assert "UL 2904" in CAUTIONS["ventilate"].text
    assert "test-bond" in said("PLA with PETG")
    assert "dissolving-water" in said("PLA with PVA")
    for words in ("loads", "protect", "medical", "food", "children"):
        assert words in CAUTIONS["not-qualified"].text


def test_a_caution_that_does_not_exist_is_named():
    pair = msgspec.structs.replace(SHOP.pair("PLA alone"), cautions=("acid",))
    with pytest.raises(RequestProblem, match='names the caution "acid"'):
        cautions_for(pair, SHOP.materials_of(pair))


def test_a_shared_nozzle_is_told_in_hours_and_kilograms():
    """CALC: 900 changes, each 37 s − 5 s longer, and 1 cm³ of purge at 10 mm³/s instead of none."""
    own = estimated(TALL, WHOLE, machine(tool_change_s=5.0))
    shared = estimated(
        TALL, WHOLE, machine(name="Shared", shared_nozzle=True, tool_change_s=37.0, purge_mm3=1000)
    )
    change = difference(own, shared)
    assert change.time_s == pytest.approx(900 * (32 + 100))
    assert change.purge_g == pytest.approx(450 * 1.0 + 450 * 2.0)
    assert change.sentence.startswith("Shared: +33 h, +1.4 kg purge, ")
    assert change.sure
    assert change.tool_changes == 0
    back = difference(shared, own)
    assert back.time_s == -change.time_s
    assert "−33 h" in back.sentence


def test_contact_layers_alone_save_changes_against_the_whole_support():
    """The same pose: 900 layers of salt, against the three below the touch."""
    change = difference(estimated(TALL, WHOLE), estimated(TALL, CONTACT))
    assert change.tool_changes == 3 + 1 - 900 or change.tool_changes == 4 - 900
    assert change.time_s < 0
    assert change.sentence.startswith("Wax, salt contact layers: −")


def test_no_difference_is_said_so():
    same = estimated(TALL, ALONE)
    assert difference(same, same).sentence == "Wax alone: no difference"
    assert not difference(same, same).sure
    assert duration_change(-30 * 60) == "−30 min"
    assert grams_change(0.4, "purge") == ""
