"""Sort whole numbers in pieces of a few milliseconds, so that the sorting can stop in between."""

import numpy as np

from viewer.geometry.compiled import LOOK_BITS, compiled
from viewer.progress import Progress

_DIGIT_BITS = 11  # the counters of one digit fit into the nearest cache
_AT_ONCE = 1 << 15  # keys sorted in some 2 ms


def order_of_keys(keys: np.ndarray, progress: Progress | None = None) -> np.ndarray:
    """(m,) int32: places of the keys ((m,) uint64), lowest first; equal keys keep their order.

    The keys are dealt out by their highest digit, then sorted digit by digit's worth. Raises
    Cancelled through `progress`.
    """
    progress = progress or Progress()
    bits = int(keys.max(initial=0)).bit_length()
    low_bits = max(bits - _DIGIT_BITS, 0)
    starts, order = _deal_out(keys, np.uint64(low_bits), progress.stop_flag)
    progress.check()
    first = 0
    while low_bits and first < len(keys):
        # As many digits as make up a piece; a digit alone may have far more keys.
        last = starts[max(np.searchsorted(starts, first + _AT_ONCE, side="right") - 1, 0)]
        if last <= first:
            last = starts[np.searchsorted(starts, first, side="right")]
        few = order[first:last]
        own = keys[few]
        if len(few) <= _AT_ONCE:
            within = np.argsort(own, kind="stable")
        else:
            within = order_of_keys(own & np.uint64((1 << low_bits) - 1), progress)
        order[first:last] = few[within]
        first = last
        progress.check()
    return order


@compiled
def _deal_out(keys, low_bits, stop):
    """Places of the keys by their digit above `low_bits`, and where the keys of each digit start.

    The last of the starts is the number of keys.
    """
    starts = np.zeros((1 << _DIGIT_BITS) + 1, np.int64)
    for i in range(len(keys)):
        starts[np.int64(keys[i] >> low_bits) + 1] += 1
    for digit in range(1 << _DIGIT_BITS):
        starts[digit + 1] += starts[digit]
    order, place = np.empty(len(keys), np.int32), starts.copy()
    for i in range(len(keys)):
        if i & LOOK_BITS == 0 and stop[0]:
            break
        digit = np.int64(keys[i] >> low_bits)
        order[place[digit]] = i
        place[digit] += 1
    return starts, order
