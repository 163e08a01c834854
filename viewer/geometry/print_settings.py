"""The process settings that the measures of a pose depend on."""

from dataclasses import dataclass

from viewer.errors import RequestProblem
from viewer.words import say


@dataclass(frozen=True)
class PrintSettings:
    """Layer height, support limit (from horizontal), road width, bridge limit, clearance, terraces.

    bridge_mm = 0 switches bridging off. clearance_mm is the distance within which a support body
    marks the part it passes (graze). visible_terrace_mm is the width from which terraces count as
    visible, 0 for the road width.
    """

    layer_mm: float = 0.2
    support_limit_deg: float = 45.0
    road_mm: float = 0.42
    bridge_mm: float = 0.0
    clearance_mm: float = 0.4
    visible_terrace_mm: float = 0.0

    def __post_init__(self) -> None:
        checks = (
            (0.01 <= self.layer_mm <= 5, say("The layer height must lie between 0.01 and 5 mm.")),
            (
                0 <= self.support_limit_deg <= 90,
                say("The support limit must lie between 0° and 90°."),
            ),
            (0.05 <= self.road_mm <= 10, say("The road width must lie between 0.05 and 10 mm.")),
            (0 <= self.bridge_mm <= 200, say("The bridge limit must lie between 0 and 200 mm.")),
            (0 <= self.clearance_mm <= 10, say("The clearance must lie between 0 and 10 mm.")),
            (
                0 <= self.visible_terrace_mm <= 20,
                say("The width of visible terraces must lie between 0 and 20 mm."),
            ),
        )
        for holds, sentence in checks:
            if not holds:  # also catches NaN, which fails every comparison
                raise RequestProblem(sentence)

    @property
    def shown_terrace_mm(self) -> float:
        """Width from which terraces count as visible."""
        return self.visible_terrace_mm or self.road_mm
