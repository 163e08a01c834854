"""Mending in stage Check: steps for this part, what each changes before it is taken, and what is
left."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from viewer.geometry.mend.faults_left import FaultsLeft
from viewer.geometry.mend.mend_effect import MendEffect
from viewer.geometry.mend.re_skin import finest_resolution_mm, usual_resolution_mm
from viewer.window.mend_work import MendWork, Way
from viewer.window.pieces import Fields, NumberField, button, column, rule, text_label
from viewer.window.quantities import count_text, number_text
from viewer.words import later, say, written

LENGTH_RANGE_MM = (0.02, 20.0)
# Steps whose length is the user's choice, and what it is called.
LENGTHS = {
    "sew-wide-seams": later("Seams up to"),
    "thicken-sheet": later("Wall"),
    "re-skin": later("Resolution"),
}
NOT_LOOKED = later("Nothing is changed before you say so; every step can be undone.")
NOTHING = later("There is nothing that mending would better.")
DONE = later("All steps are taken; the check above says how the part is now.")


class MendBox(QWidget):
    """The way to mend, step by step; writes to nothing but `MendWork`, and listens to it."""

    def __init__(self, work: MendWork) -> None:
        super().__init__()
        self._work = work
        layout = column(gap=6)
        self.setLayout(layout)
        layout.addWidget(rule())
        layout.addWidget(text_label(say("Mend"), heading=True))
        self.state = text_label(quiet=True)
        layout.addWidget(self.state)
        self.look = button(
            say("Look for ways to mend"),
            work.look,
            say("Choose steps for this part and work out what each would change; takes none."),
        )
        self.safe = button(
            say("Mend what is safe"),
            work.take_safe,
            say(
                "Take the harmless steps that come next in one go: they move nothing that would "
                "print."
            ),
            leading=True,
        )
        layout.addWidget(self.look)
        layout.addWidget(self.safe)
        self.rows: QVBoxLayout = column(gap=8)
        layout.addLayout(self.rows)
        self.back = button(
            say("Back as received"),
            work.go_back,
            say(
                "Lay the part as it was read in place of the mended one (Ctrl+Alt+M); its marks "
                "are carried over."
            ),
        )
        self.back.setAccessibleName(say("Back to the part as received"))
        layout.addWidget(self.back)
        layout.addWidget(text_label(say("If nothing else helps"), quiet=True))
        fields = Fields()
        self._resolution = fields.add(
            say("New skin"),
            NumberField(
                say("Resolution of the new skin"), "mm", 0.02, 20.0, 2, 0.05, lambda value: None
            ),
            say(
                "Lay a new skin around all that is enclosed: finer than this, shape is lost. The "
                "lens Deviation shows afterwards how far it lies from the part as received."
            ),
        )
        layout.addWidget(fields)
        self.skin = button(
            say("Look at a new skin"),
            lambda: work.look_at_new_skin(self._resolution.value()),
            say("Work the new skin out, and offer it as a step; takes nothing yet."),
        )
        layout.addWidget(self.skin)
        self._mesh = None
        work.changed.connect(self._show)
        self._show()

    def show_part(self, part) -> None:
        """Suggest a resolution that suits the part."""
        self.setVisible(part is not None)
        if part is not None and part.mesh is not self._mesh and part.mesh.face_count:
            self._mesh = part.mesh
            self._resolution.setMinimum(max(0.02, finest_resolution_mm(part.mesh)))
            self._resolution.show_number(usual_resolution_mm(part.mesh))

    def _show(self) -> None:
        work, taken = self._work, self._work.taken
        _empty(self.rows)
        for number, way in enumerate(work.ways):
            row = WayRow(work, number, way, taken)
            self.rows.addWidget(row)
            for child in row.findChildren(QWidget):
                # Heights depend on the font that the style gives, and on the room buttons leave.
                child.ensurePolished()
        over = bool(work.ways) and taken == len(work.ways)
        self.look.setVisible(not work.looked)
        self.safe.setVisible(work.safe_ahead > 0)
        self.back.setVisible(work.can_go_back)
        self.safe.setText(say("Mend what is safe ({safe_ahead})", safe_ahead=work.safe_ahead))
        if not work.looked:
            self.state.setText(say(NOT_LOOKED))
        elif not work.ways:
            self.state.setText(say(NOTHING))
        else:
            self.state.setText(
                say(DONE)
                if over
                else say("In order: {count}.", count=count_text(len(work.ways), "step"))
            )


class WayRow(QWidget):
    """One step: what it does, what it changes, its length if it has one, and the button for it."""

    def __init__(self, work: MendWork, number: int, way: Way, taken: int) -> None:
        super().__init__()
        layout = column(gap=2)
        self.setLayout(layout)
        top = QHBoxLayout()
        top.setContentsMargins(0, 0, 0, 0)
        sign = "✓ " if number < taken else f"{number + 1}. "
        top.addWidget(text_label(sign + say(way.step.words)), 1)
        self.button = button(
            say("Take"),
            work.take_next,
            say("Take this step; undo brings the part back.")
            if number == taken
            else say("The steps are taken in their order, as each builds on the one before."),
        )
        self.button.setAccessibleName(
            say("Take step {number}: {words}", number=number + 1, words=say(way.step.words))
        )
        self.button.setEnabled(number == taken)
        self.button.setVisible(number >= taken)
        top.addWidget(self.button, 0, Qt.AlignmentFlag.AlignTop)
        layout.addLayout(top)
        if not way.step.safe and number >= taken:
            layout.addWidget(text_label(say("! It changes the shape: look at it afterwards.")))
        layout.addWidget(text_label(effect_text(way.effect), quiet=True))
        option = way.step.length_option
        name = LENGTHS.get(way.step.name)
        if name is not None and option is not None and number >= taken:
            fields = Fields()
            field = NumberField(name, "mm", *LENGTH_RANGE_MM, 3, 0.05, lambda value: None)
            field.setValue(dict(way.step.options)[option])
            field.valueChanged.connect(lambda value: work.look_again(number, value))
            fields.add(
                name, field, say("Another length; what the step changes is worked out anew.")
            )
            layout.addWidget(fields)


def effect_text(effect: MendEffect) -> str:
    """What a step changes and what it leaves, in a sentence each."""
    faces = effect.faces_after - effect.faces_before
    volume = effect.volume_after_mm3 - effect.volume_before_mm3
    area = effect.area_after_mm2 - effect.area_before_mm2
    moved = effect.largest_moved_mm
    moves = (
        say("nothing moves")
        if moved < 5e-4
        else say("moves by up to {moved} mm", moved=number_text(moved, 3))
    )
    return say(
        "Faces {faces}, volume {volume}, area {area}, {moves}. Leaves {left}.",
        faces=_signed(faces),
        volume=_signed(volume, " mm³"),
        area=_signed(area, " mm²"),
        moves=moves,
        left=left_text(effect.left),
    )


def left_text(left: FaultsLeft) -> str:
    """The faults that are left, in words."""
    counts = (
        (left.open_edges, later("open edge"), later("open edges")),
        (
            left.crowded_edges,
            later("edge of more than two faces"),
            later("edges of more than two faces"),
        ),
        (left.duplicate_faces, later("doubled face"), later("doubled faces")),
        (left.inward_shells, later("inverted shell"), later("inverted shells")),
        (
            left.crossing_faces,
            later("face that crosses another"),
            later("faces that cross others"),
        ),
        (
            left.touching_faces,
            later("face that touches another body"),
            later("faces that touch other bodies"),
        ),
    )
    words = [count_text(count, one, many) for count, one, many in counts if count]
    return ", ".join(words) if words else say("a closed surface without such faults")


def _signed(value: float, unit: str = "") -> str:
    if isinstance(value, int):
        return written(value, "+,").replace("-", "−") if value else say("unchanged")
    if abs(value) < 0.005:
        return say("unchanged")
    return ("+" if value > 0 else "−") + number_text(abs(value)) + unit


def _empty(layout: QVBoxLayout) -> None:
    while layout.count():
        widget = layout.takeAt(0).widget()
        widget.hide()
        widget.deleteLater()
