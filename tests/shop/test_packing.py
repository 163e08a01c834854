"""Pieces on a platform: none overlap, all within reach, closed forms for copies."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.few import few
from tests.shop.made_jobs import machine
from viewer.errors import RequestProblem
from viewer.shop.free_rectangles import free_rectangles, reach_of
from viewer.shop.machines import ForbiddenArea, Nozzle
from viewer.shop.packing import Footprint, most_copies, pack
from viewer.shop.placing import Rectangle

CORNER = ForbiddenArea(low_mm=(-100.0, -100.0), high_mm=(-70.0, -60.0))


LEFT = Nozzle(name="left", reach_low_mm=(-100, -100, 0), reach_high_mm=(50, 100, 200))
RIGHT = Nozzle(name="right", reach_low_mm=(-50, -100, 0), reach_high_mm=(100, 100, 150))


def pack_on_platform(sizes, on, *rest):
    return pack([Footprint(f"piece {k}", size) for k, size in enumerate(sizes)], on, *rest)


def most(size, *rest):
    return most_copies(Footprint("copy", size), *rest)


def boxes(sizes, places):
    found = []
    for (x, y), place in zip(sizes, places, strict=True):
        width, depth = (y, x) if place.turned else (x, y)
        found.append((place.x_mm - width / 2, place.y_mm - depth / 2,
                      place.x_mm + width / 2, place.y_mm + depth / 2))  # fmt: skip
    return found


def gap(a, b):
    """Distance along x or y, whichever is larger; below 0 where they overlap."""
    return max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])


@given(
    st.lists(st.tuples(st.floats(3, 70), st.floats(3, 70)), min_size=1, max_size=12),
    st.floats(0, 10),
    st.booleans(),
)
@settings(max_examples=few(20, 60), deadline=None)
def test_pieces_keep_their_gap_and_stay_on_the_platform(sizes, gap_mm, corner):
    on = machine(forbidden=(CORNER,) if corner else ())
    try:
        places = pack_on_platform(sizes, on, gap_mm)
    except RequestProblem:
        # Refused only where it is tight: rows of the largest piece would not fit either.
        assert sum((x + gap_mm) * (y + gap_mm) for x, y in sizes) > 0.3 * 200 * 140
        return
    found = boxes(sizes, places)
    for i, one in enumerate(found):
        assert min(one) >= -100 - 1e-6
        assert max(one) <= 100 + 1e-6
        assert all(gap(one, other) >= gap_mm - 1e-6 for other in found[:i])
        if corner:
            assert gap(one, (-100, -100, -70, -60)) >= -1e-6


@pytest.mark.parametrize(
    ("size", "gap_mm", "count"),
    [((50, 50), 0, 16), ((45, 45), 5, 16), ((47, 45), 5, 12), ((100, 40), 0, 10), ((201, 1), 0, 0)],
)
def test_copies_in_rows(size, gap_mm, count):
    """CALC: floor((200 + gap) / (side + gap)) in each direction."""
    assert most(size, machine(), gap_mm) == count


def test_a_forbidden_corner_and_a_purged_body_take_room():
    """CALC: of 4 × 4 squares of 50 a corner of 30 × 40 takes one, and so does a body of 50 × 50."""
    on = machine(forbidden=(CORNER,))
    assert most((50, 50), on, 0) == 15
    assert most((50, 50), machine(), 0, (50, 50)) == 15


def test_pieces_stand_where_all_nozzles_reach():
    (place,) = pack_on_platform([(90, 90)], machine(nozzles=(LEFT, RIGHT)))
    assert place.x_mm == pytest.approx(0)
    with pytest.raises(RequestProblem, match="2 pieces do not find room"):
        pack_on_platform([(90, 101), (90, 101)], machine(nozzles=(LEFT, RIGHT)))


def test_a_long_piece_is_turned():
    (place,) = pack_on_platform([(30, 190)], machine(forbidden=(
        ForbiddenArea(low_mm=(-100, -100), high_mm=(100, -60)),)))  # fmt: skip
    assert place.turned
    assert pack_on_platform([], machine()) == ()


@given(
    st.lists(
        st.tuples(st.floats(5, 45), st.floats(5, 45), st.sampled_from([(), (0,), (1,), (0, 1)])),
        min_size=1,
        max_size=9,
    ),
    st.booleans(),
    st.sampled_from([(0.0, 0.0), (30.0, 20.0)]),
)
@settings(max_examples=few(20, 60), deadline=None)
def test_each_piece_lies_where_its_own_nozzles_reach(pieces, corner, body):
    on = machine(nozzles=(LEFT, RIGHT), forbidden=(CORNER,) if corner else ())
    asked = [Footprint(f"{k}", size[:2], 10.0, size[2], k > 0) for k, size in enumerate(pieces)]
    try:
        places = pack(asked, on, 3.0, body)
    except RequestProblem:
        assert sum((p.size_mm[0] + 3) * (p.size_mm[1] + 3) for p in asked) > 0.3 * 100 * 200
        return
    found = boxes([piece.size_mm for piece in asked], places)
    assert not places[0].turned
    for k, one in enumerate(found):
        reach = reach_of(on, asked[k].nozzles)
        assert one[0] >= reach.low_mm[0] - 1e-6
        assert one[1] >= reach.low_mm[1] - 1e-6
        assert one[2] <= reach.high_mm[0] + 1e-6
        assert one[3] <= reach.high_mm[1] + 1e-6
        assert all(gap(one, other) >= 3.0 - 1e-6 for other in found[:k])
        if corner:
            assert gap(one, (-100, -100, -70, -60)) >= -1e-6


def test_what_one_nozzle_prints_may_stand_where_the_other_does_not_reach():
    """CALC: both reach x from −50 to 50; 90 × 190 of each alone finds room beside it, 50 wide."""
    on = machine(nozzles=(LEFT, RIGHT))
    both, left, right = (
        Footprint("both", (90.0, 190.0)),
        Footprint("left", (40.0, 190.0), nozzles=(0,)),
        Footprint("right", (40.0, 190.0), nozzles=(1,)),
    )
    places = pack([left, both, right], on, 5.0)
    assert places[0].x_mm + 20 + 5 <= places[1].x_mm - 45 + 1e-6
    assert places[1].x_mm + 45 + 5 <= places[2].x_mm - 20 + 1e-6
    with pytest.raises(RequestProblem, match="do not find room"):
        pack([left._replace(nozzles=()), both, right], on, 5.0)


def test_a_piece_too_high_for_its_nozzle_is_named():
    on = machine(nozzles=(LEFT, RIGHT))
    assert pack([Footprint("tall", (20, 20), 180.0, (0,))], on)
    with pytest.raises(RequestProblem, match=r'tall is 180 mm high, and ".*" prints up to 150 mm'):
        pack([Footprint("tall", (20, 20), 180.0, (1,))], on)


@given(
    st.lists(st.tuples(*[st.integers(0, 9)] * 4), max_size=4),
    st.tuples(st.integers(1, 10), st.integers(1, 10)),
)
def test_a_rectangle_is_free_if_and_only_if_it_lies_in_one_that_is_told(corners, size):
    """Against the definition, every place of a rectangle of whole sizes tried."""
    taken = [Rectangle((min(a, c), min(b, d)), (max(a, c) + 1, max(b, d) + 1))
             for a, b, c, d in corners]  # fmt: skip
    told = free_rectangles(Rectangle((0.0, 0.0), (10.0, 10.0)), taken)
    width, depth = size
    for x in range(11 - width):
        for y in range(11 - depth):
            one = Rectangle((x, y), (x + width, y + depth))
            holds = any(
                r.low_mm[0] <= x and r.low_mm[1] <= y and x + width <= r.high_mm[0]
                and y + depth <= r.high_mm[1] for r in told
            )  # fmt: skip
            assert holds == (not any(one.overlaps(each) for each in taken))
