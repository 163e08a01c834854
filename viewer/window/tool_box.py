"""Puts the tool of the present stage into the left button."""

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Document
from viewer.live.jobs import Jobs
from viewer.window.band_tool import BandTool
from viewer.window.choices import Choices, Extent, TurnMode
from viewer.window.document_signals import DocumentSignals
from viewer.window.hull_surface import HullSurface
from viewer.window.lasso_tool import LassoTool
from viewer.window.mark_tool import MarkTool
from viewer.window.mark_ways import MarkWays
from viewer.window.marking_surface import MarkingSurface
from viewer.window.part_view import PartView
from viewer.window.stages import Stage
from viewer.window.stand_tool import StandTool
from viewer.window.tools import Tool
from viewer.window.turn_tool import TurnTool


class ToolBox(QObject):
    """Owns the tools and gives the view the one that belongs to stage and options."""

    hint = Signal(str)
    step_ended = Signal()

    def __init__(
        self,
        view: PartView,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        jobs: Jobs,
    ) -> None:
        super().__init__(view)
        self._view, self._choices = view, choices
        # Before the tools join: one that is put away must not act on the choice it was put away by.
        choices.mark_changed.connect(self._choose)
        self.ways = MarkWays(view, document, signals, choices, jobs)
        self.ways.planner.hint.connect(self.hint)
        self.surface = MarkingSurface(document, signals, jobs)
        self.hull = HullSurface(document, signals, jobs)
        self.looking = Tool(self)
        self.marking = MarkTool(view.scene, document, choices, self.surface, self)
        self.turning = TurnTool(view.scene, document, self)
        self.standing = StandTool(view.scene, document, self.hull.face_under, self)
        self.banding = BandTool(view, self.ways, self)
        self.lassoing = LassoTool(view, document, self.ways, self)
        self.trying = self.looking
        for tool in (self.marking, self.banding, self.lassoing, self.turning, self.standing):
            tool.redraw.connect(view.redraw)
            tool.hint.connect(self.hint)
            tool.step_ended.connect(self.step_ended)
        choices.stage_changed.connect(self._choose)
        choices.turn_mode_changed.connect(self._choose)
        choices.presenting_changed.connect(self._choose)
        choices.comparing_changed.connect(self._choose)
        self._choose()

    def take_trying(self, tool: Tool) -> None:
        """Put this tool into the left button in stage Try."""
        tool.redraw.connect(self._view.redraw)
        tool.hint.connect(self.hint)
        self.trying = tool
        self._choose()

    def close(self) -> None:
        """Put the tool away and stop preparing."""
        self._view.set_tool(self.looking)
        self.ways.close()
        self.surface.close()
        self.hull.close()

    def cancel(self) -> bool:
        """Escape: take back the drag under way."""
        return self._view.tool.cancel()

    def _choose(self) -> None:
        choices = self._choices
        # In front of a client nothing is changed by a slip of the hand; panes are for looking.
        if choices.presenting or choices.comparing:
            tool = self.looking
        elif choices.stage is Stage.MARK:
            ways = {
                Extent.BAND: self.banding,
                Extent.LASSO: self.lassoing,
                # Buttons do these; the left button stays with the camera, to look for a view.
                Extent.SEEN_HERE: self.looking,
                Extent.SEEN_IN_USE: self.looking,
                Extent.CHANGE: self.looking,
            }
            tool = ways.get(choices.extent, self.marking)
        elif choices.stage is Stage.TURN:
            rings = choices.turn_mode is TurnMode.RINGS
            tool = self.turning if rings else self.standing
            if not rings:
                self.hull.prepare()
        elif choices.stage is Stage.TRY:
            tool = self.trying
        else:
            tool = self.looking
        if tool is not self._view.tool:
            self._view.set_tool(tool)
            self.hint.emit("")
