"""The client sheet as one HTML file that needs nothing else: no network, no other file.

A policy in its head (Content Security Policy Level 3, W3C) forbids everything but its own script
and style, named by their SHA-256, and pictures it holds itself. All text is escaped.
"""

import base64
import hashlib
import json
from html import escape
from pathlib import Path

import numpy as np

from viewer.document.client_sheet import SheetSection, SheetSigner, SheetTable
from viewer.errors import CannotWrite
from viewer.files.atomic_write import replacing
from viewer.files.made_sheet import MadeSheet
from viewer.progress import Progress
from viewer.resource_files import resource_file
from viewer.words import say

MOST_BYTES = 10_000_000
_TOOLS = (
    ("ArrowLeft", "←"), ("ArrowRight", "→"), ("ArrowUp", "↑"), ("ArrowDown", "↓"), ("+", "+"),
    ("-", "−"),
)  # fmt: skip


def write_sheet_html(made: MadeSheet, path: Path, progress: Progress | None = None) -> None:
    """Write the sheet as a whole or not at all. Raises CannotWrite, Cancelled."""
    content = sheet_html(made).encode("utf-8")
    if len(content) >= MOST_BYTES:
        raise CannotWrite(
            say("The sheet would be larger than 10 MB; write it as a PDF, or use a smaller logo.")
        )
    with replacing(path, progress) as temporary:
        temporary.write_bytes(content)


def sheet_html(made: MadeSheet) -> str:
    """The whole page."""
    sheet = made.sheet
    script = resource_file("sheet/turn.js").read_text("utf-8")
    style = resource_file("sheet/sheet.css").read_text("utf-8")
    policy = (
        f"default-src 'none'; img-src data:; script-src '{_hash(script)}';"
        f" style-src '{_hash(style)}'; base-uri 'none'; form-action 'none'"
    )
    title = f"{sheet.title}: {sheet.part}"
    return "".join(
        (
            f'<!DOCTYPE html>\n<html lang="{escape(sheet.language)}">\n<head>\n',
            '<meta charset="utf-8">\n',
            f'<meta http-equiv="Content-Security-Policy" content="{escape(policy)}">\n',
            '<meta name="viewport" content="width=device-width, initial-scale=1">\n',
            '<meta name="referrer" content="no-referrer">\n',
            '<link rel="icon" href="data:,">\n',
            f"<title>{escape(title)}</title>\n<style>{style}</style>\n</head>\n<body>\n",
            _head(made),
            f"<main>\n<h1>{escape(title)}</h1>\n<p>{escape(sheet.intro)}</p>\n",
            _turnable(made),
            _pictures(made),
            *(_section(section) for section in (*sheet.shown, *sheet.told)),
            _section(sheet.agreement),
            '<section class="whole signers">',
            *(_signer(signer) for signer in sheet.signers),
            f"</section>\n</main>\n<footer>{escape(_footer())}</footer>\n",
            f'<script type="application/json" id="part-data">{_data(made)}</script>\n',
            f"<script>{script}</script>\n</body>\n</html>\n",
        )
    )


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode("utf-8")).digest()).decode()


def _source(kind: str, content: bytes) -> str:
    return f"data:image/{kind};base64,{base64.b64encode(content).decode('ascii')}"


def _head(made: MadeSheet) -> str:
    sheet, found = made.sheet, ["<header>"]
    if made.logo_png:
        alt = escape(sheet.company or say("Logo"))
        found.append(f'<img src="{_source("png", made.logo_png)}" alt="{alt}">')
    if sheet.company:
        found.append(f'<span class="who">{escape(sheet.company)}</span>')
    if sheet.client:
        found.append(f"<span>{escape(say('For {client}', client=sheet.client))}</span>")
    found.append(f'<span class="when">{escape(sheet.date)}</span></header>\n')
    return "".join(found)


def _turnable(made: MadeSheet) -> str:
    names = (
        say("Turn to the left"), say("Turn to the right"), say("See it more from above"),
        say("See it more from below"), say("Come nearer"), say("Go farther off"),
    )  # fmt: skip
    buttons = "".join(
        f'<button type="button" value="{key}" aria-label="{escape(name)}" title="{escape(name)}">'
        f"{sign}</button>"
        for (key, sign), name in zip(_TOOLS, names, strict=True)
    )
    how = say(
        "Drag to turn the part, with two fingers or the wheel to come nearer; or use the arrow "
        "keys, plus and minus."
    )
    label = say("The part as it lies in the machine, to be turned")
    again = escape(say("As at first"))
    touch = escape(say("Show where supports touch"))
    return (
        f'<section id="turnable" hidden>\n<canvas tabindex="0" role="application"'
        f' aria-label="{escape(label)}" aria-describedby="how"></canvas>\n'
        f'<div class="tools">{buttons}<button type="button" value="Home">{again}</button>'
        f'<label><input type="checkbox">{touch}</label></div>\n'
        f'<p class="quiet small" id="how">{escape(how)} {escape(reduction_words(made))}</p>\n'
        f'</section>\n<p id="stills-only" class="quiet">'
        f"{escape(say('This browser cannot show the part in three dimensions; see the pictures.'))}"
        "</p>\n"
    )


def reduction_words(made: MadeSheet) -> str:
    """How far the part that can be turned lies from the one that is printed."""
    part = made.turnable
    return say(
        "Here the part has {now:,} of {before:,} faces; no place of it lies farther than "
        "{most_mm:.2g} mm from the part that is printed.",
        now=len(part.triangles),
        before=part.faces_before,
        most_mm=max(part.deviation_mm, 0.001),
    )


def _pictures(made: MadeSheet) -> str:
    figures = "".join(
        f'<figure><img src="{_source("jpeg", made.pictures[one.name])}" alt="{escape(one.alt)}">'
        f"<figcaption>{escape(one.caption)}</figcaption></figure>\n"
        for row in made.sheet.rows
        for one in row
    )
    entries = "".join(
        f'<li><img src="{_source("png", png)}" alt="" width="36" height="22">{escape(label)}</li>'
        for label, png in made.legend
    )
    return (
        f'<div class="pictures">\n{figures}</div>\n<ul class="legend">{entries}</ul>\n'
        f"<p>{escape(made.sheet.legend)}</p>\n"
    )


def _section(section: SheetSection) -> str:
    found = [f"<section>\n<h2>{escape(section.title)}</h2>\n"]
    found += [f"<p>{escape(sentence)}</p>\n" for sentence in section.sentences]
    if section.points:
        points = "".join(f"<li>{escape(point)}</li>\n" for point in section.points)
        found.append(f"<ul>\n{points}</ul>\n")
    if section.table is not None:
        found.append(_table(section.table))
    return "".join([*found, "</section>\n"])


def _table(table: SheetTable) -> str:
    heads = "".join(f'<th scope="col">{escape(name)}</th>' for name in table.head)
    rows = "".join(
        f'<tr><th scope="row">{escape(row[0])}</th>'
        + "".join(
            f'<td data-of="{escape(name)}">{escape(cell)}</td>'
            for name, cell in zip(table.head[1:], row[1:], strict=True)
        )
        + "</tr>\n"
        for row in table.rows
    )
    return f"<table>\n<thead><tr>{heads}</tr></thead>\n<tbody>{rows}</tbody>\n</table>\n"


def _signer(signer: SheetSigner) -> str:
    lines = "".join(
        f'<div class="line"><span>{escape(name)}</span><span></span></div>' for name in signer.lines
    )
    return f"<div><strong>{escape(signer.title)}</strong>{lines}</div>\n"


def _footer() -> str:
    return say("This page holds everything itself and asks nothing of the internet.")


def _data(made: MadeSheet) -> str:
    """Numbers and base64 only, so that nothing in it can end the script element."""
    x, y, z = (float(v) for v in made.towards_eye)
    return json.dumps(
        made.turnable.packed()
        | {
            "class_colours": np.round(made.class_colours, 4).ravel().tolist(),
            "touch_colours": np.round(made.touch_colours, 4).ravel().tolist(),
            "round_deg": float(np.degrees(np.arctan2(y, x))),
            "over_deg": float(np.degrees(np.arctan2(z, np.hypot(x, y)))),
        }
    )
