"""What layers do to a slope: cusp height, terrace width, ideal roughness.

α is the inclination from horizontal (0° floor or ceiling, 90° wall) and |n_z| = cos α. Truly level
surfaces have no stairs, so everything is 0 at α = 0°, as it is at α = 90°.
"""

import numpy as np


def cusp_height_mm(layer_mm: float, inclination_deg: float | np.ndarray) -> np.ndarray:
    """Cusp height C = t·cos α (Dolenc & Mäkelä 1994, Computer-Aided Design 26(2)).

    inclination_deg : float or array, from horizontal
    """
    slope = np.asarray(inclination_deg, np.float64)
    height = layer_mm * np.cos(np.radians(slope))
    return np.where((slope <= 0) | (slope >= 90), 0.0, height)


def terrace_width_mm(layer_mm: float, inclination_deg: float | np.ndarray) -> np.ndarray:
    """Horizontal run of one stair step, s = t / tan α.

    inclination_deg : float or array, from horizontal
    """
    slope = np.asarray(inclination_deg, np.float64)
    stepped = (slope > 0) & (slope < 90)
    return np.where(stepped, layer_mm / np.tan(np.radians(np.where(stepped, slope, 45.0))), 0.0)


def step_along_slope_mm(layer_mm: float, inclination_deg: float | np.ndarray) -> np.ndarray:
    """Length of one stair step measured along the slope, t / sin α.

    inclination_deg : float or array, from horizontal
    """
    slope = np.asarray(inclination_deg, np.float64)
    stepped = (slope > 0) & (slope < 90)
    return np.where(stepped, layer_mm / np.sin(np.radians(np.where(stepped, slope, 45.0))), 0.0)


def ideal_roughness_um(layer_mm: float, inclination_deg: float | np.ndarray) -> np.ndarray:
    """Ideal arithmetic roughness Ra = t·cos α / 4 of a triangular profile, in micrometres.

    inclination_deg : float or array, from horizontal
    """
    return 250.0 * cusp_height_mm(layer_mm, inclination_deg)
