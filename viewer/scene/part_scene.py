"""The one scene: part, lens, supports, platform, handles; draws into any VTK renderer.

It never renders by itself: whoever owns the window draws once after a batch of changes. Positions
go in and out in millimetres; "part coordinates" are those of the mesh, "posed frame" is that of the
platform. Call everything from the thread that draws.
"""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPlane
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.drawn_edges import borders_to_draw
from viewer.geometry.known_of_mesh import creases_of, neighbours_of, shells_to_draw
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.section import Section
from viewer.scene import camera
from viewer.scene.actors import vtk_matrix
from viewer.scene.arrays import vertices_to_fit_mm
from viewer.scene.border_lines import BorderLines, region_labels
from viewer.scene.cut_view import CutView
from viewer.scene.fault_view import FaultView, face_families
from viewer.scene.file_faces import FileFaces
from viewer.scene.ghost_view import GhostView
from viewer.scene.globe_view import GlobeView
from viewer.scene.hover_marks import HoverMarks
from viewer.scene.lasting_lines import all_noise, without_specks
from viewer.scene.lenses import Lens
from viewer.scene.machine_view import MachineLook, MachineView
from viewer.scene.outward import as_turned, drawn_instead, turned_outward
from viewer.scene.palettes import PRINT_MATERIAL, Colour
from viewer.scene.part_actor import PartActor, points_about
from viewer.scene.picking import PickLocator
from viewer.scene.platform_view import PlatformView
from viewer.scene.previews import Previews
from viewer.scene.rings import Rings
from viewer.scene.scene_camera import SceneCamera
from viewer.scene.section_view import SectionView
from viewer.scene.stroke_preview import StrokePreview
from viewer.scene.support_view import SupportView
from viewer.scene.themes import Theme
from viewer.scene.under_pointer import UnderPointer

POSELESS = (Lens.CLASSES, Lens.FAULTS, Lens.DEVIATION)  # lenses that show the same in every pose
ROUGH = (Lens.OVERHANG, Lens.TOUCH, Lens.TERRACES)  # lenses in which a scan has borders everywhere


class PartScene(UnderPointer, Previews, SceneCamera):
    """A part on its build platform in a renderer."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        """`renderer` may belong to a window or to an off-screen picture; it outlives the scene."""
        self._renderer = renderer
        self._platform, self.machine = PlatformView(renderer, theme), MachineView(renderer, theme)
        self.cuts = CutView(renderer, theme)
        self._part: PartActor | None = None
        self._mesh: Mesh | None = None
        self._locator: PickLocator | None = None
        self._file: FileFaces | None = None
        self._creases = BorderLines(renderer, theme, opacity=0.4, width_px=1.0)
        self._borders = BorderLines(renderer, theme)
        self._stroke = StrokePreview(renderer)
        self._hover = HoverMarks(renderer, theme)
        self._supports = SupportView(renderer, theme)  # after all opaque actors
        self._rings = Rings(renderer, theme)
        self._section = SectionView(renderer, theme)
        self._faults = FaultView(renderer, theme)
        self._ghost, self._globe = GhostView(renderer, theme), GlobeView(renderer, theme)
        self._cut: vtkPlane | None = None
        self.cut_height_mm: float | None = None
        self._matrix = np.eye(4)
        self._classes, self._fitted_mm = np.zeros(0, np.uint8), np.zeros((0, 3))
        self._settings, self._lens = PrintSettings(), Lens.CLASSES
        self._print_colour = PRINT_MATERIAL
        self._measures: PoseMeasures | None = None
        self._neighbours: np.ndarray | None = None
        self._supports_wanted, self._pixel_scale = True, 1.0
        eye = renderer.GetActiveCamera()
        eye.SetViewAngle(camera.VIEW_ANGLE_DEG)
        self.set_theme(theme)
        self.set_view_direction("corner")

    # The part and what is known of it

    def show_part(self, mesh: Mesh | None, pickable: bool = True) -> None:
        """Upload a part (None: none) and make it pickable; classes and measures start empty.

        Shells that face the wrong way in the file are drawn as they are measured, turned outward.
        """
        self._drop_part()
        if mesh is None or not mesh.face_count:
            self._platform_only()
            return
        self._fitted_mm = vertices_to_fit_mm(mesh)
        self._file = FileFaces(mesh)
        self._put_part(mesh)
        self._locator = PickLocator(self._part.bare_shape) if pickable else None
        self._creases.set_points(points_about(self._mesh, self._part))
        self._creases.show(without_specks(creases_of(mesh), mesh.vertices_mm))
        self.set_pose(np.eye(4))

    def show_pieces(self, mesh: Mesh, base_face: np.ndarray | None) -> None:
        """Draw the part as `mesh`, whose faces are pieces of those that `show_part` was given.

        base_face : (m,) face that each is a piece of; None: they are those faces themselves. The
        pose stays; classes and measures, faults and deviation start empty.
        """
        self._renderer.RemoveActor(self._part.actor)
        self._stroke.clear()
        self._hover.hide()
        self._ghost.hide()
        self._file.recut(base_face)
        self._measures = None
        self._put_part(mesh)
        self.set_pose(self._matrix)

    def _put_part(self, mesh: Mesh) -> None:
        shells = shells_to_draw(mesh)
        self._mesh = turned_outward(mesh, shells.orientation)
        self._neighbours = as_turned(neighbours_of(mesh), shells.orientation)
        self._classes = np.zeros(mesh.face_count, np.uint8)
        self._part = part = PartActor(self._mesh, drawn_instead(mesh, shells.orientation))
        part.set_settings(self._settings)
        part.set_print_colour(self._print_colour)
        part.set_lens(self._lens)
        part.set_pixel_scale(self._pixel_scale)
        part.set_culling(bool(shells.closed.all()))
        self._borders.set_points(points_about(self._mesh, part))
        self._renderer.AddActor(part.actor)
        # Glass shows what was drawn before it; ghosts show over everything.
        self._borders.draw_last()
        self._creases.draw_last()
        self._rings.draw_last(ghosts=False)
        for piece in (self._supports, self._section, self._faults):
            piece.draw_last()
        self._rings.draw_last(ghosts=True)
        part.set_cut(self._cut)

    def _drop_part(self) -> None:
        if self._part is not None:
            self._renderer.RemoveActor(self._part.actor)
        self._part = self._mesh = self._locator = self._file = None
        self._neighbours = self._measures = None
        self._classes, self._fitted_mm = np.zeros(0, np.uint8), np.zeros((0, 3))
        self._hover.hide()
        self._ghost.hide()
        self._globe.show(None)
        self._stroke.clear()
        self._section.show(None)
        self._faults.show(None, None, None, np.zeros(3))
        self._borders.set_points(None)
        self._creases.set_points(None)
        self._supports.show(None, None, self._matrix, self._classes)

    def _platform_only(self) -> None:
        self._rings.show(False)
        self._renderer.ResetCameraClippingRange()

    @property
    def has_stand_in(self) -> bool:
        """Whether the part is so large that it is drawn coarser while it moves."""
        return self._part is not None and self._part.has_moving

    def set_moving(self, moving: bool) -> bool:
        """Draw a large part coarser while something moves; whether the picture is another now."""
        if not self.has_stand_in or moving == self._part.moving:
            return False
        self._part.set_moving(moving)
        self._update_borders()
        return True

    def set_classes(self, face_classes: np.ndarray) -> None:
        """(m,) uint8: 0 unmarked, 1 class A, 2 class B; only the colours are sent anew."""
        if self._part is None:
            return
        self._classes = np.array(face_classes, np.uint8)
        self._part.set_classes(self._classes)
        if self._lens in POSELESS:
            self._update_borders()

    def set_pose(self, matrix: np.ndarray) -> None:
        """Lay the part: (4, 4) with p_posed = M · p_part. No work per face, nothing uploaded.

        What was measured in another pose is hidden until `show_measures` brings what belongs to
        this one; meanwhile overhang and touch are shown from the inclination alone.
        """
        matrix = np.asarray(matrix, float)
        if np.array_equal(matrix, self._matrix) and self._measures is not None:
            return
        self._matrix = matrix.copy()
        self._measures = None
        self._supports.hide_until_shown()
        if self._part is None:
            return
        centred = self._centred_matrix()
        user = vtk_matrix(centred)
        self._part.actor.SetUserMatrix(user)
        self._part.set_build_direction(centred)
        self._part.set_fields(None)
        self._borders.set_matrix(user)
        self._creases.set_matrix(user)
        if self._lens not in POSELESS:
            self._borders.clear()
        self._hover.set_matrix(user)
        self._stroke.set_matrix(user)
        self._faults.set_matrix(user)
        self._rings.place(centred[:3, 3], 0.55 * self.part_size_mm)
        self._globe.place(centred, 0.5 * self.part_size_mm)
        self._renderer.ResetCameraClippingRange()

    @property
    def matrix(self) -> np.ndarray:
        """(4, 4) the pose set last."""
        return self._matrix.copy()

    @property
    def part_size_mm(self) -> float:
        """Diagonal of the part's box, 0 without a part."""
        return (
            0.0 if self._mesh is None else float(np.linalg.norm(np.ptp(self._mesh.box_mm, axis=0)))
        )

    def _centred_matrix(self) -> np.ndarray:
        """From positions about the part's centre, as they are uploaded, to the posed frame."""
        centred = self._matrix.copy()
        centred[:3, 3] += self._matrix[:3, :3] @ self._part.centre_mm
        return centred

    def set_settings(self, settings: PrintSettings) -> None:
        """Limits and widths the colours depend on."""
        self._settings = settings
        self._supports.set_settings(settings)
        if self._part is not None:
            self._part.set_settings(settings)
            self._update_borders()

    def set_print_colour(self, colour: Colour) -> None:
        """The colour of the material in the Printed look."""
        self._print_colour = colour
        self._supports.set_print_colour(colour)
        if self._part is not None:
            self._part.set_print_colour(colour)

    def set_lens(self, lens: Lens) -> None:
        """Choose what the colours show."""
        self._lens = lens
        if self._part is not None:
            self._part.set_lens(lens)
            self._update_borders()
        self._faults.set_wanted(lens is Lens.FAULTS)
        self._show_wanted_supports()

    def show_measures(self, measures: PoseMeasures | None) -> None:
        """Show what was measured in the pose set last: touch, terraces, supports, landing."""
        self._measures = measures
        if self._part is None:
            return
        self._part.set_fields(measures.faces if measures else None)
        self._supports.show(measures, self._mesh, self._matrix, self._classes)
        self._update_borders()
        self._renderer.ResetCameraClippingRange()

    def set_supports_visible(self, visible: bool) -> None:
        """Show or hide support bodies and their footprint."""
        self._supports_wanted = visible
        self._show_wanted_supports()

    def _show_wanted_supports(self) -> None:
        self._supports.set_wanted(self._supports_wanted, self._lens)

    def _update_borders(self) -> None:
        """Lines where the lens's meaning changes: between classes, at the limit, at the road."""
        fields = self._measures.faces if self._measures else None
        if self._part.moving or (self._lens not in POSELESS and fields is None):
            self._borders.clear()
            return
        shown = self._part.labels(self._lens, self._settings)
        shown = self._classes if shown is None else shown
        labels = region_labels(self._lens, self._mesh, self._matrix, self._settings, shown, fields)
        ends = borders_to_draw(self._mesh.faces, self._neighbours, labels)
        rough = self._lens in ROUGH and all_noise(ends, labels)
        self._borders.show(ends[:0] if rough else ends)

    # Faults, and the part cut open

    def show_faults(self, report: HealthReport | None) -> None:
        """Mark the faults of the part shown; seen through the lens Faults."""
        if self._part is None:
            return
        file = self._file
        self._part.set_faults(file.on_pieces(face_families(report, file.mesh.face_count)))
        self._faults.show(report, file.mesh, file.neighbours, self._part.centre_mm)
        if self._lens is Lens.FAULTS:
            self._update_borders()

    def show_deviation(self, face_mm: np.ndarray | None) -> None:
        """(m,) how far each face of the file lies from the part as received; see lens Deviation."""
        if self._part is not None:
            known = face_mm is not None
            self._part.set_deviation(self._file.on_pieces(face_mm) if known else None)
            if self._lens is Lens.DEVIATION:
                self._update_borders()

    def show_difference(self, face_mm: np.ndarray | None) -> None:
        """(m,) by how much each face steps more broadly than in the pose it is compared with."""
        if self._part is not None:
            self._part.set_difference(face_mm, self._settings)
            if self._lens is Lens.DIFFERENCE:
                self._update_borders()

    def cut_at(self, height_mm: float | None) -> None:
        """Leave out all above a height over the platform, in any pose; None: the whole part."""
        self.cut_height_mm = height_mm
        if height_mm is None:
            self._cut = None
            self._section.show(None)
        else:
            self._cut = vtkPlane(normal=(0.0, 0.0, -1.0), origin=(0.0, 0.0, float(height_mm)))
        for piece in (
            self._part,
            self._stroke,
            self._creases,
            self._borders,
            self._supports,
            self._faults,
        ):
            if piece is not None:
                piece.set_cut(self._cut)

    def show_section(self, section: Section | None) -> None:
        """Draw a layer's outline and crosses at its open ends; None for none."""
        self._section.show(section)

    # The platform and the view

    def set_platform(
        self, size_x_mm: float, size_y_mm: float, place_mm: tuple[float, float] = (0.0, 0.0)
    ) -> None:
        """Show a build platform of this size, its origin at the centre (ISO/ASTM 52921).

        place_mm : where on it the part stands, which stays at the origin of the posed frame
        """
        self._platform.set_size(size_x_mm, size_y_mm)
        self._platform.set_place(*place_mm)
        self._renderer.ResetCameraClippingRange()

    def show_machine(self, look: MachineLook) -> None:
        """The platform of a machine, and what of the machine is to be seen about the part."""
        self.set_platform(*look.platform_mm, look.place_mm)
        self.machine.show(look)

    @property
    def platform_mm(self) -> tuple[float, float]:
        """Width and depth of the build platform."""
        return self._platform.size_mm

    def set_theme(self, theme: Theme) -> None:
        """Repaint everything that is not a measure."""
        self._renderer.SetBackground(*theme.background_bottom)
        self._renderer.SetBackground2(*theme.background_top)
        self._renderer.GradientBackgroundOn()
        for piece in self._pieces():
            piece.set_theme(theme)

    def set_pixel_scale(self, scale: float) -> None:
        """Device pixels to a drawn pixel: 1 on ordinary screens, 2 on dense ones."""
        self._pixel_scale = float(scale)
        if self._part is not None:
            self._part.set_pixel_scale(self._pixel_scale)
        for piece in self._pieces():
            piece.set_pixel_scale(self._pixel_scale)

    def _pieces(self) -> tuple:
        lines = (self._creases, self._borders)
        upon = (self._hover, self._section, self._faults, self._ghost, self._globe)
        return (self._platform, self.machine, self.cuts, *lines, *upon, self._supports, self._rings)

    def points_to_fit_mm(self) -> np.ndarray:
        """(k, 3) points in the posed frame that a view of the whole part must hold."""
        if self._mesh is not None:
            points = self._fitted_mm @ self._matrix[:3, :3].T + self._matrix[:3, 3]
        else:
            x, y = (max(side, 1.0) / 2 for side in self._platform.size_mm)
            points = np.array([[-x, -y, 0], [x, -y, 0], [x, y, 0], [-x, y, 0]])
        on_platform = points * [1.0, 1.0, 0.0]  # where supports can stand
        return np.concatenate([points, on_platform, self.machine.corners_mm, self.cuts.beside_mm])

    def close(self) -> None:
        """Take everything out of the renderer and let go of it."""
        self._rings.close()
        self._renderer.RemoveAllViewProps()
        self._part = self._mesh = self._locator = self._file = None
        self._neighbours = self._measures = None
        del self._platform, self._borders, self._creases, self._hover, self._supports, self._rings
        del self._section, self._faults, self._cut, self._stroke, self.machine, self.cuts
        del self._renderer
