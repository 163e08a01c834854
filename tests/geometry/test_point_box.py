"""The box of points against numpy's own minimum and maximum."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from viewer.geometry.point_box import point_box


@pytest.mark.parametrize("kind", [np.float32, np.float64])
@given(data=st.data())
def test_it_is_the_box_of_the_finite_points(kind, data):
    points = data.draw(hnp.arrays(kind, st.tuples(st.integers(0, 20), st.just(3))))
    finite = np.isfinite(points).all(axis=1)
    box, strange = point_box(points)
    assert strange == np.count_nonzero(~finite)
    if finite.any():
        assert np.array_equal(box, [points[finite].min(axis=0), points[finite].max(axis=0)])
