"""Roads, filament and flow: sections, volumes, lengths, masses, and the speed that can be fed."""

import math


def road_area_mm2(road_mm: float, layer_mm: float) -> float:
    """Section of a road: (w − t)·t + π·t²/4, a rectangle with half-round sides (MEM).

    A road narrower than the layer is high is taken as an ellipse of these two axes.
    """
    if road_mm < layer_mm:
        return math.pi / 4 * road_mm * layer_mm
    return (road_mm - layer_mm) * layer_mm + math.pi / 4 * layer_mm**2


def flow_mm3_s(road_section_mm2: float, speed_mm_s: float) -> float:
    """Volume a second: section of the road times speed."""
    return road_section_mm2 * speed_mm_s


def fed_speed_mm_s(speed_mm_s: float, road_section_mm2: float, *flow_limits_mm3_s: float) -> float:
    """The speed asked for, or the fastest that all flow limits feed."""
    asked_mm3_s = flow_mm3_s(road_section_mm2, speed_mm_s)
    return speed_mm_s * min(1.0, *(limit / asked_mm3_s for limit in flow_limits_mm3_s))


def filament_area_mm2(diameter_mm: float) -> float:
    """Section of a round filament."""
    return math.pi / 4 * diameter_mm**2


def filament_length_mm(volume_mm3: float, diameter_mm: float) -> float:
    """Length of filament that holds a volume."""
    return volume_mm3 / filament_area_mm2(diameter_mm)


def mass_g(volume_mm3: float, density_g_cm3: float) -> float:
    """Mass of a volume."""
    return volume_mm3 / 1000.0 * density_g_cm3
