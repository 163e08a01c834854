"""For a part from CAD: how finely its exact surfaces are split into triangles, and sewing."""

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from viewer.document.state import Part
from viewer.files.step_file import CHORD_RANGE_MM, MOST_SEW_MM, CadModel
from viewer.window.pieces import Fields, NumberField, button, column, rule, text_label
from viewer.words import say


class CadBox(QWidget):
    """Chord error and sewing tolerance of the open part; hidden for parts without CAD surfaces."""

    def __init__(self, split_anew: Callable[[float, float], None]) -> None:
        """`split_anew(chord_mm, sew_mm)` makes the triangles again."""
        super().__init__()
        self._split_anew = split_anew
        layout = column(gap=6)
        self.setLayout(layout)
        layout.addWidget(rule())
        layout.addWidget(text_label(say("Exact surfaces"), heading=True))
        fields = Fields()
        self._chord = fields.add(
            say("Chord error"),
            NumberField(say("Chord error"), "mm", *CHORD_RANGE_MM, 3, 0.01, lambda value: None),
            say(
                "How far a triangle may stand off the exact surface; a quarter of a layer at first."
            ),
        )
        self._sew = fields.add(
            say("Sew within"),
            NumberField(
                say("Sewing tolerance"), "mm", 0.0, MOST_SEW_MM, 3, 0.01, lambda value: None
            ),
            say("Loose surfaces whose edges lie this near are joined; 0 leaves them as they are."),
        )
        layout.addWidget(fields)
        self._button = button(
            say("Make the triangles anew"),
            self._ask,
            say(
                "Split the exact surfaces again with these two numbers; one undo step, marks stay."
            ),
        )
        layout.addWidget(self._button)
        self.hide()

    def show_part(self, part: Part | None) -> None:
        """Show what the present triangles were made with."""
        model = None if part is None else part.cad
        self.setVisible(isinstance(model, CadModel))
        if isinstance(model, CadModel):
            self._chord.show_number(model.chord_mm)
            self._sew.show_number(model.sew_mm)

    def _ask(self) -> None:
        self._split_anew(self._chord.value(), self._sew.value())
