"""The one scene: part, lens, supports, platform, handles; draws into any VTK renderer.

It never renders by itself: whoever owns the window draws once after a batch of changes. Positions
go in and out in millimetres; "part coordinates" are those of the mesh, "posed frame" is that of the
platform. Call everything from the thread that draws.
"""

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPlane
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.drawn_edges import borders_to_draw, creases_to_draw
from viewer.geometry.known_of_mesh import neighbours_of, shells_to_draw
from viewer.geometry.mesh import Mesh
from viewer.geometry.mesh_health import HealthReport
from viewer.geometry.pose_measures import PoseMeasures
from viewer.geometry.print_settings import PrintSettings
from viewer.geometry.section import Section
from viewer.scene import camera
from viewer.scene.actors import vtk_matrix
from viewer.scene.arrays import used_vertices_mm
from viewer.scene.border_lines import BorderLines, region_labels
from viewer.scene.fault_view import FaultView, face_families
from viewer.scene.hover_marks import HoverMarks
from viewer.scene.lenses import Lens
from viewer.scene.outward import as_turned, turned_outward
from viewer.scene.part_actor import PartActor
from viewer.scene.picking import PickLocator, ring_on_surface
from viewer.scene.platform_view import PlatformView
from viewer.scene.rings import Rings
from viewer.scene.section_view import SectionView
from viewer.scene.support_view import SupportView
from viewer.scene.themes import Theme

Ray = tuple[np.ndarray, np.ndarray]
FITTED = 20_000  # about so many vertices decide how the part fits the view
POSELESS = (Lens.CLASSES, Lens.FAULTS, Lens.DEVIATION)  # lenses that show the same in every pose
CREASE_DEG = 40.0  # edges bent more than this are drawn


class PartScene:
    """A part on its build platform in a renderer."""

    def __init__(self, renderer: vtkRenderer, theme: Theme) -> None:
        """`renderer` may belong to a window or to an off-screen picture; it outlives the scene."""
        self._renderer = renderer
        self._platform = PlatformView(renderer, theme)
        self._part: PartActor | None = None
        self._mesh: Mesh | None = None
        self._locator: PickLocator | None = None
        self._creases = BorderLines(renderer, theme, opacity=0.4, width_px=1.0)
        self._borders = BorderLines(renderer, theme)
        self._hover = HoverMarks(renderer, theme)
        self._supports = SupportView(renderer, theme)  # after all opaque actors
        self._rings = Rings(renderer, theme)
        self._section = SectionView(renderer, theme)
        self._faults = FaultView(renderer, theme)
        self._cut: vtkPlane | None = None
        self.cut_height_mm: float | None = None
        self._matrix = np.eye(4)
        self._classes, self._fitted_mm = np.zeros(0, np.uint8), np.zeros((0, 3))
        self._settings, self._lens = PrintSettings(), Lens.CLASSES
        self._measures: PoseMeasures | None = None
        self._neighbours: np.ndarray | None = None
        self._supports_wanted, self._pixel_scale = True, 1.0
        eye = renderer.GetActiveCamera()
        eye.SetViewAngle(camera.VIEW_ANGLE_DEG)
        self.set_theme(theme)
        self.set_view_direction("corner")

    # The part and what is known of it

    def show_part(self, mesh: Mesh | None) -> None:
        """Upload a part (None: none) and make it pickable; classes and measures start empty.

        Shells that face the wrong way in the file are drawn as they are measured, turned outward.
        """
        self._drop_part()
        if mesh is None or not mesh.face_count:
            self._platform_only()
            return
        neighbours, shells = neighbours_of(mesh), shells_to_draw(mesh)
        self._mesh = mesh = turned_outward(mesh, shells.orientation)
        used = used_vertices_mm(mesh)
        # Of a dense part some vertices do: what lies between them is less than the margin of a fit.
        ends = used[np.concatenate([used.argmin(axis=0), used.argmax(axis=0)])]
        self._fitted_mm = np.concatenate([used[:: 1 + len(used) // FITTED], ends])
        self._classes = np.zeros(mesh.face_count, np.uint8)
        self._part = PartActor(mesh)
        self._part.set_settings(self._settings)
        self._part.set_lens(self._lens)
        self._part.set_pixel_scale(self._pixel_scale)
        self._locator = PickLocator(self._part.bare_shape)
        self._neighbours = as_turned(neighbours, shells.orientation)
        self._part.set_culling(bool(shells.closed.all()))
        points = self._part.bare_shape.GetPoints()
        self._borders.set_points(points)
        self._creases.set_points(points)
        self._creases.show(
            creases_to_draw(mesh.faces, self._neighbours, mesh.face_normals, CREASE_DEG)
        )
        self._renderer.AddActor(self._part.actor)
        # Glass shows what was drawn before it; ghosts show over everything.
        self._borders.draw_last()
        self._creases.draw_last()
        self._rings.draw_last(ghosts=False)
        self._supports.draw_last()
        self._section.draw_last()
        self._faults.draw_last()
        self._rings.draw_last(ghosts=True)
        self._update_borders()
        self._part.set_cut(self._cut)
        self.set_pose(np.eye(4))

    def _drop_part(self) -> None:
        if self._part is not None:
            self._renderer.RemoveActor(self._part.actor)
        self._part = self._mesh = self._locator = self._neighbours = self._measures = None
        self._classes, self._fitted_mm = np.zeros(0, np.uint8), np.zeros((0, 3))
        self._hover.hide()
        self._section.show(None)
        self._faults.show(None, None, None, np.zeros(3))
        self._borders.set_points(None)
        self._creases.set_points(None)
        self._supports.show(None, None, self._matrix, self._classes)

    def _platform_only(self) -> None:
        self._rings.show(False)
        self._renderer.ResetCameraClippingRange()

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
        self._faults.set_matrix(user)
        self._rings.place(centred[:3, 3], 0.55 * self.part_size_mm)
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
        if self._part is not None:
            self._part.set_settings(settings)
            self._update_borders()

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
        self._supports.set_wanted(self._supports_wanted, self._lens is Lens.TOUCH)

    def _update_borders(self) -> None:
        """Lines where the lens's meaning changes: between classes, at the limit, at the road."""
        fields = self._measures.faces if self._measures else None
        if self._lens not in POSELESS and fields is None:
            self._borders.clear()
            return
        shown = self._part.labels(self._lens, self._settings)
        shown = self._classes if shown is None else shown
        labels = region_labels(self._lens, self._mesh, self._matrix, self._settings, shown, fields)
        self._borders.show(borders_to_draw(self._mesh.faces, self._neighbours, labels))

    # Faults, and the part cut open

    def show_faults(self, report: HealthReport | None) -> None:
        """Mark the faults of the part shown; seen through the lens Faults."""
        if self._part is None:
            return
        self._part.set_faults(face_families(report, self._mesh.face_count))
        self._faults.show(report, self._mesh, self._neighbours, self._part.centre_mm)
        if self._lens is Lens.FAULTS:
            self._update_borders()

    def show_deviation(self, face_mm: np.ndarray | None) -> None:
        """(m,) how far each face lies from the part as received, or None; see lens Deviation."""
        if self._part is not None:
            self._part.set_deviation(face_mm)
            self._update_borders()

    def cut_at(self, height_mm: float | None) -> None:
        """Leave out all above a height over the platform, in any pose; None: the whole part."""
        self.cut_height_mm = height_mm
        if height_mm is None:
            self._cut = None
            self._section.show(None)
        else:
            self._cut = vtkPlane(normal=(0.0, 0.0, -1.0), origin=(0.0, 0.0, float(height_mm)))
        for piece in (self._part, self._creases, self._borders, self._supports, self._faults):
            if piece is not None:
                piece.set_cut(self._cut)

    def show_section(self, section: Section | None) -> None:
        """Draw a layer's outline and crosses at its open ends; None for none."""
        self._section.show(section)

    # The platform and the view

    def set_platform(self, size_x_mm: float, size_y_mm: float) -> None:
        """Show a build platform of this size, its origin at the centre (ISO/ASTM 52921)."""
        self._platform.set_size(size_x_mm, size_y_mm)
        self._renderer.ResetCameraClippingRange()

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
        upon = (self._hover, self._section, self._faults)
        return (self._platform, *lines, *upon, self._supports, self._rings)

    def fit_view(self) -> None:
        """Bring the whole part (without one, the platform) into view."""
        if self._mesh is not None:
            points = self._fitted_mm @ self._matrix[:3, :3].T + self._matrix[:3, 3]
        else:
            x, y = (max(side, 1.0) / 2 for side in self._platform.size_mm)
            points = np.array([[-x, -y, 0], [x, -y, 0], [x, y, 0], [-x, y, 0]])
        on_platform = points * [1.0, 1.0, 0.0]  # where supports can stand
        camera.fit(self._renderer, np.concatenate([points, on_platform]))

    def set_view_direction(self, direction: str | np.ndarray) -> None:
        """Look from a named side (`camera.VIEWS`) or from (3,) towards the eye; fit the view."""
        towards = camera.VIEWS[direction] if isinstance(direction, str) else direction
        camera.look_from(self._renderer.GetActiveCamera(), np.asarray(towards, float))
        self.fit_view()

    def camera_state(self) -> dict[str, object]:
        """Where the camera is: plain numbers, mm and degrees."""
        return camera.state_of(self._renderer.GetActiveCamera())

    def set_camera_state(self, state: dict[str, object]) -> None:
        """Put the camera back where `camera_state` found it."""
        camera.restore(self._renderer.GetActiveCamera(), state)
        self._renderer.ResetCameraClippingRange()

    # The pointer

    def display_ray(self, x_px: float, y_px: float) -> Ray:
        """Line of sight through a display point: origin (on the near plane) and unit direction.

        Pixels are VTK's: device pixels from the lower left. Both results are in the posed frame.
        """
        ends = []
        for depth in (0.0, 1.0):
            self._renderer.SetDisplayPoint(x_px, y_px, depth)
            self._renderer.DisplayToWorld()
            x, y, z, w = self._renderer.GetWorldPoint()
            ends.append(np.array([x, y, z]) / w)
        direction = ends[1] - ends[0]
        return ends[0], direction / np.linalg.norm(direction)

    def pick(self, origin_mm: np.ndarray, direction: np.ndarray) -> tuple[int, np.ndarray] | None:
        """First face that a ray in the posed frame meets, and where, in part coordinates."""
        if self._locator is None:
            return None
        back = np.linalg.inv(self._centred_matrix())
        origin = back[:3, :3] @ np.asarray(origin_mm, float) + back[:3, 3]
        hit = self._locator.first_hit(origin, back[:3, :3] @ np.asarray(direction, float))
        return None if hit is None else (hit[0], hit[1] + self._part.centre_mm)

    def show_brush_ring(self, point_mm: np.ndarray, normal: np.ndarray, radius_mm: float) -> None:
        """Draw the brush as a ring that follows the surface; all in part coordinates."""
        if self._locator is None:
            return
        centre = np.asarray(point_mm, float) - self._part.centre_mm
        self._hover.show_line("ring", ring_on_surface(self._locator, centre, normal, radius_mm))

    def hide_brush_ring(self) -> None:
        """Hide the brush."""
        self._hover.show_line("ring", None)

    def preview_faces(self, face_indices: np.ndarray | None) -> None:
        """Tint and outline the faces a click would mark; None for none."""
        if self._mesh is None or face_indices is None or not len(face_indices):
            self._hover.show_faces(None, np.zeros((0, 3), int), np.zeros((0, 2), int))
            return
        faces = np.asarray(face_indices, np.int64)
        inside = np.zeros(self._mesh.face_count, bool)
        inside[faces] = True
        around, corners = self._neighbours[faces], self._mesh.faces[faces]
        row, k = np.nonzero((around < 0) | ~inside[around])  # sides with nothing marked beyond
        ends = np.stack([corners[row, k], corners[row, (k + 1) % 3]], axis=1)
        used, triangles = np.unique(corners, return_inverse=True)
        positions = self._mesh.vertices_mm[used] - self._part.centre_mm
        self._hover.show_faces(positions, triangles.reshape(-1, 3), np.searchsorted(used, ends))

    def show_hull_face(self, polygon_mm: np.ndarray | None) -> None:
        """Outline a flat face of the part's hull, (k, 3) in part coordinates; None for none."""
        if self._part is None or polygon_mm is None:
            self._hover.show_hull(None)
            return
        self._hover.show_hull(np.asarray(polygon_mm, float) - self._part.centre_mm)

    def show_rings(self, shown: bool) -> None:
        """Show or hide the rings the part is turned by."""
        self._rings.show(bool(shown) and self._part is not None)
        self._renderer.ResetCameraClippingRange()

    def hit_ring(self, x_px: float, y_px: float) -> int | None:
        """Axis (0 x, 1 y, 2 z) of the ring near a display point, or None."""
        return self._rings.hit(x_px, y_px)

    def highlight_ring(self, axis: int | None) -> None:
        """Draw one ring stronger, or none."""
        self._rings.highlight(axis)

    def ring_centre_mm(self) -> np.ndarray:
        """(3,) middle of the rings in the posed frame."""
        return self._rings.centre_mm.copy()

    def close(self) -> None:
        """Take everything out of the renderer and let go of it."""
        self._rings.close()
        self._renderer.RemoveAllViewProps()
        self._part = self._mesh = self._locator = self._neighbours = self._measures = None
        del self._platform, self._borders, self._creases, self._hover, self._supports, self._rings
        del self._section, self._faults, self._cut
        del self._renderer
