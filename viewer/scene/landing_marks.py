"""Where supports stand on the part: dots in the lens Touch, a rough patch in the Printed look."""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkCommonDataModel import vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor

from viewer.geometry.mesh import Mesh
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.support_bodies import marks_on_faces
from viewer.geometry.support_columns import SupportColumns
from viewer.scene import part_shader, printed_look
from viewer.scene.actors import actor_of, draw_before_surfaces, set_shape, use_point_colours
from viewer.scene.arrays import quads_surface
from viewer.scene.lenses import Lens
from viewer.scene.palettes import PRINT_MATERIAL, TOUCH_COLOURS, Colour

LIFT_MM = 0.03  # so that a mark does not flicker with its face
DOTTED = "fragOutput0.rgb *= mix(1.0, 0.3, inDot);"


class LandingMarks:
    """One patch per support column that stands on the part, in the posed frame."""

    def __init__(self) -> None:
        self.actor = actor_of()
        self.actor.VisibilityOff()
        draw_before_surfaces(self.actor, 1.0)
        use_point_colours(self.actor)
        shader = self.actor.GetShaderProperty()
        replace = shader.AddVertexShaderReplacement
        replace("//VTK::Normal::Dec", True, part_shader.VERTEX_DECLARATION, False)
        replace("//VTK::Normal::Impl", True, part_shader.VERTEX_CODE, False)
        self._uniforms = shader.GetFragmentCustomUniforms()
        for name, axis in zip(("alongMC", "acrossMC", "upMC"), np.eye(3), strict=True):
            self._uniforms.SetUniform3f(name, list(axis))
        self._uniforms.SetUniformf("dropMM", -LIFT_MM)
        self._printed: bool | None = None
        self.set_settings(PrintSettings())
        self.set_print_colour(PRINT_MATERIAL)
        self.set_lens(Lens.TOUCH)

    def show(
        self, columns: SupportColumns, mesh: Mesh, matrix: np.ndarray, classes: np.ndarray
    ) -> None:
        """Lay the marks of one pose; (4, 4) matrix, (m,) uint8 classes for the hue of the dots."""
        set_shape(self.actor, _patches(columns, mesh, matrix, classes))

    def set_lens(self, lens: Lens) -> None:
        """Dots with a hue of the class, or the material as it is where a support broke off."""
        printed = lens is Lens.PRINTED
        if printed is self._printed:
            return
        self._printed = printed
        shader = self.actor.GetShaderProperty()
        shader.ClearAllFragmentShaderReplacements()
        replace = shader.AddFragmentShaderReplacement
        if not printed:
            dot_the_surface(self.actor, DOTTED)
            return
        declared = part_shader.FRAGMENT_DECLARATION + printed_look.look_declaration()
        replace("//VTK::Normal::Dec", True, declared, False)
        replace("//VTK::Light::Impl", True, printed_look.LANDING_CODE, False)

    def set_settings(self, settings: PrintSettings) -> None:
        """Layer height and road width."""
        self._uniforms.SetUniformf("layerMM", settings.layer_mm)
        self._uniforms.SetUniformf("roadMM", settings.road_mm)

    def set_print_colour(self, colour: Colour) -> None:
        """The colour of the material in the Printed look."""
        printed_look.set_colour(self._uniforms, colour)

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a pixel of the dots."""
        self._uniforms.SetUniformf("pixelScale", scale)


def dot_the_surface(actor: vtkActor, effect: str) -> None:
    """Give an actor a pattern of dots; `effect` is GLSL that uses `inDot`, 0 to 1."""
    replace = actor.GetShaderProperty().AddFragmentShaderReplacement
    dec, light = "//VTK::Normal::Dec", "//VTK::Light::Impl"
    replace(dec, True, f"{dec}\n{part_shader.DOT_PATTERN}", False)
    replace(light, True, f"{light}\n  float inDot = dots(pixelScale);\n  {effect}\n", False)


def _patches(
    columns: SupportColumns, mesh: Mesh, matrix: np.ndarray, classes: np.ndarray
) -> vtkPolyData:
    turn, shift = matrix[:3, :3], matrix[:3, 3]
    landed = np.unique(columns.bottom_face[columns.bottom_face >= 0])
    corners, normals = np.zeros((mesh.face_count, 3)), np.zeros((mesh.face_count, 3))
    corners[landed] = mesh.vertices_mm[mesh.faces[landed, 0]] @ turn.T + shift
    normals[landed] = mesh.face_normals[landed] @ turn.T
    quads, face = marks_on_faces(columns, corners, normals, "bottom", LIFT_MM)
    shape = quads_surface(quads)
    hues = (np.array(TOUCH_COLOURS) * 255).round().astype(np.uint8)
    shape.GetPointData().SetScalars(numpy_to_vtk(np.repeat(hues[classes[face]], 4, axis=0)))
    return shape
