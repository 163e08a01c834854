"""What matters to the user, as it stands in a job file."""

import msgspec

from viewer.geometry.what_matters import WhatMatters


class MattersData(msgspec.Struct):
    """Positions of the sliders and the limits in force, by their keys."""

    weights: dict[str, float] = {}
    limits: list[str] = []


def matters_data(matters: WhatMatters) -> MattersData:
    """What to write."""
    return MattersData(matters.weights, list(matters.limits))


def matters_of(data: MattersData | None) -> WhatMatters:
    """What was written; a job saved before there were sliders has the usual ones.

    Raises RequestProblem for a position that no slider has.
    """
    return WhatMatters() if data is None else WhatMatters.of(data.weights, data.limits)
