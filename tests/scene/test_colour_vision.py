"""Colours of every lens stay apart for eyes that lack one kind of cone.

How such eyes see a colour: Machado, Oliveira & Fernandes 2009, IEEE Trans Vis Comput Graph
15(6):1291, at full severity; how far apart two colours look: CIEDE2000 (ISO/CIE 11664-6:2014). Both
by the library colour-science. `pytest -rP` on this file prints the distances.
"""

import importlib
import warnings
from functools import cache
from itertools import combinations
from types import ModuleType

import numpy as np
import pytest

from tests.scene.conftest import SIDE_PX
from tests.scene.scenery import SETTINGS, Shown, pose_of, show_side
from tests.shapes import cube
from viewer.scene import palettes
from viewer.scene.fault_looks import FAULT_LOOKS
from viewer.scene.legends import legend
from viewer.scene.lenses import Lens

EYES = {
    "all cones": None,
    "protanopia": "Protanomaly",
    "deuteranopia": "Deuteranomaly",
    "tritanopia": "Tritanomaly",
}
APART = 10.0  # told apart at a glance, side by side: common practice, no source
NOTICEABLE = 2.3  # just noticeable difference, Mahy et al. 1994, as CIE76: from memory

each_eye = pytest.mark.parametrize("eye", EYES)


@cache
def colour_science() -> ModuleType:
    """Loading it takes a second, which workers that run other tests need not spend."""
    return importlib.import_module("colour")


def seen(rgb, eye: str) -> np.ndarray:
    """(3,) CIE L*a*b* of an sRGB colour 0 to 1 as this eye sees it."""
    colour = colour_science()
    linear = colour.models.eotf_sRGB(np.asarray(rgb, float))
    if EYES[eye]:
        with warnings.catch_warnings():  # for blue cones the model is an approximation, it says
            warnings.simplefilter("ignore", colour.utilities.ColourUsageWarning)
            matrix = colour.blindness.matrix_cvd_Machado2009(EYES[eye], 1.0)
        linear = np.clip(matrix @ linear, 0.0, 1.0)
    return colour.XYZ_to_Lab(colour.RGB_to_XYZ(linear, "sRGB", apply_cctf_decoding=False))


def distance(one, other, eye: str) -> float:
    """CIEDE2000 distance of two sRGB colours for this eye."""
    return float(colour_science().delta_E(seen(one, eye), seen(other, eye), method="CIE 2000"))


def nearest(named: dict, eye: str, pairs=None) -> float:
    """The smallest distance among these colours, or the named pairs; prints it with the names."""
    pairs = list(pairs or combinations(named, 2))
    gaps = {pair: distance(named[pair[0]], named[pair[1]], eye) for pair in pairs}
    pair = min(gaps, key=gaps.get)
    print(f"{eye}: nearest are {pair[0]} and {pair[1]}, ΔE {gaps[pair]:.1f}")
    return gaps[pair]


def patch(stage) -> np.ndarray:
    """(3,) mean colour of the middle of the picture, hatch and all."""
    middle = slice(SIDE_PX // 2 - 24, SIDE_PX // 2 + 24)
    return stage.draw()[middle, middle].mean(axis=(0, 1))


def test_the_simulation_does_what_is_published():
    """Greys stay as they are; red and green of one lightness fall together without M cones (CALC:
    rows of the matrices sum to 1, and the pair lies on a confusion line of the simulation)."""
    for eye in EYES:
        np.testing.assert_allclose(seen((0.5, 0.5, 0.5), eye)[1:], 0.0, atol=0.05)
    red, green = (0.80, 0.40, 0.25), (0.53, 0.53, 0.26)
    assert distance(red, green, "all cones") > 25
    assert distance(red, green, "deuteranopia") < 0.5 * distance(red, green, "all cones")


@each_eye
def test_classes_in_the_picture(stage, eye):
    named = {}
    for which, name in enumerate(("unmarked", "class A", "class B")):
        classes = np.full(12, which, np.uint8)
        show_side(stage, cube(), np.eye(3), (1, 0, 0), Lens.CLASSES, classes=classes)
        named[name] = patch(stage)
    assert nearest(named, eye) >= APART


@each_eye
def test_touch_in_the_picture(stage, eye):
    """A hatched underside of each class, and the same underside where no support touches it."""
    named = {}
    for which, name in enumerate(("unmarked", "class A", "class B")):
        for share, what in ((0.0, "free"), (1.0, "touched")):
            show_side(
                stage, cube(), np.eye(3), (0, 0, -1), Lens.TOUCH, height_mm=5.0,
                measures=Shown(np.full(12, share), np.zeros(12)),
                classes=np.full(12, which, np.uint8),
            )  # fmt: skip
            named[f"{name} {what}"] = patch(stage)
    touched = [name for name in named if name.endswith("touched")]
    free = [name for name in named if name.endswith("free")]
    pairs = [(one, other) for one in touched for other in free] + list(combinations(touched, 2))
    assert nearest(named, eye, pairs) >= APART
    # Behind the marks the classes are a pale reminder; their letters stand in the legend.
    assert nearest({name: named[name] for name in free}, eye) >= NOTICEABLE


@each_eye
def test_fault_families(eye):
    """The colours themselves; that the picture shows them is tested in test_faults_and_cut."""
    named = {look.label: look.colour for look in FAULT_LOOKS}
    named["nothing wrong"] = palettes.WARM_GREY
    assert nearest(named, eye) >= APART


@each_eye
@pytest.mark.parametrize("lens", [Lens.OVERHANG, Lens.TERRACES, Lens.DEVIATION, Lens.DIFFERENCE])
def test_scales_run_one_way_and_end_far_from_their_start(eye, lens):
    """Along a scale the lightness never turns back; where it has a middle, in each half."""
    stops = legend(lens, SETTINGS).scale.stops
    halves = [stops[:128], stops[:127:-1]] if lens is Lens.DIFFERENCE else [stops]
    for half in halves:
        named = {"start": half[0], "end": half[-1]}
        assert nearest(named, eye) >= 3 * APART
        steps = np.diff([seen(rgb, eye)[0] for rgb in half])
        assert np.all(steps * np.sign(steps.sum()) > -0.35)
    if lens is Lens.DIFFERENCE:
        assert nearest({"better": stops[0], "worse": stops[-1]}, eye) >= APART


@each_eye
def test_rough_places_in_the_printed_look(stage, eye):
    """A wall that support was broken off is duller than one that came out clean."""
    named = {}
    for share, name in ((0.0, "clean"), (1.0, "rough")):
        scene, mesh = stage.scene, cube()
        scene.set_settings(SETTINGS)
        scene.set_lens(Lens.PRINTED)
        scene.show_part(mesh)
        scene.set_pose(pose_of(mesh, np.eye(3), 5.0))
        scene.show_measures(Shown(np.full(12, share), np.ones(12)))
        scene.set_view_direction(np.array([0.0, -1.0, 0.0]))
        named[name] = patch(stage)
    assert nearest(named, eye) >= NOTICEABLE
