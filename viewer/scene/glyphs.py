"""Small marks of one size on the screen, whatever the distance, seen through everything."""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor

from viewer.scene.actors import actor_of, paint, set_shape
from viewer.scene.arrays import cells_of, points_of
from viewer.scene.fault_looks import Shape
from viewer.scene.palettes import Colour

IN_FRONT = 0.999  # share of the depth range that is left to everything else
_HALO_PX = 2.0

# Signed distance from the rim in shares of half the size, below 0 inside; y points up.
_DISTANCE = {
    Shape.DISC: "length(p) - 0.72",
    Shape.DIAMOND: "(abs(p.x) + abs(p.y)) * 0.7071 - 0.58",
    Shape.TRIANGLE: "max(abs(p.x) * 0.866 + p.y * 0.5 - 0.38, -p.y - 0.55)",
    Shape.SQUARE: "max(abs(p.x), abs(p.y)) - 0.6",
    Shape.RING: "abs(length(p) - 0.5) - 0.2",
    Shape.CROSS: "max(min(abs(p.x - p.y), abs(p.x + p.y)) * 0.7071 - 0.13,"
    " max(abs(p.x), abs(p.y)) - 0.65)",
}


class Glyphs:
    """Marks of one shape and colour, each with a rim that shows on every ground."""

    def __init__(self, shape: Shape, size_px: float) -> None:
        self.actor, self._size_px = actor_of(), size_px
        seen_through(self.actor)
        self.actor.VisibilityOff()
        shader = self.actor.GetShaderProperty()
        self._uniforms = shader.GetFragmentCustomUniforms()
        self._uniforms.SetUniform3f("haloColour", [1.0, 1.0, 1.0])
        self._uniforms.SetUniformf("rimShare", 2.0 * _HALO_PX / size_px)
        shader.AddFragmentShaderReplacement(
            "//VTK::Light::Impl",
            True,
            "//VTK::Light::Impl\n"
            "  vec2 p = vec2(gl_PointCoord.x, 1.0 - gl_PointCoord.y) * 2.0 - 1.0;\n"
            f"  float away = {_DISTANCE[shape]};\n"
            "  if (away > rimShare) discard;\n"
            "  fragOutput0 = vec4(away > 0.0 ? haloColour : fragOutput0.rgb, 1.0);\n",
            False,
        )

    def set_wanted(self, wanted: bool) -> None:
        """Show or hide what there is."""
        data = self.actor.GetMapper().GetInput()
        self.actor.SetVisibility(wanted and data is not None and data.GetNumberOfPoints() > 0)

    def show(self, positions_mm: np.ndarray | None) -> None:
        """Put a mark at each of (k, 3) positions; None or none hides them."""
        if positions_mm is None or not len(positions_mm):
            set_shape(self.actor, None)
            return
        data = vtkPolyData()
        data.SetPoints(points_of(positions_mm))
        data.SetVerts(cells_of(np.arange(len(positions_mm))[:, None]))
        set_shape(self.actor, data)

    def paint(self, colour: Colour, halo: Colour, pixel_scale: float) -> None:
        """Colours, and screen pixels to a pixel."""
        paint(self.actor, colour)
        self.actor.GetProperty().SetPointSize(self._size_px * pixel_scale)
        self._uniforms.SetUniform3f("haloColour", [float(x) for x in halo])


def seen_through(actor: vtkActor) -> None:
    """Draw an actor over everything: all its depths lie just behind the nearest that is drawn."""
    actor.ForceOpaqueOn()
    actor.GetShaderProperty().AddVertexShaderReplacement(
        "//VTK::Light::Impl",
        True,
        f"//VTK::Light::Impl\n  gl_Position.z = mix(gl_Position.z, -gl_Position.w, {IN_FRONT});\n",
        False,
    )
