"""The one file of the window that knows VTK: the interactor that shows the scene.

It holds an interactor and never is one. VTK gets no mouse and no key: the left button goes to the
tool of the stage, everything else moves the camera by the pure functions of `camera_moves`. Drawing
is asked for with `widget.update()`, which Qt merges, so that many changes cost one picture.
"""

import numpy as np
from PySide6.QtCore import QEasingCurve, QEvent, QObject, Qt, QTimer, QVariantAnimation, Signal
from PySide6.QtGui import QCloseEvent, QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget
from pyvistaqt import QtInteractor
from vtkmodules.vtkRenderingCore import vtkRenderer

from viewer.geometry.visible_faces import Eye
from viewer.scene.part_scene import PartScene
from viewer.scene.screen_loop import ScreenLoop
from viewer.scene.side_by_side import WHOLE, SideBySide
from viewer.scene.themes import Theme
from viewer.window.camera_moves import Camera, between, enclosing, looking_from, orbit, pan, zoom
from viewer.window.coming_to_rest import ComingToRest
from viewer.window.eyes import eye_of
from viewer.window.tools import Pointer, Tool
from viewer.words import say

TURN_DEG_PER_PX = 0.4
ZOOM_PER_NOTCH = 1.15
FLIGHT_MS = 350
LEAST_SEEN = 0.12  # of the part's size: room round a small place, so that one knows where it is
SWALLOWED = (QEvent.Type.KeyPress, QEvent.Type.KeyRelease)


class PartView(QWidget):
    """The 3D scene; `tool` works the left button."""

    camera_moved = Signal()
    drawn = Signal()

    def __init__(self, theme: Theme) -> None:
        super().__init__()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        self.interactor = QtInteractor(self, auto_update=False, multi_samples=0)
        self.interactor.setAcceptDrops(False)  # it would add dropped files to the scene by itself
        self.interactor.setAccessibleName(say("The part on the build platform"))
        self.interactor.setMinimumSize(200, 150)
        layout.addWidget(self.interactor)
        self.scene = PartScene(self.interactor.renderer, theme)
        self._loop = ScreenLoop(self.interactor.renderer)
        self.theme = theme
        self.panes: SideBySide | None = None
        self._tool = Tool(self)
        self._dragging: Qt.MouseButton | None = None
        self._tool_has_it = False
        self._last_px = (0.0, 0.0)
        self._closed = False
        self._ball_mm: float | None = None
        self._fitted = True
        # The interactor learns its new size after this event; the fit has to wait for that.
        self._resized = QTimer(self, singleShot=True, interval=0)
        self._resized.timeout.connect(self.fit_again)
        self._flight = QVariantAnimation(self, startValue=0.0, endValue=1.0, duration=FLIGHT_MS)
        self._flight.setEasingCurve(QEasingCurve.Type.InOutQuad)
        self._flight.valueChanged.connect(self._fly)
        self._route: tuple[Camera, Camera] | None = None
        self._rest = ComingToRest(self)
        self._rest.drawn.connect(self.drawn)
        self.interactor.installEventFilter(self)

    # --- for the window
    @property
    def tool(self) -> Tool:
        """The tool of the left button."""
        return self._tool

    def set_tool(self, tool: Tool) -> None:
        """Put one tool away and take another."""
        if tool is self._tool:
            return
        self._tool.leave()
        self._tool = tool

    def redraw(self) -> None:
        """Draw the scene again with the next frame."""
        if self._closed:
            return
        self._rest.something_moves()
        self._follow_panes()
        self.interactor.update()

    @property
    def held(self) -> bool:
        """Whether a button is held over the scene."""
        return self._dragging is not None

    def set_theme(self, theme: Theme) -> None:
        """Repaint."""
        self.theme = theme
        self.scene.set_theme(theme)
        if self.panes is not None:
            self.panes.set_theme(theme)
        self.redraw()

    def show_panes(self, count: int) -> SideBySide | None:
        """Draw `count` scenes side by side in place of the one; 0: the one again.

        They are seen from where the one scene is seen; whoever asks for them fills them.
        """
        if self.panes is not None:
            self.panes.close()
            self.panes = None
        if count:
            self.panes = SideBySide(self.interactor.render_window, self.theme, count)
            self.panes.set_pixel_scale(self.interactor.devicePixelRatioF())
        # Not drawn meanwhile, it still tells where lines of sight run: those of the first pane.
        self.interactor.renderer.SetDraw(not count)
        self._follow_panes()
        return self.panes

    @property
    def overlay(self) -> vtkRenderer:
        """Where to draw over everything, in display pixels."""
        return self.interactor.renderer if self.panes is None else self.panes.over

    def _follow_panes(self) -> None:
        renderer, panes = self.interactor.renderer, self.panes
        renderer.SetViewport(*(WHOLE if panes is None else panes.rects[0]))
        if panes is not None:
            panes.follow(renderer.GetActiveCamera())

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height in device pixels."""
        width, height = self.interactor.renderer.GetSize()
        return max(width, 1), max(height, 1)

    def eye(self) -> Eye:
        """The camera in part coordinates."""
        width, height = self.size_px
        return eye_of(self.scene.camera_state(), self.scene.matrix, width / height)

    def show_loop(self, points_px: np.ndarray | None) -> None:
        """Draw a closed line through (k, 2) device pixels over the scene; None for none."""
        self._loop.show(points_px, self.interactor.devicePixelRatioF())
        self.redraw()

    @property
    def loop_corners(self) -> int:
        """How many corners the line over the scene has, 0 when there is none."""
        return self._loop.corners

    def view_from(self, side: str) -> None:
        """Look from a named side and fit the part."""
        self.scene.set_view_direction(side)
        self.fit()

    def fit(self) -> None:
        """See the whole part, in every pane, and the rings round it where they are shown."""
        if self.panes is not None:
            self._follow_panes()
            self.scene.fit_points(self.panes.points_to_fit_mm(), self.panes.caption_share)
            self._fitted = True
            self.redraw()
            return
        self.scene.fit_view()
        if self._ball_mm is not None and not len(self.scene.machine.corners_mm):
            angle_deg = float(self.scene.camera_state()["view_angle_deg"])
            aspect = self.interactor.width() / max(self.interactor.height(), 1)
            self._set_camera(
                enclosing(
                    self._camera(), self.scene.ring_centre_mm(), self._ball_mm, angle_deg, aspect
                )
            )
        self._fitted = True
        self.redraw()

    def surround(self, ball_mm: float | None) -> None:
        """From now on a fit shows a ball of this radius round the part; None: just the part.

        The view is fitted anew unless the user has moved the camera since the last fit.
        """
        changed, self._ball_mm = ball_mm != self._ball_mm, ball_mm
        if changed and self._fitted:
            self.fit()

    def fly_to(self, centre_mm: np.ndarray, radius_mm: float, normal: np.ndarray) -> None:
        """Move the camera to a place on the part, seen from the side its normal points to.

        centre_mm, normal : (3,) in part coordinates; a normal shorter than a half says nothing
        """
        pose = self.scene.matrix
        now, state = self._camera(), self.scene.camera_state()
        end = now
        if np.linalg.norm(normal) > 0.5:
            end = looking_from(now, pose[:3, :3] @ normal)
        aspect = self.interactor.width() / max(self.interactor.height(), 1)
        radius_mm = max(1.3 * radius_mm, LEAST_SEEN * self.scene.part_size_mm)
        end = enclosing(
            end,
            pose[:3, :3] @ centre_mm + pose[:3, 3],
            radius_mm,
            float(state["view_angle_deg"]),
            aspect,
        )
        self._route = (now, end)
        self._flight.stop()
        self._flight.start()

    @property
    def flying(self) -> bool:
        """Whether the camera is on its way to a place."""
        return self._flight.state() == QVariantAnimation.State.Running

    def _fly(self, share: float) -> None:
        if self._route is not None and not self._closed:
            self._set_camera(between(*self._route, float(share)))

    def restore_camera(self, camera: dict[str, object]) -> None:
        """Look from where a job was saved; a camera that makes no sense is passed over."""
        before = self.scene.camera_state()
        try:
            self.scene.set_camera_state({**before, **camera})
        except (KeyError, TypeError, ValueError):
            self.scene.set_camera_state(before)
        else:
            self._fitted = False
        self.redraw()

    def close_scene(self) -> None:
        """Let go of everything VTK holds; the view is dead afterwards."""
        if self._closed:
            return
        self._closed = True
        self._flight.stop()
        self._rest.close()
        self.interactor.removeEventFilter(self)
        self._tool = Tool(self)
        del self._loop
        self.show_panes(0)
        self.scene.close()
        self.interactor.close()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Closing the view closes its interactor, or VTK's memory stays behind."""
        self.close_scene()
        super().closeEvent(event)

    def fit_again(self) -> None:
        """Fit anew what has another shape now, unless the user has moved the camera since."""
        if self._closed:
            return
        if self._fitted:
            self.fit()
        elif self.panes is not None:
            self.redraw()

    # --- events of the interactor
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take every mouse and key event; True keeps it from VTK."""
        kind = event.type()
        if kind in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick):
            return self._press(event)
        if kind == QEvent.Type.MouseMove:
            return self._move(event)
        if kind == QEvent.Type.MouseButtonRelease:
            return self._release(event)
        if kind == QEvent.Type.Wheel:
            return self._wheel(event)
        if kind == QEvent.Type.Leave and self._dragging is None:
            self._tool.leave()
        if kind in SWALLOWED:
            return self._key(event)
        if kind == QEvent.Type.Resize:
            for drawn in (self.scene, self.panes):
                if drawn is not None:
                    drawn.set_pixel_scale(self.interactor.devicePixelRatioF())
            self._resized.start()
        return False

    def _pointer(self, event: QMouseEvent | QWheelEvent) -> Pointer:
        """The event's place in device pixels from the lower left, as VTK counts them."""
        scale = self.interactor.devicePixelRatioF()
        place, held = event.position(), event.modifiers()
        return Pointer(
            place.x() * scale,
            (self.interactor.height() - 1 - place.y()) * scale,
            bool(held & Qt.KeyboardModifier.ControlModifier),
            bool(held & Qt.KeyboardModifier.ShiftModifier),
        )

    def _in_first_pane(self, pointer: Pointer) -> tuple[float, float]:
        """The same place of the first pane; lines of sight are alike in all of them."""
        x_px, y_px = pointer.x_px, pointer.y_px
        place = None if self.panes is None else self.panes.pane_at(x_px, y_px)
        if not place:
            return x_px, y_px
        rects = self.panes.rects
        width, height = self.interactor.render_window.GetSize()
        return (
            x_px - (rects[place][0] - rects[0][0]) * width,
            y_px - (rects[place][1] - rects[0][1]) * height,
        )

    def _press(self, event: QMouseEvent) -> bool:
        if self._dragging is not None:
            return True
        self.interactor.setFocus(Qt.FocusReason.MouseFocusReason)
        self._flight.stop()
        self._dragging = event.button()
        self._last_px = (event.position().x(), event.position().y())
        self._tool_has_it = event.button() == Qt.MouseButton.LeftButton and self._tool.press(
            self._pointer(event)
        )
        return True

    def _move(self, event: QMouseEvent) -> bool:
        if self._dragging is None:
            self._tool.hover(self._pointer(event))
            return True
        place = event.position()
        across, down = place.x() - self._last_px[0], place.y() - self._last_px[1]
        self._last_px = (place.x(), place.y())
        if self._tool_has_it:
            self._tool.drag(self._pointer(event))
        elif self._dragging == Qt.MouseButton.MiddleButton:
            self._pan(across, down)
        else:  # right, or left beside everything the tool cares for
            self._set_camera(
                orbit(self._camera(), -TURN_DEG_PER_PX * across, TURN_DEG_PER_PX * down)
            )
        return True

    def _release(self, event: QMouseEvent) -> bool:
        if event.button() != self._dragging:
            return True
        had_it, self._tool_has_it, self._dragging = self._tool_has_it, False, None
        if had_it:
            self._tool.release(self._pointer(event))
        self._tool.hover(self._pointer(event))
        return True

    def _wheel(self, event: QWheelEvent) -> bool:
        notches = event.angleDelta().y() / 120.0
        if notches:
            pointer = self._pointer(event)
            origin, direction = (
                np.asarray(v) for v in self.scene.display_ray(*self._in_first_pane(pointer))
            )
            camera = self._camera()
            reach = float((np.asarray(camera.focal_mm) - origin) @ direction)
            self._set_camera(zoom(camera, ZOOM_PER_NOTCH**notches, origin + reach * direction))
        return True

    def _key(self, event: QKeyEvent) -> bool:
        escape = event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Escape
        if escape and self._tool.cancel():
            self._tool_has_it = False
            return True
        event.ignore()  # on to the window; VTK has keys of its own that must not see it
        return True

    # --- the camera
    def _camera(self) -> Camera:
        state = self.scene.camera_state()
        return Camera(*(np.asarray(state[k]) for k in ("position_mm", "focal_mm", "view_up")))

    def _set_camera(self, camera: Camera) -> None:
        state = self.scene.camera_state()
        state.update(
            position_mm=[float(x) for x in camera.position_mm],
            focal_mm=[float(x) for x in camera.focal_mm],
            view_up=[float(x) for x in camera.view_up],
        )
        self.scene.set_camera_state(state)
        self._fitted = False
        self.camera_moved.emit()
        self.redraw()

    def _pan(self, across: float, down: float) -> None:
        camera, state = self._camera(), self.scene.camera_state()
        distance = float(np.linalg.norm(np.subtract(camera.focal_mm, camera.position_mm)))
        height_mm = 2.0 * distance * np.tan(np.radians(float(state["view_angle_deg"])) / 2.0)
        mm_per_px = height_mm * self.interactor.devicePixelRatioF() / self.size_px[1]
        self._set_camera(pan(camera, -across * mm_per_px, down * mm_per_px))
