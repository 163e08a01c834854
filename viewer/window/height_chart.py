"""What the height strip draws: curves, bands and ticks against height, as plain numbers."""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_profile import PoseProfile
from viewer.scene.fault_looks import FaultLook, look_of
from viewer.window.quantities import count_text, number_text
from viewer.words import say


class Style(Enum):
    """How a curve is drawn."""

    BODY = "body"  # stands on the axis
    DASHED = "dashed"
    HATCHED = "hatched"


@dataclass(frozen=True, eq=False)
class Curve:
    """One value for each layer, lowest first."""

    name: str
    unit: str
    values: np.ndarray
    style: Style

    @property
    def highest(self) -> float:
        """The largest value."""
        return float(self.values.max(initial=0.0))

    def text(self, layer: int) -> str:
        """Its value in a layer, such as "area 812 mm²"."""
        return f"{self.name} {number_text(float(self.values[layer]))} {self.unit}"


@dataclass(frozen=True)
class Band:
    """Neighbouring layers with one kind of fault, from `first` to `last`, both included."""

    first: int
    last: int
    look: FaultLook
    words: str


@dataclass(frozen=True, eq=False)
class Chart:
    """Everything against height.

    islands : how many islands start in each layer; () without a part
    """

    layer_mm: float = 0.0
    height_mm: float = 0.0
    curves: tuple[Curve, ...] = ()
    bands: tuple[Band, ...] = ()
    islands: np.ndarray | tuple[()] = ()

    @property
    def layer_count(self) -> int:
        """Layers of the part, 0 without one."""
        return len(self.curves[0].values) if self.curves else 0

    def middle_mm(self, layer: int) -> float:
        """Height at which a layer is cut: halfway through it."""
        return (layer + 0.5) * self.layer_mm

    def layer_words(self, layer: int) -> list[str]:
        """Height, number and measures of a layer."""
        words = [
            f"{number_text(self.middle_mm(layer), 2)} mm",
            say(
                "layer {layer:,} of {layer_count:,}", layer=layer + 1, layer_count=self.layer_count
            ),
            *(curve.text(layer) for curve in self.curves if curve.values.any()),
        ]
        if self.islands[layer]:
            count = int(self.islands[layer])
            words.append(
                say("{islands} here", islands=count_text(count, "island starts", "islands start"))
            )
        return words

    def fault_words(self, layer: int) -> list[str]:
        """The faults that reach into a layer."""
        return sorted({band.words for band in self.bands if band.first <= layer <= band.last})


def chart_of(profile: PoseProfile | None, height_mm: float, report: HealthReport | None) -> Chart:
    """The chart of a pose; an empty one without a profile."""
    if profile is None or not len(profile.area_mm2):
        return Chart()
    curves = (
        Curve(say("area"), "mm²", profile.area_mm2, Style.BODY),
        Curve(say("support"), "mm²", profile.support_area_mm2, Style.HATCHED),
        Curve(say("perimeter"), "mm", profile.perimeter_mm, Style.DASHED),
    )
    bands = bands_of(report, len(profile.area_mm2))
    return Chart(profile.layer_mm, height_mm, curves, bands, profile.islands)


def bands_of(report: HealthReport | None, layer_count: int) -> tuple[Band, ...]:
    """Runs of layers with faults, kind by kind; layers beyond the last belong to the last."""
    bands = []
    for fault in report.faults if report is not None and layer_count else ():
        layers = np.unique(np.minimum(np.asarray(fault.layers, np.int64), layer_count - 1))
        for run in np.split(layers, np.flatnonzero(np.diff(layers) > 1) + 1):
            if len(run):
                bands.append(Band(int(run[0]), int(run[-1]), look_of(fault.kind), fault.words))
    return tuple(bands)


def steps(values: np.ndarray, width_px: int) -> np.ndarray:
    """(width_px,) the largest value among the layers under each pixel, so that no peak is lost."""
    starts = np.arange(width_px) * len(values) // width_px
    if len(values) <= width_px:
        return values[starts]
    return np.maximum.reduceat(values, starts)


def round_step(least: float) -> float:
    """The smallest of 1, 2, 5 times a power of ten that is no less than `least`."""
    power = 10.0 ** np.floor(np.log10(max(least, 1e-9)))
    return float(next(k * power for k in (1.0, 2.0, 5.0, 10.0) if k * power >= least * (1 - 1e-9)))
