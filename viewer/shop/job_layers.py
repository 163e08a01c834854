"""A print job layer by layer: that part of a pose's measures which time depends on."""

from dataclasses import dataclass

import numpy as np

from viewer.errors import RequestProblem
from viewer.geometry.mesh import frozen
from viewer.geometry.pose_measures import PoseMeasures
from viewer.words import say


@dataclass(frozen=True, eq=False)
class JobLayers:
    """The layers of one pose, lowest first.

    area_mm2, perimeter_mm : (k,) float64, section of the part
    support_mm2 : (k,) float64, plan area of the supports
    touch_plan_mm2 : (k,) float64, plan area of the undersides in this layer that rest on supports
    landing_mm2 : (k,) float64, area of the part on which supports begin in this layer
    support_error : one standard error of the support's volume as a share of it
    """

    layer_mm: float
    area_mm2: np.ndarray
    perimeter_mm: np.ndarray
    support_mm2: np.ndarray
    touch_plan_mm2: np.ndarray
    landing_mm2: np.ndarray
    support_error: float = 0.0

    def contact_mm2(self, contact_layers: int) -> np.ndarray:
        """(k,) float64: of the support's section what lies within so many layers of the part."""
        near = np.zeros(len(self.area_mm2))
        for step in range(1, min(contact_layers, len(near)) + 1):
            near[:-step] += self.touch_plan_mm2[step:]
            near[step - 1 :] += self.landing_mm2[: len(near) - step + 1]
        return np.minimum(near, self.support_mm2)


def layers_of(measures: PoseMeasures) -> JobLayers:
    """The layers out of the full tier's measures.

    The profile knows the true area of the undersides in each layer; their plan area is taken in
    the proportion that the whole of them has. Where supports begin on the part is told from how
    their section grows, made to agree with the whole landing.
    Raises RequestProblem if the layers were not measured.
    """
    profile = measures.profile
    if profile is None:
        raise RequestProblem(
            say("The layers are not measured yet; wait until the part lies still.")
        )
    touch = profile.touch_mm2.sum(axis=1)
    plan = touch * min(measures.support_plan_area_mm2 / max(touch.sum(), 1e-12), 1.0)
    support = profile.support_area_mm2
    landing = measures.landing_area_mm2.total - measures.landing_area_mm2.platform
    error = measures.error.get("support_volume_mm3", 0.0)
    return JobLayers(
        profile.layer_mm,
        profile.area_mm2,
        profile.perimeter_mm,
        support,
        frozen(plan),
        frozen(_starts(support, plan, landing)),
        float(error) / max(measures.support_volume_mm3, 1e-9) if error else 0.0,
    )


def _starts(support: np.ndarray, plan: np.ndarray, landing_mm2: float) -> np.ndarray:
    """(k,) area on which supports begin above the platform; their sum is `landing_mm2`."""
    begun = np.zeros(len(support))
    if len(begun) > 1 and landing_mm2 > 0:
        begun[1:] = np.maximum(np.diff(support) + plan[1:], 0.0)
        begun *= landing_mm2 / max(begun.sum(), landing_mm2 * 1e-6)
    return begun
