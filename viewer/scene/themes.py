"""The light and the dark look of the scene."""

from dataclasses import dataclass

from viewer.scene.palettes import BLUE, YELLOW, Colour, colour


@dataclass(frozen=True)
class Theme:
    """Colours of everything that is not a measure.

    background_top, background_bottom : behind the scene, blended from one to the other
    card : behind a legend; text : letters and numbers
    platform, grid, grid_strong : the build platform and its lines
    contour : lines at a limit and between classes; accent : what the pointer is on
    halo : drawn round accent lines so that they show on every colour of the part
    """

    name: str
    background_top: Colour
    background_bottom: Colour
    card: Colour
    text: Colour
    platform: Colour
    grid: Colour
    grid_strong: Colour
    contour: Colour
    accent: Colour
    halo: Colour
    ring: Colour
    support: Colour


LIGHT = Theme(
    name="light",
    background_top=colour("FAFAF8"),
    background_bottom=colour("E4E6E8"),
    card=colour("FFFFFF"),
    text=colour("2B2D30"),
    platform=colour("EEEFF0"),
    grid=colour("CFD3D7"),
    grid_strong=colour("8E959C"),
    contour=colour("1E1E1E"),
    accent=BLUE,
    halo=colour("FFFFFF"),
    ring=colour("5A6068"),
    support=colour("3C4043"),
)

DARK = Theme(
    name="dark",
    background_top=colour("2A2C2F"),
    background_bottom=colour("1A1B1D"),
    card=colour("202224"),
    text=colour("E4E6E8"),
    platform=colour("303336"),
    grid=colour("44494E"),
    grid_strong=colour("7C848C"),
    contour=colour("141414"),
    accent=YELLOW,
    halo=colour("141414"),
    ring=colour("AEB4BB"),
    support=colour("7A8188"),
)
