"""Gather every sentence the window shows into the catalogues resources/words/*.ts.

    python packaging/gather_words.py            adds new sentences, marks vanished ones
    python packaging/gather_words.py --check    changes nothing; exit code 1 if one is out of date

Sentences are the literals of `say`, `later` and `count_text`, and what the tables below hold. A
translation is kept as long as its English sentence stands; it may be filled in with Qt Linguist.
"""

import ast
import sys
import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WORDS = ROOT / "resources" / "words"
HEAD = '<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE TS>\n'


def literals(tree: ast.AST) -> Iterator[str]:
    """English sentences of one source file, in its order."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Tuple):
            yield from _refusal(node)
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", getattr(node.func, "attr", ""))
        given = [text for arg in node.args for text in _constants(arg)]
        if name in ("say", "later"):
            yield from given
        elif name == "count_text" and given:
            yield given[0]
            yield given[1] if len(given) > 1 else given[0] + "s"
        elif name == "report":  # what a long job is doing, said by the busy bar
            yield from given


def _refusal(node: ast.Tuple) -> list[str]:
    """The sentence of a pair (check, sentence), which `refuse` says where the check fails."""
    if len(node.elts) != 2 or not isinstance(node.elts[0], ast.Compare | ast.BoolOp | ast.Call):
        return []
    return [text for text in _constants(node.elts[1]) if text.endswith(".")]


def _constants(node: ast.AST) -> list[str]:
    """The text of a literal, or both of "one" if … else "other"."""
    if isinstance(node, ast.IfExp):
        return [*_constants(node.body), *_constants(node.orelse)]
    return [node.value] if isinstance(node, ast.Constant) and isinstance(node.value, str) else []


def table_sentences() -> Iterator[tuple[str, str]]:
    """(file, English sentence) of the tables whose texts are said where they are shown."""
    from viewer.files.mesh_files import OPEN_SUFFIXES
    from viewer.files.step_bodies import _WORDS as BODIES
    from viewer.files.threemf_reading import _REFUSALS
    from viewer.geometry.aims import AIMS, PRESETS
    from viewer.geometry.direction_table import MEASURES
    from viewer.geometry.fault_verdict import SOUND, WILL_FAIL, WITH_CARE
    from viewer.geometry.fault_words import WORDS as FAULTS
    from viewer.geometry.hard_limits import HARD_LIMITS
    from viewer.geometry.mend.steps import _WORDS as STEPS
    from viewer.scene.hatches import Hatch
    from viewer.scene.lenses import Lens
    from viewer.window import action_table, number_rows, stages

    for entry in action_table.ENTRIES:
        for title in (*entry.menu.split("/"), entry.text, entry.tip):
            yield "viewer/window/action_table.py", title
    for measure in (*number_rows.BY_CLASS, *number_rows.WHOLE):
        yield "viewer/window/number_rows.py", measure.name
        yield "viewer/window/number_rows.py", measure.explanation
    for name in number_rows.COLUMNS[2:]:
        yield "viewer/window/number_rows.py", name
    for table in (stages.TITLES, stages.WHAT_TO_DO, stages.BUTTONS):
        for sentence in table.values():
            yield "viewer/window/stages.py", sentence
    for state in (stages.OPEN, stages.DONE, stages.LOOK):
        yield "viewer/window/stages.py", state.word
    yield "viewer/window/stages.py", stages.STAND_ON
    yield "viewer/window/stages.py", stages.STAND_BUTTONS
    for lens in Lens:
        yield "viewer/scene/lenses.py", lens.title
    for hatch in Hatch:
        yield "viewer/scene/hatches.py", hatch.value
    for name in OPEN_SUFFIXES:
        yield "viewer/files/mesh_files.py", name
    for sentence in _REFUSALS.values():
        yield "viewer/files/threemf_reading.py", sentence
    for names in BODIES.values():
        for name in names:
            yield "viewer/files/step_bodies.py", name
    yield from _sentences_of_shop()
    for each in (*AIMS, *PRESETS):
        yield "viewer/geometry/aims.py", each.name
    for limit in HARD_LIMITS:
        yield "viewer/geometry/hard_limits.py", limit.name
        yield "viewer/geometry/hard_limits.py", limit.blocked
    for measure in MEASURES:
        yield "viewer/geometry/direction_table.py", measure.name
    for word in (SOUND, WITH_CARE, WILL_FAIL):
        yield "viewer/geometry/fault_verdict.py", word
        yield "viewer/geometry/fault_verdict.py", word.capitalize()
    for words in FAULTS.values():
        for text in words:
            yield "viewer/geometry/fault_words.py", text
    for words in STEPS.values():
        yield "viewer/geometry/mend/steps.py", words


def _sentences_of_shop() -> Iterator[tuple[str, str]]:
    """Those of the tables of the shop, and of the things the program brings along."""
    from viewer.shop.cautions import CAUTIONS
    from viewer.shop.print_job import PART_NAMES
    from viewer.shop.shop import example_shop

    for name in PART_NAMES.values():
        yield "viewer/shop/print_job.py", name
    for caution in CAUTIONS.values():
        yield "viewer/shop/cautions.py", caution.text
        yield "viewer/shop/cautions.py", caution.source
    for text in _words_of_shop(example_shop()):
        yield "resources/shop", text


def _words_of_shop(shop) -> Iterator[str]:
    """Names, sources and notes of the things the program brings along."""
    for thing in (*shop.machines, *shop.materials, *shop.pairs, *shop.processes):
        yield thing.name
        yield from thing.sources.values()
        for field in ("notes", "drying", "emissions", "bond", "bond_source", "touched_face"):
            yield getattr(thing, field, "")
        for inner in (*getattr(thing, "nozzles", ()), *getattr(thing, "forbidden", ())):
            yield inner.name


@cache
def sentences() -> dict[str, list[str]]:
    """English sentences by source file, each at the first file that has it."""
    found: dict[str, list[str]] = {}
    seen: set[str] = set()
    pairs = []
    for path in sorted((ROOT / "viewer").rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        name = path.relative_to(ROOT).as_posix()
        pairs += [(name, text) for text in literals(tree)]
    for name, text in [*pairs, *table_sentences()]:
        if any(c.isalpha() for c in text) and text not in seen:
            seen.add(text)
            found.setdefault(name, []).append(text)
    return found


def translations(path: Path) -> dict[str, str]:
    """What a catalogue holds already, unfinished and vanished ones too."""
    if not path.exists():
        return {}
    messages = ElementTree.parse(path).getroot().iter("message")
    return {m.findtext("source"): m.findtext("translation") or "" for m in messages}


def catalogue(language: str, found: dict[str, list[str]], known: dict[str, str]) -> str:
    """The text of a .ts file."""
    root = ElementTree.Element("TS", version="2.1", language=language, sourcelanguage="en")
    for name in sorted(found):
        _add(root, name, [(text, known.get(text, ""), "unfinished") for text in found[name]])
    here = {text for texts in found.values() for text in texts}
    gone = sorted((text, words) for text, words in known.items() if text not in here and words)
    if gone:
        _add(root, "vanished", [(text, words, "vanished") for text, words in gone])
    ElementTree.indent(root, "    ")
    return HEAD + ElementTree.tostring(root, encoding="unicode") + "\n"


def _add(root: ElementTree.Element, name: str, messages: list[tuple[str, str, str]]) -> None:
    context = ElementTree.SubElement(root, "context")
    ElementTree.SubElement(context, "name").text = name
    for text, words, state in messages:
        message = ElementTree.SubElement(context, "message")
        ElementTree.SubElement(message, "source").text = text
        translation = ElementTree.SubElement(message, "translation")
        translation.text = words
        if not words or state == "vanished":
            translation.set("type", state)


def main(words: list[str]) -> int:
    """Bring the catalogues up to date, or check them."""
    sys.path.insert(0, str(ROOT))
    found, stale = sentences(), []
    for path in sorted(WORDS.glob("*.ts")):
        text = catalogue(path.stem, found, translations(path))
        if text != path.read_text(encoding="utf-8"):
            stale.append(path.name)
            if "--check" not in words:
                path.write_text(text, encoding="utf-8", newline="\n")
    print(f"Out of date: {', '.join(stale)}." if stale else "All catalogues are up to date.")
    return 1 if stale and "--check" in words else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
