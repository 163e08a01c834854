"""The quick search against the full tier on meshes made by others.

A few directions in every run; all 300 with

    SHOWSIDE_DIRECTIONS=300 .venv/bin/pytest -s tests/geometry/test_direction_accuracy.py

which prints rank correlations and regrets.
"""

import os

import numpy as np
import pytest

from tests.geometry.direction_truth import rank_correlation, searched, true_table
from tests.shared_meshes import open_mesh
from viewer.files.mesh_files import read_part
from viewer.geometry.aims import LEAST_SUPPORT, SHOW_SIDE
from viewer.geometry.direction_search import SearchRequest
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.ranking import rank_directions

DIRECTIONS = int(os.environ.get("SHOWSIDE_DIRECTIONS", "40"))
CHECKED = 10  # how many `check_best` measures by the full tier
MESHES = {
    "so-arm100/Small_Leader_Handle.STL": "mm",  # a handle, 22,778 faces
    "azdle-printables/ergodox-top-case.stl": "mm",  # a flat case, 44,398 faces
    "dm-control-dog/SKINbody.stl": "m",  # an animal's body, 33,900 faces
}


@pytest.mark.timeout(3000)
@pytest.mark.parametrize("name", MESHES)
def test_like_the_full_tier(name):
    mesh = read_part(open_mesh(name), unit=MESHES[name]).part.mesh
    part = prepare_part(mesh)
    # The side that shows: whatever faces one way.
    face_classes = (part.normals @ np.array([0.3, 0.5, 0.8], np.float32) > 0.3).astype(np.uint8)
    asked = SearchRequest(part, face_classes, PrintSettings(), directions=DIRECTIONS, refine=False)
    table = searched(asked)
    rows = np.arange(table.spread)
    true = true_table(asked, table, rows)
    line = [f"{name}, {DIRECTIONS} directions:"]
    for key in ("support_volume_mm3", "touch_mm2", "touch_a_mm2"):
        ours, theirs = table.column(key)[rows], true.column(key)[rows]
        correlation = rank_correlation(ours, theirs)
        line.append(f"{key} rank correlation {correlation:.5f};")
        assert correlation >= 0.99
        best = np.argsort(ours, kind="stable")[:CHECKED]
        before = theirs[best[0]] - theirs.min()
        line.append(f"regret {before:.3g} → {theirs[best].min() - theirs.min():.3g};")
        assert theirs[best].min() == theirs.min()
    # Normals leave nothing to chance: exact but for single precision.
    for key in ("touch_mm2", "touch_a_mm2", "platform_mm2"):
        np.testing.assert_allclose(
            table.column(key)[rows],
            true.column(key)[rows],
            rtol=2e-5,
            atol=2e-5 * part.exposed_mm2.sum(),
        )
    for preset in (SHOW_SIDE, LEAST_SUPPORT):
        ours = rank_directions(table, preset.weights, ())
        theirs = rank_directions(true, preset.weights, ())
        first = ours.best_first[ours.best_first < table.spread][:CHECKED]
        best = np.nanmax(theirs.score[: table.spread])
        line.append(f"{preset.key} regret {best - theirs.score[first].max():.3g} of 100;")
        assert theirs.score[first].max() == best
    print(" ".join(line))
