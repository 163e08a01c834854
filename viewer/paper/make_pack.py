"""The whole pack of a job, client sheets included."""

from pathlib import Path

from viewer.files.hand_over import Pack, write_pack
from viewer.files.sheet_html import sheet_html
from viewer.geometry.support_solids import SupportShape
from viewer.paper.make_sheet import SheetOrder, make_sheet
from viewer.paper.pages import sheet_pdf
from viewer.progress import Progress
from viewer.words import speaking


def make_pack(
    order: SheetOrder,
    path: Path,
    shape: SupportShape | None = None,
    progress: Progress | None = None,
    cusp_limit_mm: float | None = None,
) -> Pack:
    """Write a pack with the sheet as PDF and as a page; arguments and errors as of `write_pack`."""
    progress = progress or Progress()
    made = make_sheet(order, progress.part(0.0, 0.5))
    with speaking(made.sheet.language):
        sheets = {
            "client-sheet.pdf": sheet_pdf(made),
            "client-sheet.html": sheet_html(made).encode("utf-8"),
        }
    return write_pack(
        order.state, path, shape, progress.part(0.5, 1.0), cusp_limit_mm, sheets,
        made.sheet.language,
    )  # fmt: skip
