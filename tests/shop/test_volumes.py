"""The boxes of a machine, and the faces that stick out of one."""

import numpy as np
import pytest

from tests.shop.made_jobs import WHOLE, machine
from tests.shop.test_fit import bar, outline
from viewer.shop.fit import fit_machine
from viewer.shop.machines import ForbiddenArea
from viewer.shop.volumes import machine_volumes, standing_place_mm, volume_of_part


def test_a_machine_shows_all_its_boxes():
    corner = ForbiddenArea(name="clip", low_mm=(-100.0, -100.0), high_mm=(-80.0, -80.0), to_mm=9.0)
    on = machine(forbidden=(corner,))
    size = (40.0, 30.0, 12.0)
    fit = fit_machine(outline(bar(50, 50), bar(9, 9)), on, WHOLE, 0.0, size)
    volumes = {each.name: each for each in machine_volumes(on, fit, size)}
    assert volumes["Made"].high_mm == (100, 100, 200)
    assert volumes["nozzle 2"].role == "reach"
    assert volumes["clip"].high_mm == (-80, -80, 9)
    purged = np.subtract(volumes["purged material"].high_mm, volumes["purged material"].low_mm)
    assert sorted(purged) == pytest.approx(sorted(size))
    assert "purged material" not in {each.name for each in machine_volumes(on)}


def test_the_part_stands_where_it_fits_or_else_in_the_middle_of_what_its_nozzle_reaches():
    """CALC: the second nozzle of `machine` reaches less; what is too large stands in its middle."""
    on = machine()
    small, large = outline(bar(50, 50)), outline(bar(500, 50))
    fits, not_fits = fit_machine(small, on, WHOLE), fit_machine(large, on, WHOLE)
    assert standing_place_mm(on, fits) == fits.place_mm
    reach = volume_of_part(on, not_fits)
    nozzle = on.nozzles[not_fits.nozzles[0]]
    assert np.all(np.array(reach.low_mm) >= np.maximum(nozzle.reach_low_mm, on.low_mm))
    assert np.all(np.array(reach.high_mm) <= np.minimum(nozzle.reach_high_mm, on.high_mm))
    middle = 0.5 * (np.array(reach.low_mm) + reach.high_mm)
    assert standing_place_mm(on, not_fits) == pytest.approx(tuple(middle[:2]))
