"""The demo job: Fennimore & Daughters (invented) want a soft-touch grip for a garden trowel."""

from viewer.document.state import Part, State
from viewer.geometry.trowel_grip import trowel_grip
from viewer.geometry.trowel_grip_faults import as_received_from_designer
from viewer.words import say

CLIENT = "Fennimore & Daughters"


def demo_job(resolution: float = 1.0) -> State:
    """The trowel grip, lying as its designer drew it, with the faces that show marked.

    resolution : facets along and around relative to the full part of about 300,000 faces
    """
    mesh, face_classes = trowel_grip(resolution)
    return State.of_part(Part(say("Trowel grip"), mesh, notes=()), face_classes, client=CLIENT)


def faulty_demo_job(resolution: float = 1.0) -> State:
    """The same grip as received from the designer: a seam, a doubled patch, a fold, a blister."""
    mesh, face_classes, _ = as_received_from_designer(resolution)
    return State.of_part(Part(say("Trowel grip as received"), mesh), face_classes, client=CLIENT)
