"""Supports as translucent bodies, their footprint on the platform, their marks on the part."""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkCommonDataModel import vtkPlane, vtkPolyData
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.mesh import Mesh
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_bodies import (
    Quads,
    footprint_rim,
    platform_footprint,
    support_bodies,
)
from viewer.geometry.support_columns import SupportColumns
from viewer.scene.actors import (
    actor_of,
    cut_actors,
    draw_before_surfaces,
    paint,
    set_shape,
    use_point_colours,
)
from viewer.scene.arrays import lines, quads_surface
from viewer.scene.fault_looks import Shape
from viewer.scene.glyphs import Glyphs
from viewer.scene.landing_marks import LandingMarks, dot_the_surface
from viewer.scene.lenses import Lens
from viewer.scene.palettes import ISLAND_COLOUR, MID_GREY, SHUT_IN_COLOUR, Colour
from viewer.scene.themes import Theme

OPACITY, MARKER_PX = 0.34, 15.0
UNSEEN = 0.001  # less than half a grey level; VTK throws away pixels of opacity 0, depth and all
_LIFT_MM = 0.03


class SupportView:
    """What supports look like in a renderer."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        # Glass of one layer: the first actor writes depth only, the second then colours
        # the nearest surface alone. Both go with the opaque actors, after the part; no sorting.
        self._depth, self._bodies = actor_of(), actor_of()
        use_point_colours(self._bodies)
        self._shades = np.zeros(0)
        for actor in (self._depth, self._bodies):
            actor.GetProperty().BackfaceCullingOn()
            actor.ForceOpaqueOn()
        self._footprint, self._rim = actor_of(), actor_of()
        self._landing = LandingMarks()
        draw_before_surfaces(self._rim, 2.0)
        dot_the_surface(self._footprint, "if (inDot < 0.5) discard;")
        draw_before_surfaces(self._footprint, 1.0)
        self._islands = Glyphs(Shape.TRIANGLE, MARKER_PX)
        self._shut_in = Glyphs(Shape.SQUARE, MARKER_PX)
        self._bare = (self._rim, self._footprint, self._landing.actor, self._depth, self._bodies)
        self._actors = (*self._bare, self._islands.actor, self._shut_in.actor)
        for actor in self._bare:
            actor.VisibilityOff()
        self._renderer = renderer
        self.draw_last()
        self._wanted, self._lens, self._present = True, Lens.CLASSES, False
        self._pixel_scale = 1.0
        self.set_theme(theme)
        self.set_pixel_scale(1.0)

    def draw_last(self) -> None:
        """Move behind all actors added so far in the order of drawing."""
        for actor in self._actors:
            self._renderer.RemoveActor(actor)
            self._renderer.AddActor(actor)

    def show(
        self,
        measures: PoseMeasures | None,
        mesh: Mesh | None,
        matrix: np.ndarray,
        classes: np.ndarray,
    ) -> None:
        """Draw the supports of one pose; None for none.

        matrix : (4, 4) of the pose; classes : (m,) uint8 of the faces, for the hue of landings
        """
        columns = measures.columns if measures else None
        self._present = columns is not None and mesh is not None
        if self._present:
            self._islands.show(_posed(measures.island_places, matrix))
            self._shut_in.show(_posed(measures.unreachable_places, matrix))
            bodies = support_bodies(columns)
            shape = quads_surface(bodies)
            set_shape(self._depth, shape)
            set_shape(self._bodies, shape)
            self._shades = _side_shades(bodies)
            self._shade_bodies()
            set_shape(self._footprint, quads_surface(platform_footprint(columns, 0.01)))
            set_shape(self._rim, _rim(columns))
            self._landing.show(columns, mesh, matrix, classes)
        self._apply_visibility()

    def hide_until_shown(self) -> None:
        """The pose moved on: what is drawn no longer belongs to it."""
        self._present = False
        self._apply_visibility()

    def set_wanted(self, supports: bool, lens: Lens) -> None:
        """Whether the user wants to see supports; the lens says how, and what of their landing.

        The Printed look shows the part as it comes out: supports are off, their marks are left.
        """
        self._wanted, self._lens = supports and lens is not Lens.PRINTED, lens
        self._landing.set_lens(lens)
        self._apply_visibility()

    def set_settings(self, settings: PrintSettings) -> None:
        """Layer height and road width, for the marks in the Printed look."""
        self._landing.set_settings(settings)

    def set_print_colour(self, colour: Colour) -> None:
        """The colour of the material, for the marks in the Printed look."""
        self._landing.set_print_colour(colour)

    def _apply_visibility(self) -> None:
        for actor in (self._depth, self._bodies, self._footprint, self._rim):
            actor.SetVisibility(self._present and self._wanted)
        landing_wanted = self._lens in (Lens.TOUCH, Lens.PRINTED)
        self._landing.actor.SetVisibility(self._present and landing_wanted)
        for marks in (self._islands, self._shut_in):
            marks.set_wanted(self._present and self._wanted and self._lens is Lens.TOUCH)

    def set_cut(self, plane: vtkPlane | None) -> None:
        """Leave out what lies above a plane; None: nothing."""
        cut_actors(self._bare, plane)

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        paint(self._depth, theme.support, UNSEEN)
        paint(self._bodies, theme.support, OPACITY)
        self._support = theme.support
        self._shade_bodies()
        paint(self._footprint, MID_GREY)
        self._theme, self._rim_colour = theme, theme.grid_strong
        self._paint_marks()
        paint(self._rim, self._rim_colour, width_px=1.5 * self._pixel_scale)

    def _paint_marks(self) -> None:
        self._islands.paint(ISLAND_COLOUR, self._theme.halo, self._pixel_scale)
        self._shut_in.paint(SHUT_IN_COLOUR, self._theme.halo, self._pixel_scale)

    def _shade_bodies(self) -> None:
        """Give tops, fronts and sides of the bodies slightly different greys."""
        grey = np.clip(self._shades[:, None] * np.array(self._support) * 255, 0, 255)
        colours = np.repeat(grey.round().astype(np.uint8), 4, axis=0)
        data = self._bodies.GetMapper().GetInput()
        if data.GetNumberOfPoints() == len(colours):
            data.GetPointData().SetScalars(numpy_to_vtk(colours))

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a pixel of the dots."""
        self._pixel_scale = scale
        self._paint_marks()
        paint(self._rim, self._rim_colour, width_px=1.5 * scale)
        self._landing.set_pixel_scale(scale)
        footprint = self._footprint.GetShaderProperty().GetFragmentCustomUniforms()
        footprint.SetUniformf("pixelScale", scale)


def _posed(places: tuple | None, matrix: np.ndarray) -> np.ndarray:
    """(k, 3) in the posed frame."""
    points = np.array([place.place_mm for place in places or ()]).reshape(-1, 3)
    return points @ matrix[:3, :3].T + matrix[:3, 3]


def _side_shades(quads: Quads) -> np.ndarray:
    """(q,) how light each rectangle is by the way it faces.

    Light worked out from the picture would be noise here: most walls are thinner than a pixel.
    """
    one, opposite = quads.corners_mm[:, 0], quads.corners_mm[:, 2]
    across_x = one[:, 0] == opposite[:, 0]
    return np.where(one[:, 2] == opposite[:, 2], 1.3, np.where(across_x, 0.8, 1.0))


def _rim(columns: SupportColumns) -> vtkPolyData:
    points = footprint_rim(columns).reshape(-1, 3)
    return lines(points, np.arange(len(points), dtype=np.int32).reshape(-1, 2))
