"""Counting copies without making them, against plain recursion."""

import time

from hypothesis import given
from hypothesis import strategies as st

from viewer.files.component_count import components_of, most_copies
from viewer.progress import Progress


@given(st.lists(st.lists(st.integers(0, 8), max_size=4), min_size=1, max_size=9))
def test_it_counts_what_recursion_counts(children):
    earlier = [[child for child in row if child < k] for k, row in enumerate(children)]

    def count(k):
        return sum(count(child) for child in earlier[k]) or 1

    components = {(b"m", k): [(b"m", c) for c in row] for k, row in enumerate(earlier)}
    assert most_copies(components) == max(count(k) for k in range(len(earlier)))


def test_doubling_two_hundred_times_takes_no_time():
    components = {(b"m", k): [(b"m", k - 1)] * 2 for k in range(1, 201)}
    start = time.process_time()
    assert most_copies(components) == 2**200
    assert time.process_time() - start < 0.5


def test_circles_end():
    a, b = (b"m", 1), (b"m", 2)
    assert most_copies({a: [b, b], b: [a]}) >= 1


def test_components_are_found_across_parts_and_spellings():
    xml = (
        b'<m:object id="1"><m:mesh/></m:object><object type="model" name="a" id=\'2\'><components>'
        b'<component p:path="/3D/Other.model" objectid="7"/><m:component transform="1 0" '
        b"objectid='1' p:UUID='x'/></components></object>"
    )
    assert components_of("/3D/3dmodel.model", xml, Progress()) == {
        (b"3D/3dmodel.model", 1): [],
        (b"3D/3dmodel.model", 2): [(b"3D/Other.model", 7), (b"3D/3dmodel.model", 1)],
    }
