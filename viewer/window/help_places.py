"""Which page and section of the help belongs to what has the focus, for F1."""

from PySide6.QtWidgets import QWidget

from viewer.window.stages import Stage

# By the name of the class, as panels and dialogs do not know the help: page, English heading.
PLACES = {
    "CheckPanel": ("first-steps.md", "1. Check"),
    "FaultBox": ("how-it-mends.md", ""),
    "MendBox": ("how-it-mends.md", "Safe steps"),
    "MarkPanel": ("how-it-marks.md", "Ways to mark"),
    "WayBox": ("how-it-marks.md", "Ways to mark"),
    "TurnPanel": ("first-steps.md", "3. Turn"),
    "KeptBox": ("how-it-compares.md", "Keep what is worth coming back to"),
    "TryPanel": ("first-steps.md", "4. Try"),
    "HandOverPanel": ("first-steps.md", "5. Hand over"),
    "NumbersPanel": ("how-it-measures.md", "By class"),
    "HeightStrip": ("how-it-measures.md", "Layer by layer"),
    "ShopColumn": ("how-it-reckons.md", "In the window"),
    "RiskBox": ("how-it-reckons.md", "Risks and cautions"),
    "ThingsDialog": ("how-it-reckons.md", "In the window"),
    "OffersDialog": ("how-it-reckons.md", "In the window"),
    "PrintsDialog": ("how-it-reckons.md", "In the window"),
    "CutBox": ("how-it-cuts.md", "Cut out a piece"),
    "SplitBox": ("how-it-cuts.md", "Split for real"),
    "SpecimenBox": ("how-it-cuts.md", "Specimens"),
    "PieceBox": ("how-it-cuts.md", "Pieces of the job"),
    "SheetBox": ("how-it-hands-over.md", "The client sheet"),
    "SheetPreview": ("how-it-hands-over.md", "As PDF, on paper, as a page"),
    "CompanyDialog": ("how-it-hands-over.md", "The client sheet"),
    "ProposalBox": ("how-it-learns.md", "Which test pays"),
    "TrialBox": ("how-it-learns.md", "Writing a result down"),
    "TrialForm": ("how-it-learns.md", "Writing a result down"),
    "LessonBox": ("how-it-learns.md", "What results teach"),
    "DirectionPane": ("how-it-searches.md", ""),
    "DirectionMap": ("how-it-searches.md", "The direction map"),
    "AimsBox": ("how-it-searches.md", "What matters"),
    "ResultsBox": ("how-it-searches.md", "How sure"),
    "LayersBox": ("how-it-searches.md", "Layers of different heights"),
    "CompareBox": ("how-it-compares.md", "Poses side by side (C)"),
    "CompareTable": ("how-it-compares.md", "Poses side by side (C)"),
    "StageList": ("first-steps.md", ""),
    "KeysDialog": ("the-program.md", "Keys and shortcuts"),
    "SettingsDialog": ("the-program.md", "Settings"),
    "ErrorDialog": ("the-program.md", "When something goes wrong"),
    "AboutDialog": ("the-program.md", ""),
    "FirstPage": ("first-steps.md", ""),
}
OF_STAGE = {
    Stage.CHECK: PLACES["CheckPanel"],
    Stage.MARK: PLACES["MarkPanel"],
    Stage.TURN: PLACES["TurnPanel"],
    Stage.TRY: PLACES["TryPanel"],
    Stage.HAND_OVER: PLACES["HandOverPanel"],
}


def place_of(focused: QWidget | None, stage: Stage) -> tuple[str, str]:
    """Page and English heading for the widget with the focus; the stage's where it has none."""
    while focused is not None:
        place = PLACES.get(type(focused).__name__)
        if place is not None:
            return place
        focused = focused.parentWidget()
    return OF_STAGE[stage]
