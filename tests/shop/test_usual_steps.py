"""Steps are about the limit of the material, and every specimen can be made of them."""

import numpy as np
import pytest

from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.specimens.catalogue import KINDS, make_specimen
from viewer.shop.job_numbers import choose
from viewer.shop.shop import example_shop
from viewer.shop.shop_choice import ShopChoice
from viewer.shop.usual_steps import usual_steps

SHOP = example_shop()


def chosen(pair):
    return choose(SHOP, ShopChoice(pair=pair))


@pytest.mark.parametrize("kind", KINDS)
def test_a_specimen_is_made_for_every_pair_of_the_shop(kind):
    made = {usual_steps(kind, chosen(pair.name), PrintSettings()) for pair in SHOP.pairs}
    for steps in made:
        specimen = make_specimen(kind, steps)
        tried = {step.value for step in specimen.steps}
        assert kind == "nozzle-offset" or tried == set(steps)


def test_steps_follow_material_layer_and_road():
    one = chosen(SHOP.pairs[0].name)
    fine = PrintSettings(layer_mm=0.1, road_mm=0.5)
    limit = one.materials.model.support_limit_deg
    angles = usual_steps("inclination-fan", one, fine)
    assert min(angles) < limit < max(angles)
    assert usual_steps("slender-fins", one, fine) == pytest.approx((1.0, 1.5, 2.0, 3.0))
    # CALC: terraces of layers of 0.1 mm at these angles are half a road to eight roads wide.
    widths = 0.1 / np.tan(np.radians(usual_steps("terrace-wedge", one, fine)))
    assert widths.max() == pytest.approx(8 * 0.5, rel=0.2)
    assert widths.min() == pytest.approx(0.5 * 0.5, rel=0.05)
    gaps = np.array(usual_steps("pair-release", one, fine)) / 0.1
    np.testing.assert_allclose(gaps, np.round(gaps), atol=1e-9)
    assert gaps[0] == 0
