"""The speed table has every row, whatever the figures: times are printed, never judged."""

import json

import numpy as np
import pytest

from tests.speed.__main__ import facet_counts, main
from tests.speed.made_meshes import bumpy_ball
from tests.speed.rows import ROWS

KEYS = {"measure", "faces", "ours_s", "against", "theirs_s", "ratio", "goal"}


# The start of the program is timed with the demo and nothing beside it, so only by hand.
@pytest.mark.parametrize("name", [name for name in ROWS if name != "start"])
def test_each_row_is_complete(name, capsys):
    assert main(["--faces", "2k", "--only", name, "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert rows
    for row in rows:
        assert set(row) == KEYS
        assert row["faces"] == pytest.approx(2000, rel=0.1)
        assert row["ratio"] > 0
        if row["ours_s"] is not None:
            assert row["ratio"] == pytest.approx(row["theirs_s"] / row["ours_s"])


def test_three_times_the_facets_are_compared(capsys):
    main(["--faces", "2k,6k", "--only", "tiers", "--json"])
    measures = [row["measure"] for row in json.loads(capsys.readouterr().out)]
    assert measures[-1] == "full tier, 3 × the facets"


def test_counts_as_people_write_them():
    assert facet_counts("50k,1M,700") == [50_000, 1_000_000, 700]


def test_the_made_mesh_is_a_closed_ball_turned_outward():
    mesh = bumpy_ball(5000)
    edges = np.sort(mesh.faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    assert set(np.unique(edges, axis=0, return_counts=True)[1]) == {2}
    assert mesh.signed_volume_mm3 > 30_000
