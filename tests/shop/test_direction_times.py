"""Time, material and money of every direction: the fit against what is reckoned layer by layer.

The accuracy on meshes made by others is printed by

    .venv/bin/pytest -s tests/shop/test_direction_times.py
"""

import numpy as np
import pytest
from scipy.optimize import nnls

from tests import shapes
from tests.few import few
from tests.geometry.direction_truth import rank_correlation, searched
from tests.shared_meshes import open_mesh
from viewer.files.mesh_files import read_part
from viewer.files.shop_folder import read_user_shop
from viewer.geometry.aims import QUICKEST
from viewer.geometry.check_directions import check_best, measure_row
from viewer.geometry.direction_search import SearchRequest, rays_for
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ranking import rank_directions
from viewer.progress import Progress
from viewer.shop.direction_times import KEYS, _prices, times_of_directions
from viewer.shop.shop_choice import ShopChoice


def request(mesh, directions, choice=ShopChoice(), **more):  # noqa: B008 -- a frozen value
    part, settings = prepare_part(mesh), PrintSettings()
    times = times_of_directions(read_user_shop(), choice, settings, ())
    face_classes = np.zeros(mesh.face_count, np.uint8)
    return SearchRequest(
        part, face_classes, settings, directions=directions, further=times, refine=False, **more
    )


def true_values(asked, table, rows):
    """(r, 3) float64: KEYS of rows by the full tier."""
    found = [asked.further.of_pose(measure_row(asked, table, row, Progress())) for row in rows]
    return np.array([[each[key] for key in KEYS] for each in found])


def test_the_fit_is_that_of_another_library():
    """Least squares of relative errors, not negative, as by Lawson & Hanson (scipy)."""
    rng = np.random.default_rng(1)
    amounts = rng.uniform(0, 1, (22, 5)) * [1, 10, 300, 0.1, 2]
    wanted = amounts @ [2.0, 0.0, 0.3, 40.0, 0.0] * rng.normal(1, 0.1, 22)
    theirs, _ = nnls(amounts / wanted[:, None], np.ones(22))
    np.testing.assert_allclose(_prices(amounts, wanted), theirs, rtol=1e-3, atol=1e-4)


def test_layers_of_a_direction_tell_what_the_full_tier_tells():
    """Row 22 upright: sections are exact, supports known but for their rays."""
    asked = request(shapes.post_and_cap(), 20)
    table = searched(asked)
    row = table.nearest(np.array([0, 0, 1.0]))
    rayed = rays_for(asked, Progress())
    mine = asked.further.of_direction(rayed, table.directions[row], Progress())
    np.testing.assert_allclose(mine, true_values(asked, table, [row])[0], rtol=0.02)


def test_the_quickest_of_the_checked_is_first_and_its_sentence_says_so():
    asked = request(shapes.l_bracket(), 42, weights=QUICKEST.weights, limits=())
    table = searched(asked)
    assert np.isfinite(table.column("time_min")).all()
    assert (table.column("material_g") > 0).all()
    *_, checked = check_best(asked, table, 3)
    poses = rank_directions(checked.table, {"quick": 1.0}, (), 3).poses
    times = [checked.table.row(pose.index)["time_min"] for pose in poses]
    assert times == sorted(times)
    assert poses[0].why.endswith("; the quickest of these.")
    true = true_values(asked, table, [poses[0].index])[0]
    assert times[0] == pytest.approx(true[0])


def test_without_a_shop_the_slider_for_time_tells_nothing():
    asked = request(shapes.l_bracket(), 12)
    plain = SearchRequest(
        asked.part, asked.face_classes, asked.settings, directions=12, refine=False
    )
    table = searched(plain)
    assert np.isnan(table.column("time_min")).all()
    ranking = rank_directions(table, QUICKEST.weights, ())
    assert ranking.poses
    assert "quickest" not in ranking.poses[0].why


@pytest.mark.timeout(900)
@pytest.mark.parametrize("pair", few(["PLA with PVA"], ["", "PLA with PVA"]))
def test_accuracy_on_a_mesh_made_by_others(pair):
    """Spread directions by the full tier: rank correlation and median error of the fit."""
    mesh = read_part(open_mesh("so-arm100/Small_Leader_Handle.STL"), unit="mm").part.mesh
    asked = request(mesh, 60, ShopChoice(pair=pair))
    table = searched(asked)
    rows = np.arange(20, 60, 4)
    true = true_values(asked, table, rows)
    for i, key in enumerate(KEYS):
        ours = table.column(key)[rows]
        correlation = rank_correlation(ours, true[:, i])
        error = np.median(np.abs(ours - true[:, i]) / true[:, i])
        print(f"{key}, {pair or 'one material'}: rank correlation {correlation:.3f}, "
              f"median error {100 * error:.1f} %")  # fmt: skip
        assert correlation > 0.85
        assert error < 0.1
