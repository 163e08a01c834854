"""Groups are the connected pieces that an independent library finds."""

import networkx
import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from viewer.geometry.union_find import join_groups, lowest_of_group

numbers = st.integers(0, 29)


@given(st.lists(st.tuples(numbers, numbers), max_size=60))
def test_each_number_finds_the_lowest_of_its_piece(pairs):
    parent = np.arange(30)
    for one, other in pairs:
        join_groups(parent, one, other)
    graph = networkx.Graph(pairs)
    graph.add_nodes_from(range(30))
    for piece in networkx.connected_components(graph):
        assert {int(lowest_of_group(parent, n)) for n in piece} == {min(piece)}
