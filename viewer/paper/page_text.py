"""A client sheet in the part of HTML that Qt's rich text knows, with lengths for one page width."""

from html import escape

from viewer.document.client_sheet import SheetSection, SheetSigner, SheetTable
from viewer.files.made_sheet import MadeSheet
from viewer.words import say

INK, QUIET, LINE = "#1e1e1e", "#50565c", "#8e959c"


class PageText:
    """Text for a page of so many pixels in width.

    scale : of letters and pictures, 1 as usual; zoom : the device's dots to one of these pixels,
        which Qt leaves to us for the margin of lists alone
    """

    def __init__(self, made: MadeSheet, width_px: float, scale: float, zoom: float) -> None:
        self._made, self._width, self._scale, self._zoom = made, width_px, scale, zoom

    def html(self) -> str:
        """The whole document."""
        sheet, size = self._made.sheet, 9.0 * self._scale
        style = (
            f"body {{ font-size: {size:.2f}pt; color: {INK}; }}"
            f"h1 {{ font-size: {1.75 * size:.2f}pt; margin: 6px 0px 2px 0px; }}"
            f"h2 {{ font-size: {1.2 * size:.2f}pt; margin: {9 * self._scale:.0f}px 0px 2px 0px; }}"
            "p { margin: 2px 0px 2px 0px; } ul { margin: 0px 0px 0px 0px;"
            " -qt-list-indent: 0; }"
            f"li {{ margin: 1px 0px 1px {12 * self._scale * self._zoom:.0f}px; }}"
        )
        return "".join(
            (
                f'<html><head><meta charset="utf-8"><style>{style}</style></head><body>',
                self._head(),
                f"<h1>{escape(sheet.title)}: {escape(sheet.part)}</h1><p>{escape(sheet.intro)}</p>",
                self._pictures(),
                self._legend(),
                f"<p>{escape(sheet.legend)}</p>",
                *(self._section(section) for section in sheet.shown),
                *(self._section(each, new_page=not k) for k, each in enumerate(sheet.told)),
                self._section(sheet.agreement),
                self._signers(),
                "</body></html>",
            )
        )

    def _head(self) -> str:
        sheet = self._made.sheet
        logo = '<img src="logo" height="34">' if self._made.logo_png else ""
        client = escape(say("For {client}", client=sheet.client)) if sheet.client else ""
        return (
            f'<table width="100%" cellspacing="0" cellpadding="2"><tr>'
            f'<td style="vertical-align: middle;">{logo} <b>{escape(sheet.company)}</b></td>'
            f'<td align="center" style="vertical-align: middle;">{client}</td>'
            f'<td align="right" style="vertical-align: middle;">{escape(sheet.date)}</td>'
            f"</tr></table><hr>"
        )

    def _pictures(self) -> str:
        rows = []
        for number, row in enumerate(self._made.sheet.rows):
            each = self._width / len(row)
            width = (each - 8) * min(self._scale, 1.0)
            cells = "".join(
                f'<td width="{100 / len(row):.1f}%" align="center"><img src="{one.name}"'
                f' width="{width:.0f}"></td>'
                for one in row
            )
            rows.append(f"<tr>{cells}</tr>")
            if number == len(self._made.sheet.rows) - 1:
                words = "".join(
                    f'<td align="center" style="color: {QUIET};">{escape(one.caption)}</td>'
                    for one in row
                )
                rows.append(f"<tr>{words}</tr>")
        return f'<table width="100%" cellspacing="0" cellpadding="3">{"".join(rows)}</table>'

    def _legend(self) -> str:
        height = 11 * self._scale
        entries = [
            f'<td><img src="legend-{number}" height="{height:.0f}">&nbsp;{escape(label)}</td>'
            for number, (label, _) in enumerate(self._made.legend)
        ]
        rows = [entries[start : start + 3] for start in range(0, len(entries), 3)]
        body = "".join(f"<tr>{''.join(row)}</tr>" for row in rows)
        return f'<table width="100%" cellspacing="0" cellpadding="2">{body}</table>'

    def _section(self, section: SheetSection, new_page: bool = False) -> str:
        start = ' style="page-break-before: always; margin-top: 0px;"' if new_page else ""
        found = [f"<h2{start}>{escape(section.title)}</h2>"]
        found += [f"<p>{escape(sentence)}</p>" for sentence in section.sentences]
        if section.points:
            points = "".join(f"<li>{escape(point)}</li>" for point in section.points)
            found.append(f"<ul>{points}</ul>")
        if section.table is not None:
            found.append(self._table(section.table))
        return "".join(found)

    def _table(self, table: SheetTable) -> str:
        heads = "".join(f"<td><b>{escape(name)}</b></td>" for name in table.head)
        rows = "".join(
            "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>"
            for row in table.rows
        )
        return (
            '<table width="100%" cellspacing="0" cellpadding="2" border="1"'
            f' style="border-collapse: collapse; border-color: {LINE};">'
            f"<tr>{heads}</tr>{rows}</table>"
        )

    def _signers(self) -> str:
        cells = "".join(self._signer(signer) for signer in self._made.sheet.signers)
        return f'<table width="100%" cellspacing="0" cellpadding="4"><tr>{cells}</tr></table>'

    def _signer(self, signer: SheetSigner) -> str:
        width = 100 // len(self._made.sheet.signers)
        room = f"padding-top: {16 * self._scale:.0f}px;"
        lines = "".join(
            f'<tr><td style="{room}">{escape(name)}&nbsp;</td>'
            f'<td width="70%" style="border-bottom: 1px solid {INK}; {room}"></td></tr>'
            for name in signer.lines
        )
        return (
            f'<td width="{width}%"><b>{escape(signer.title)}</b>'
            f'<table width="100%" cellspacing="0" cellpadding="1">{lines}</table></td>'
        )
