"""The chosen machine in the scene: its platform, its volumes, what sticks out, and the copies."""

from PySide6.QtCore import QObject, Signal

from viewer.document.document import Changed, Document
from viewer.errors import RequestProblem, ShowsideError
from viewer.live.jobs import Job, Jobs
from viewer.live.live_shop import LiveShop
from viewer.live.machine_requests import machine_request
from viewer.scene.machine_view import MachineLook
from viewer.shop.job_numbers import JobNumbers, choose
from viewer.shop.machine_answer import MachineAnswer
from viewer.shop.machines import Machine
from viewer.window.choices import Choices
from viewer.window.document_signals import DocumentSignals
from viewer.window.machine_looks import machine_look, outside_sentences
from viewer.window.part_view import PartView


class MachineLink(QObject):
    """Follows the numbers of the shop.

    planned : CopiesPlan of the present pose or None, and sentences about what sticks out
    """

    planned = Signal(object, list)

    def __init__(
        self,
        view: PartView,
        document: Document,
        signals: DocumentSignals,
        choices: Choices,
        jobs: Jobs,
        live: LiveShop,
    ) -> None:
        super().__init__(view)
        self._view, self._document, self._choices = view, document, choices
        self._jobs, self._live = jobs, live
        self._job: Job | None = None
        self.latest: MachineAnswer | None = None
        live.told.connect(self._told)
        live.shop_changed.connect(self._show)
        signals.changed.connect(self._document_changed)
        choices.volumes_changed.connect(self._volumes_changed)
        self._show()

    def close(self) -> None:
        """Stop asking."""
        if self._job is not None:
            self._job.cancel()
        self._job = None

    # --- what is told
    def _document_changed(self, what: Changed) -> None:
        if what & (Changed.POSE | Changed.PART):
            self._forget()
        if what & Changed.SHOP:
            self._show()
        elif what & Changed.PIECES and self._document.state.shop_choice.beside:
            self._told(self._live.latest)

    def _forget(self) -> None:
        """Nothing is known of this pose yet."""
        self.close()
        self.latest = None
        self._show()
        self.planned.emit(None, [])

    def _told(self, numbers: JobNumbers | None) -> None:
        state = self._document.state
        if numbers is None or state.part is None or self._live.latest_pose != state.pose:
            return
        self.close()
        request = machine_request(state, state.pose, numbers, self._live.request().measures)
        self._job = self._jobs.run(request.answer, done=self._answered, failed=self._fail)

    def _answered(self, answer: MachineAnswer) -> None:
        self._job = None
        self.latest = answer
        self._show()
        self.planned.emit(answer.plan, outside_sentences(answer))

    def _fail(self, error: ShowsideError) -> None:
        self._job = None
        self._live.failed.emit(str(error))

    # --- what is shown
    def _volumes_changed(self, _shown: bool) -> None:
        self._show()
        self._view.fit()

    def _show(self, *_: object) -> None:
        """Platform and boxes of the machine that is chosen; the rest when it is known."""
        look = self.look(self.latest)
        if look is None:
            return
        self._view.scene.show_machine(look)
        self._view.redraw()

    def look(self, answer: MachineAnswer | None) -> MachineLook | None:
        """What a scene shows of the chosen machine, as the user has switched it on.

        answer : of the pose that is drawn, None where it is not known; None without a machine
        """
        machine = self._machine()
        if machine is None:
            return None
        known = answer is not None and answer.numbers.chosen.machine == machine
        shown = self._choices.volumes and self._document.state.part is not None
        return machine_look(machine, answer if known else None, shown)

    def _machine(self) -> Machine | None:
        try:
            return choose(self._live.shop, self._document.state.shop_choice).machine
        except RequestProblem:
            return None  # told by LiveShop
