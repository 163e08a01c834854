"""The client sheet of a job, said in the language in force."""

from viewer.document.client_sheet import (
    ClientSheet,
    SheetPicture,
    SheetSection,
    SheetSigner,
)
from viewer.document.sheet_comparison import comparison
from viewer.document.sheet_facts import SheetFacts
from viewer.document.sheet_traces import trace_points
from viewer.document.sheet_words import (
    mass_words,
    money_words,
    range_words,
    time_words,
    volume_words,
)
from viewer.geometry.fault_words import counted, length, listed
from viewer.shop.ranges import Range
from viewer.words import later, say, spoken_language

# Columns of pictures: name, caption, what is heard instead of seen.
COLUMNS = (
    (
        "marked",
        later("The faces that show: class A reddish purple, class B blue"),
        later("The part as it lies in the machine, the faces that show in colour, from side {n}."),
    ),
    (
        "printed",
        later("How the print comes out, drawn"),
        later("Drawing of the printed part with its layers and marks of supports, from side {n}."),
    ),
    (
        "supports",
        later("With its supports: stripes where they touch, dots where they stand"),
        later("The part with the supports that are printed along, from side {n}."),
    ),
)
SIDES = 2


def compose_sheet(facts: SheetFacts) -> ClientSheet:
    """Everything that stands on the sheet."""
    state, maker = facts.state, facts.maker
    rows = tuple(
        tuple(
            SheetPicture(f"{name}-{side}", say(caption), say(alt, n=side))
            for name, caption, alt in COLUMNS
        )
        for side in range(1, SIDES + 1)
    )
    return ClientSheet(
        language=spoken_language(),
        title=say("Client sheet"),
        part=state.part.name,
        company=maker.company,
        client=state.client,
        date=facts.date,
        intro=say(
            "A machine prints your part layer by layer, from below. Which way it lies decides "
            "which faces come out clean: what hangs over needs supports, which are printed along "
            "and taken off afterwards, and leave marks. This sheet shows the way it will lie, and "
            "what of that will be seen."
        ),
        rows=rows,
        legend=say(
            "Class A is always in view, class B is seen in use, the rest is hidden. “Touch” is "
            "where a support holds the part up from below; “landing” is where a support stands, on "
            "the machine's platform or on the part itself."
        ),
        shown=(
            SheetSection(say("What you will see on the finished part"), (), trace_points(facts)),
        ),
        told=tuple(
            section
            for section in (_comparison(facts), _file(facts), _effort(facts), _cautions(facts))
            if section is not None
        ),
        agreement=_agreement(facts),
        signers=_signers(facts),
    )


def _comparison(facts: SheetFacts) -> SheetSection | None:
    table = comparison(facts, facts.maker.currency)
    if table is None:
        return None
    sentence = say(
        "The first column is the way it will be printed; better and worse are said beside it. "
        "Alike means: within what can be measured."
    )
    return SheetSection(say("Other ways to lay it"), (sentence,), (), table)


def _size(facts: SheetFacts) -> str:
    low, high = facts.state.part.mesh.box_mm
    x, y, z = high - low
    return say("{x:.1f} × {y:.1f} × {z:.1f} mm", x=x, y=y, z=z)


def _file(facts: SheetFacts) -> SheetSection:
    part, report = facts.state.part, facts.report
    sentences = [
        say(
            "The part measures {size} as drawn. Please check this: a file does not always say in "
            "which unit it was drawn.",
            size=_size(facts),
        ),
        say("Our check of the file: {verdict}.", verdict=say(report.verdict)) + f" {report.reason}",
    ]
    if facts.received is not None:
        found = [counted(fault.kind, fault.count) for fault in facts.received.faults]
        if found:
            mended = say("The file as received had {faults}; we mended it.", faults=listed(found))
        else:
            mended = say("We mended the file as received.")
        if facts.deviation is not None:
            mended += " " + say(
                "No place of the mended surface lies farther than {most} from the one received.",
                most=length(facts.deviation.new.max_mm),
            )
        sentences.append(mended)
    if part.unit_doubt:
        sentences.append(part.unit_doubt)
    return SheetSection(say("Your file"), tuple(sentences))


def _effort(facts: SheetFacts) -> SheetSection:
    numbers = facts.chosen.numbers
    chosen, made = numbers.chosen, numbers.estimate
    title = say("Time, material and price")
    if made is None:
        return SheetSection(title, (numbers.problem,))
    currency = facts.maker.currency or made.currency
    mass = Range(0.0, 0.0, 0.0)
    for each in made.material_g.values():
        mass = mass.plus(each)
    printed_of = (
        say("Printed in {model}, with supports of the same.", model=chosen.materials.model.name)
        if chosen.pair.support_body == chosen.pair.model == chosen.pair.contact
        else say(
            "Printed in {model}; supports of {support}.",
            model=chosen.materials.model.name,
            support=listed(
                list(
                    dict.fromkeys(
                        m.name for m in chosen.materials[1:] if m.name != chosen.pair.model
                    )
                )
            ),
        )
    )
    points = [
        printed_of,
        say("Printing time: {time}.", time=range_words(made.time_s, time_words)),
        say(
            "Material: {mass}, of which {part} are the part itself; supports fill {volume}.",
            mass=range_words(mass, mass_words),
            part=mass_words(made.model_g.likely),
            volume=volume_words(facts.chosen.measures.support_volume_mm3),
        ),
        say(
            "Price of material and machine time: {price}.",
            price=range_words(made.cost, money_words, currency),
        ),
    ]
    if made.copies > 1:
        points.append(say("All of this is for {copies} pieces.", copies=made.copies))
    points.append(
        say("These are estimates: nine of ten prints should lie between the lower and upper value.")
    )
    return SheetSection(title, (), tuple(points))


def _cautions(facts: SheetFacts) -> SheetSection:
    texts = tuple(say(caution.text) for caution in facts.chosen.numbers.cautions)
    return SheetSection(say("Please note"), (), texts)


def _agreement(facts: SheetFacts) -> SheetSection:
    copies = facts.state.shop_choice.copies
    points = [
        say(
            "“{part}” ({size}) is printed as it lies in these pictures, {copies}.",
            part=facts.state.part.name,
            size=_size(facts),
            copies=say("once") if copies == 1 else say("{copies} times", copies=copies),
        ),
        say("The faces marked as class A and class B are the ones that have to look good."),
        say(
            "Marks of supports and steps of layers, as far as they are described here, belong to "
            "the process and are no defect."
        ),
        say("The pictures are drawn; colour and gloss of the print may differ."),
        say("Time, mass and price may lie anywhere within the ranges given."),
    ]
    if facts.others:
        points.append(say("The other ways to lay it were shown, and this one was chosen."))
    return SheetSection(say("What you agree to"), (), tuple(points))


def _signers(facts: SheetFacts) -> tuple[SheetSigner, ...]:
    name, *blank = (say("Name"), say("Date"), say("Signature"))
    return (
        SheetSigner(_side(say("For the client"), facts.state.client), (name, *blank)),
        SheetSigner(_side(say("For the maker"), facts.maker.company), (name, *blank)),
    )


def _side(title: str, who: str) -> str:
    return f"{title}: {who}" if who else title
