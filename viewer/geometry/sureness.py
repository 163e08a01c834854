"""How sure sampled numbers have to be at rest: three standard errors within 1 % of the number.

Or within 0.1 % of the part, of its area for areas and of its box for volumes, if that is more.
"""

import numpy as np

RELATIVE, OF_PART, ERRORS = 0.01, 0.001, 3.0


def over_allowed(values: np.ndarray, errors: np.ndarray, whole: float) -> float:
    """By how much the least sure number misses it; at most 1 where all are sure enough.

    values, errors : (k,) float64; whole : area of the part, or volume of its box, in their unit
    """
    allowed = np.maximum(RELATIVE * np.abs(values), OF_PART * whole)
    return float((ERRORS * np.asarray(errors) / np.maximum(allowed, 1e-300)).max(initial=0.0))
