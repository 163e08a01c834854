"""Which test pays, in stage Try: a sentence for each open question, and a button that makes it."""

from functools import partial

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QGridLayout, QWidget

from viewer.document.document import Document
from viewer.geometry.face_classes import CLASS_A
from viewer.live.live_proposals import LiveProposals, Proposals
from viewer.window.fold import relay_around
from viewer.window.pieces import ActionButton, Sentence, button, column, text_label
from viewer.window.shop_rows import duration_text
from viewer.words import say


class ProposalBox(QWidget):
    """wanted : number of a proposal whose piece shall be put on the job's list."""

    wanted = Signal(int)

    def __init__(
        self, document: Document, live: LiveProposals, actions: dict[str, QAction]
    ) -> None:
        super().__init__()
        self._document, self._live = document, live
        layout = column(gap=6)
        self.setLayout(layout)
        self.state = text_label(quiet=True)
        layout.addWidget(self.state)
        self._list = column(gap=6)
        layout.addLayout(self._list)
        self.together = text_label()
        layout.addWidget(self.together)
        self._buttons = QWidget()
        grid = QGridLayout(self._buttons)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(6)
        grid.addWidget(ActionButton(actions["take_all_tests"], say("Take all")), 0, 0)
        grid.addWidget(ActionButton(actions["save_tests"], say("One platform …")), 1, 0)
        layout.addWidget(self._buttons)
        self.buttons: list[QWidget] = []
        live.told.connect(self._show)
        self._show(live.latest)

    def _show(self, known: Proposals | None) -> None:
        waiting = known is None and self._shows_class_a()
        if waiting and self.buttons:  # what was proposed last stays in sight, to be looked at
            for made in self.buttons:
                made.setEnabled(False)
            self.together.setText(say("Working out which test pays …"))
            self.together.show()
            return
        self.buttons.clear()
        while self._list.count():
            widget = self._list.takeAt(0).widget()
            widget.hide()
            widget.deleteLater()
        proposals = () if known is None else known.proposals
        for number, each in enumerate(proposals):
            self._list.addWidget(Sentence(f"{number + 1}. {each.sentence}"))
            made = button(
                say("Take this piece"), partial(self.wanted.emit, number),
                say("Put it on the list of pieces, from where it is saved and seen; one undo "
                    "step."), leading=number == 0,
            )  # fmt: skip
            name = known.pieces[number].name
            made.setAccessibleName(say("Take piece {number}: {name}", number=number + 1, name=name))
            self._list.addWidget(made)
            self.buttons.append(made)
        self.state.setText(self._state_text(known))
        self.state.setVisible(not proposals)
        several = len(proposals) > 1
        self.together.setText(_together_text(known) if several else "")
        self.together.setVisible(several)
        self._buttons.setVisible(bool(proposals))
        relay_around(self)

    def _shows_class_a(self) -> bool:
        return bool((self._document.state.face_classes == CLASS_A).any())

    def _state_text(self, known: Proposals | None) -> str:
        """Why there is nothing to take."""
        if self._document.state.part is None:
            return say("Open a part first: what is open about its pose is asked here.")
        if not self._shows_class_a():
            return say("Mark the faces that show as class A first (stage 2): tests are for them.")
        if known is None:
            return say("Working out which test pays …")
        return say(
            "No test print pays for this pose: what limits are still unsure of decides about less "
            "than 5 mm² of class A."
        )


def _together_text(known: Proposals) -> str:
    if not known.places:
        return known.problem
    return say(
        "All {count} find room on one platform: about {time} one after the other.",
        count=len(known.pieces),
        time=duration_text(known.time_s),
    )
