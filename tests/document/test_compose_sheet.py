"""What a client sheet says: numbers of closed forms in words, one truth in two languages."""

import re

import numpy as np
import pytest

from tests import shapes
from tests.made_sheets import facts_of, kept_upside_down, table_state
from viewer.document.client_sheet import ClientSheet
from viewer.document.compose_sheet import compose_sheet
from viewer.document.document import Changed, Document
from viewer.document.sheet_facts import other_poses
from viewer.document.sheet_words import (
    area_words,
    mass_words,
    money_words,
    range_words,
    time_words,
)
from viewer.document.state import Part, State
from viewer.geometry.deviation import find_deviation
from viewer.geometry.mesh_health import check_mesh
from viewer.geometry.pose import Pose
from viewer.shop.maker import Maker
from viewer.shop.ranges import Range
from viewer.shop.shop_choice import ShopChoice
from viewer.words import GERMAN, speaking


def texts_of(sheet: ClientSheet) -> str:
    """Everything that is to be read, in its order."""
    found = [sheet.title, sheet.part, sheet.company, sheet.client, sheet.date, sheet.intro]
    found += [text for row in sheet.rows for one in row for text in (one.caption, one.alt)]
    for section in (*sheet.shown, *sheet.told, sheet.agreement):
        found += [section.title, *section.sentences, *section.points]
        if section.table is not None:
            found += [*section.table.head, *(cell for row in section.table.rows for cell in row)]
    for signer in sheet.signers:
        found += [signer.title, *signer.lines]
    return "\n".join(found)


def table_of(sheet: ClientSheet) -> dict[str, tuple[str, ...]]:
    table = next(section.table for section in sheet.told if section.table is not None)
    return {row[0]: row[1:] for row in table.rows}


@pytest.fixture(scope="module")
def facts():
    return facts_of(kept_upside_down(client="Fennimore & Daughters"), Maker("Brook Prints"))


def test_touch_and_volume_are_those_of_the_closed_form(facts):
    """Row 22, CALC: touch 800 mm², all of class A; 16,000 mm³ of support."""
    words = texts_of(compose_sheet(facts))
    assert (
        "Supports touch 8.0 cm² of the 8.0 cm² that are always in view (class A), 100.0%" in words
    )
    assert "supports fill 16.0 cm³" in words
    assert "30.0 × 30.0 × 25.0 mm" in words
    assert "sound" in words


def test_the_alternative_is_better_where_it_is(facts):
    """CALC: upside down nothing hangs over; it is as high as before, which is no merit."""
    rows = table_of(compose_sheet(facts))
    assert rows["Always in view, touched by supports"] == ("8.0 cm²", "none  ✓ better")
    assert rows["Volume of supports"] == ("16.0 cm³", "0.0 cm³  ✓ better")
    assert rows["Height in the machine"] == ("25 mm", "25 mm")
    assert rows["Time"][1].endswith("✓ better")


def test_without_alternatives_there_is_no_comparison_and_nothing_said_of_one():
    sheet = compose_sheet(facts_of(table_state()))
    assert all(section.table is None for section in sheet.told)
    assert "other ways" not in texts_of(sheet).lower()


def test_no_more_than_three_alternatives_are_shown():
    state = table_state()
    document = Document(state)
    for number in range(5):
        document.keep_pose(f"kept {number}", Pose((0.1 * number + 0.1, 0.0, 1.0)))
    document.pin_pose(Pose((1.0, 0.0, 0.0)))
    assert [name for name, _ in other_poses(document.state)] == ["Pinned pose", "kept 0", "kept 1"]


def test_german_says_the_same_numbers_and_no_english(facts):
    english = compose_sheet(facts)
    with speaking(GERMAN):
        german = compose_sheet(facts)
    numbers = re.compile(r"\d+[.,]?\d*")
    assert german.language == "de"
    # Sentences that are said by the shop were said before, in English.
    for one, other in zip(
        (*english.shown, english.agreement), (*german.shown, german.agreement), strict=True
    ):
        for here, there in zip(one.points, other.points, strict=True):
            assert [n.replace(".", ",") for n in numbers.findall(here)] == numbers.findall(there)
            assert here != there
    assert english.intro != german.intro
    assert "8,0 cm²" in texts_of(german)


def test_both_sign_with_name_date_and_signature(facts):
    sheet = compose_sheet(facts)
    assert [signer.title for signer in sheet.signers] == [
        "For the client: Fennimore & Daughters", "For the maker: Brook Prints",
    ]  # fmt: skip
    assert all(signer.lines == ("Name", "Date", "Signature") for signer in sheet.signers)
    assert any("class A and class B" in point for point in sheet.agreement.points)


def test_every_caution_of_the_shop_is_there(facts):
    words = texts_of(compose_sheet(facts))
    assert len(facts.chosen.numbers.cautions) >= 4
    assert all(caution.text in words for caution in facts.chosen.numbers.cautions)


def test_money_has_the_makers_currency(facts):
    own = facts.chosen.numbers.estimate.currency
    assert f" {own}" in texts_of(compose_sheet(facts))
    other = facts_of(table_state(), Maker(currency="Taler"))
    words = texts_of(compose_sheet(other))
    assert " Taler" in words
    assert f" {own}" not in words


def test_a_mended_part_says_what_was_wrong_and_how_far_it_moved():
    """CALC: a cube that lacked one of its triangles had 3 open edges; closing it moves nothing."""
    received = shapes.without_faces(shapes.cube(), [0])
    state = State.of_part(Part("cube", shapes.cube(), received=received))
    facts = facts_of(
        state, received=check_mesh(received), deviation=find_deviation(received, shapes.cube())
    )
    words = texts_of(compose_sheet(facts))
    assert "3 open edges" in words
    assert "we mended it" in words
    assert "No faces are marked" in words


def test_copies_are_said(facts):
    words = texts_of(compose_sheet(facts_of(table_state(shop_choice=ShopChoice(copies=12)))))
    assert "12 times" in words
    assert "for 12 pieces" in words


@pytest.mark.parametrize(
    ("said", "expected"),
    [
        (area_words(0.4), "under 1 mm²"), (area_words(99.4), "99 mm²"),
        (area_words(12345.0), "123.5 cm²"), (time_words(600.0), "10 min"),
        (time_words(9000.0), "2.5 h"), (time_words(90000.0), "25 h"),
        (mass_words(3.21), "3.2 g"), (mass_words(1234.0), "1.23 kg"),
        (money_words(1234.5, "EUR"), "1,234.50 EUR"),
        (range_words(Range(60.0, 120.0, 180.0), time_words), "about 2 min (1 min to 3 min)"),
        (range_words(Range(60.0, 60.0, 60.0), time_words), "1 min"),
    ],
)  # fmt: skip
def test_amounts_are_written_as_people_say_them(said, expected):
    """CALC: by hand."""
    assert said == expected


def test_another_language_meanwhile_is_heard_in_its_block_only():
    with speaking(GERMAN):
        assert area_words(12345.0) == "123,5 cm²"
        with speaking("en"):
            assert area_words(12345.0) == "123.5 cm²"
        assert area_words(12345.0) == "123,5 cm²"
    assert area_words(12345.0) == "123.5 cm²"


def test_naming_the_client_is_a_step_that_undo_takes_back():
    document, told = Document(table_state()), []
    document.listen(told.append)
    document.name_client("  Fennimore &\n Daughters ")
    assert document.state.client == "Fennimore & Daughters"
    assert told == [Changed.CLIENT]
    assert document.modified
    document.undo()
    assert document.state.client == ""
    assert not document.modified
    document.name_client("x" * 200)
    assert len(document.state.client) == 80


def test_classes_tell_their_areas():
    facts = facts_of(table_state())
    assert facts.class_mm2[1] == pytest.approx(800.0)  # row 22, CALC
    assert sum(facts.class_mm2) == pytest.approx(
        float(np.sum(shapes.post_and_cap().face_areas_mm2))
    )
