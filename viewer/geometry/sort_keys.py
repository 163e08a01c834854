"""Sort whole numbers by their digits: in steady time, and free to stop at any moment."""

import numpy as np

from viewer.geometry.compiled import LOOK_EVERY, compiled
from viewer.progress import Progress

_DIGIT_BITS = 11  # the counters of one digit fit into the nearest cache


def order_of_keys(keys: np.ndarray, progress: Progress | None = None) -> np.ndarray:
    """(m,) int32: places of the keys ((m,) uint64), lowest first; equal keys keep their order.

    Digit by digit from the lowest (LSD radix sort; MEM: Knuth, The Art of Computer Programming,
    volume 3, section 5.2.5). Raises Cancelled through `progress`.
    """
    progress = progress or Progress()
    bits = int(keys.max(initial=0)).bit_length()
    order = _order_by_digits(keys, bits, progress.stop_flag)
    progress.check()
    return order


@compiled
def _order_by_digits(keys, bits, stop):
    here, order = keys.copy(), np.arange(len(keys)).astype(np.int32)
    there, next_order = np.empty_like(here), np.empty_like(order)
    places = np.empty(1 << _DIGIT_BITS, np.int64)
    mask = np.uint64((1 << _DIGIT_BITS) - 1)
    for low_bit in range(0, bits, _DIGIT_BITS):
        shift = np.uint64(low_bit)
        places[:] = 0
        for i in range(len(here)):
            places[(here[i] >> shift) & mask] += 1
        total = 0
        for digit in range(len(places)):
            total, places[digit] = total + places[digit], total
        for i in range(len(here)):
            if i % LOOK_EVERY == 0 and stop[0]:
                return order
            digit = (here[i] >> shift) & mask
            at = places[digit]
            places[digit] = at + 1
            there[at], next_order[at] = here[i], order[i]
        here, there = there, here
        order, next_order = next_order, order
    return order
