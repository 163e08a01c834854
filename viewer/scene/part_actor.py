"""The part itself: its triangles, uploaded once, and the bytes per face that the shader reads.

A large part has a coarser surface besides, drawn while something moves; one of many millions of
faces is drawn by such a one at rest as well. Each of their faces shows the bytes of the face it
stands for.
"""

import numpy as np
from vtkmodules.util.numpy_support import numpy_to_vtk
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkPlane, vtkPolyData
from vtkmodules.vtkRenderingCore import vtkActor, vtkPolyDataMapper

from viewer.geometry.known_of_mesh import StandIns
from viewer.geometry.mesh import Mesh
from viewer.geometry.pose_difference import broadest_mm
from viewer.geometry.pose_measures import FaceFields
from viewer.geometry.print_settings import PrintSettings
from viewer.scene import part_shader, printed_look
from viewer.scene.actors import cut_mapper
from viewer.scene.arrays import points_of, surface
from viewer.scene.legends import deviation_top_mm, terrace_top_mm
from viewer.scene.lenses import Lens
from viewer.scene.palettes import PRINT_MATERIAL, Colour


class Drawn:
    """One surface that can be drawn, with the bytes of its faces.

    late : whether the bytes of the part have changed since
    """

    def __init__(
        self, mesh: Mesh, face: np.ndarray | None, centre_mm: np.ndarray, face_bytes: np.ndarray
    ) -> None:
        """face : (k,) the part's face that each stands for; None: they are its faces."""
        shape = surface(mesh.vertices_mm - centre_mm, mesh.faces)
        self.face, self.late = face, False
        self._bytes = face_bytes if face is None else face_bytes[face]
        self._vtk_bytes = numpy_to_vtk(self._bytes)
        self.bare_shape = vtkPolyData()
        self.bare_shape.SetPoints(shape.GetPoints())
        self.bare_shape.SetPolys(shape.GetPolys())
        shape.GetCellData().SetScalars(self._vtk_bytes)
        self.mapper = vtkPolyDataMapper()
        self.mapper.SetInputData(shape)
        self.mapper.SetScalarModeToUseCellData()
        self.mapper.SetColorModeToDirectScalars()
        self.mapper.SetVBOShiftScaleMethod(0)

    def bring_up(self, face_bytes: np.ndarray) -> None:
        """Take over the part's bytes, if they have changed."""
        if self.late:
            self.late = False
            if self.face is not None:
                np.take(face_bytes, self.face, axis=0, out=self._bytes)
            self._vtk_bytes.Modified()


class PartActor:
    """One part in a renderer. Positions are kept about `centre_mm` so that float32 suffices."""

    def __init__(self, mesh: Mesh, stand_ins: StandIns = StandIns()) -> None:  # noqa: B008 -- frozen
        """`mesh` must have at least one face; the stand-ins are wound as it is."""
        self.centre_mm = mesh.box_mm.mean(axis=0)
        self._face_bytes = np.zeros((mesh.face_count, 3), np.uint8)
        self._terraces = np.full(mesh.face_count, 128, np.uint8)
        self.fault_families = np.zeros(mesh.face_count, np.uint8)
        self._touch = np.zeros(mesh.face_count, np.uint8)
        self._deviation_mm = np.zeros(mesh.face_count, np.float32)
        self._deviation_top_mm = 1.0
        self._difference = np.full(mesh.face_count, part_shader.SAME_BYTE, np.uint8)
        self._face_bytes[:, 2] = self._terraces
        self._lens, self._cut, self._closed = Lens.CLASSES, False, False
        resting, moving = stand_ins
        self._resting = (
            Drawn(mesh, None, self.centre_mm, self._face_bytes)
            if resting is None
            else Drawn(resting.mesh, resting.face, self.centre_mm, self._face_bytes)
        )
        self._moving = moving and Drawn(moving.mesh, moving.face, self.centre_mm, self._face_bytes)
        # The pick locator must not see the bytes: each change of them would rebuild it.
        self.bare_shape = self._resting.bare_shape
        self.actor = vtkActor()
        self._shown = self._resting
        self.actor.SetMapper(self._shown.mapper)
        self.actor.GetProperty().LightingOff()  # the shader lights by itself, more cheaply
        self._install_shader()

    @property
    def mapper(self) -> vtkPolyDataMapper:
        """What draws now."""
        return self._shown.mapper

    @property
    def has_moving(self) -> bool:
        """Whether there is a coarser surface for while something moves."""
        return self._moving is not None

    @property
    def moving(self) -> bool:
        """Whether that is what is drawn now."""
        return self._shown is self._moving

    def set_moving(self, moving: bool) -> None:
        """Draw the coarser surface, or the part as it is at rest."""
        shown = self._moving if moving and self._moving else self._resting
        if shown is not self._shown:
            self._shown = shown
            shown.bring_up(self._face_bytes)
            self.actor.SetMapper(shown.mapper)

    @property
    def draws_all(self) -> bool:
        """Whether all of the part's faces are drawn at rest."""
        return self._resting.face is None

    def face_at(self, drawn_face: int) -> int:
        """The part's face for which a face of `bare_shape` stands."""
        return drawn_face if self._resting.face is None else int(self._resting.face[drawn_face])

    def _bytes_changed(self) -> None:
        for drawn in (self._resting, self._moving):
            if drawn is not None:
                drawn.late = True
        self._shown.bring_up(self._face_bytes)

    def _install_shader(self) -> None:
        shader = self.actor.GetShaderProperty()
        replace = shader.AddVertexShaderReplacement
        replace("//VTK::Normal::Dec", True, part_shader.VERTEX_DECLARATION, False)
        replace("//VTK::Normal::Impl", True, part_shader.VERTEX_CODE, False)
        self._uniforms = shader.GetFragmentCustomUniforms()
        self.set_lens(Lens.CLASSES)
        self.set_settings(PrintSettings())
        self.set_print_colour(PRINT_MATERIAL)
        self.set_build_direction(np.eye(4))
        self.set_pixel_scale(1.0)
        self._measured = 0  # 1 the fields belong to the pose shown, 2 to one before it
        self._uniforms.SetUniformi("measured", 0)
        self._uniforms.SetUniformi("someMarked", 0)

    def set_build_direction(self, matrix: np.ndarray) -> None:
        """Tell the shader which way is up; `matrix` (4, 4) takes centred positions to the pose."""
        for row, name in enumerate(("alongMC", "acrossMC", "upMC")):
            self._uniforms.SetUniform3f(name, [float(x) for x in matrix[row, :3]])
        self._uniforms.SetUniformf("dropMM", float(matrix[2, 3]))

    def set_print_colour(self, colour: Colour) -> None:
        """The colour of the material in the Printed look."""
        printed_look.set_colour(self._uniforms, colour)

    def set_culling(self, closed: bool) -> None:
        """Skip triangles seen from behind: right, and twice as fast, for a closed part only."""
        self._closed = closed
        self.actor.GetProperty().SetBackfaceCulling(self._closed and not self._cut)

    def set_cut(self, plane: vtkPlane | None) -> None:
        """Cut the part open at a plane and paint its inside; None: the whole part."""
        for drawn in (self._resting, self._moving):
            if drawn is not None:
                cut_mapper(drawn.mapper, plane)
        if self._cut == (plane is not None):
            return
        self._cut = plane is not None
        self.set_culling(self._closed)
        self.set_lens(self._lens)

    def set_lens(self, lens: Lens) -> None:
        """Choose what the colours show; VTK keeps the programs it has built."""
        self._lens = lens
        self._write_green()
        shader = self.actor.GetShaderProperty()
        shader.ClearAllFragmentShaderReplacements()
        replace = shader.AddFragmentShaderReplacement
        replace("//VTK::Normal::Dec", True, part_shader.fragment_declaration(lens), False)
        replace("//VTK::Light::Impl", True, part_shader.fragment_code(lens, self._cut), False)

    def set_settings(self, settings: PrintSettings) -> None:
        """Limits that the colours depend on."""
        self._uniforms.SetUniformf("limitDeg", settings.support_limit_deg)
        self._uniforms.SetUniformf("layerMM", settings.layer_mm)
        self._uniforms.SetUniformf("roadMM", settings.road_mm)
        self._uniforms.SetUniformf("terraceTopMM", terrace_top_mm(settings))
        self._deviation_top_mm = deviation_top_mm(settings)
        if self._lens is Lens.DEVIATION:
            self._write_green()

    def set_pixel_scale(self, scale: float) -> None:
        """Screen pixels to a hatch pixel (2 on a dense screen)."""
        self._uniforms.SetUniformf("pixelScale", float(scale))

    def set_classes(self, face_classes: np.ndarray) -> None:
        """(m,) uint8: 0 unmarked, 1 class A, 2 class B."""
        self._face_bytes[:, 0] = face_classes
        self._uniforms.SetUniformi("someMarked", int(face_classes.any()))
        self._bytes_changed()

    def set_fields(self, fields: FaceFields | None) -> None:
        """Measured fields per face; None while they do not belong to the pose shown."""
        self._measured = 1 if fields is not None else 2 if self._measured else 0
        self._uniforms.SetUniformi("measured", self._measured)
        if fields is None:
            return
        share = np.asarray(fields.touch_share, np.float32)
        # Any touch at all stays visible: shares above 0 never round to nothing.
        self._touch = np.where(share > 0, np.clip(share * 255, 1, 255), 0).astype(np.uint8)
        self._write_green()
        self._terraces = np.where(fields.terrace_counts, 128, 0).astype(np.uint8)
        self._face_bytes[:, 2] = self._terraces + self.fault_families
        self._bytes_changed()

    def set_deviation(self, face_mm: np.ndarray | None) -> None:
        """(m,) how far each face lies from the part as received; None while that is not known."""
        self._deviation_mm = np.zeros_like(self._deviation_mm)
        if face_mm is not None:
            self._deviation_mm = np.asarray(face_mm, np.float32)
        self._write_green()

    def set_difference(self, face_mm: np.ndarray | None, settings: PrintSettings) -> None:
        """(m,) by how much each face steps more broadly than in the reference; None: not known."""
        share = np.zeros(len(self._difference)) if face_mm is None else face_mm
        share = np.clip(np.asarray(share, np.float32) / broadest_mm(settings), -1.0, 1.0)
        middle = part_shader.SAME_BYTE
        self._difference = np.round(middle + middle * share).astype(np.uint8)
        self._write_green()

    def labels(self, lens: Lens, settings: PrintSettings) -> np.ndarray | None:
        """(m,) uint8 kinds of faces for Faults, Deviation and Difference, None for other lenses."""
        if lens is Lens.FAULTS:
            return self.fault_families
        if lens is Lens.DEVIATION:
            return (self._deviation_mm > settings.layer_mm).astype(np.uint8)
        if lens is Lens.DIFFERENCE:  # read by class; outlines of better and worse would clump
            return self._face_bytes[:, 0]
        return None

    def _write_green(self) -> None:
        """The byte that lenses share: touch, or the place on the scale of their millimetres."""
        green = self._touch
        if self._lens is Lens.DEVIATION:
            green = np.round(255 * np.minimum(self._deviation_mm / self._deviation_top_mm, 1.0))
        if self._lens is Lens.DIFFERENCE:
            green = self._difference
        self._face_bytes[:, 1] = green
        self._bytes_changed()

    def set_faults(self, families: np.ndarray) -> None:
        """(m,) uint8: the family of each face's fault, 0 for none."""
        if np.array_equal(families, self.fault_families):
            return
        self.fault_families = np.asarray(families, np.uint8)
        self._face_bytes[:, 2] = self._terraces + self.fault_families
        self._bytes_changed()


def points_about(mesh: Mesh, part: PartActor) -> vtkPoints:
    """The part's vertices as lines on it use them, shared with what is drawn where that is all."""
    if part.draws_all:
        return part.bare_shape.GetPoints()
    return points_of(mesh.vertices_mm - part.centre_mm)
