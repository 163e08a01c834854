"""What the shop says about fit, risks, pair and cautions, as lines to read; pure functions."""

from viewer.shop.cautions import Caution
from viewer.shop.copies import CopiesPlan
from viewer.shop.fit import machines_that_fit
from viewer.shop.job_numbers import JobNumbers
from viewer.shop.packing import MOST_PIECES
from viewer.shop.pairs import Pair
from viewer.words import later, say

REMOVALS = {
    "cut": later("cut or broken off"),
    "peel": later("peeled off"),
    "water": later("dissolved in water"),
    "solvent": later("dissolved in a solvent"),
}


def fit_sentences(numbers: JobNumbers) -> list[str]:
    """What is in the way on the chosen machine, and which others it fits."""
    own = numbers.fits[numbers.chosen.machine.name]
    told = [f"! {own.why}"] if own.why and numbers.estimate is not None else []
    others = [say(each) for each in machines_that_fit(numbers.fits) if each != own.machine]
    if others:
        told.append(say("Also fits: {names}.", names="; ".join(others)))
    else:
        told.append(say("No other machine of the shop fits."))
    return told


def room_sentence(plan: CopiesPlan) -> str:
    """How many copies find room on the platform, and what stands beside them."""
    if plan.pieces:
        names = ", ".join(name for name, _ in plan.pieces)
        return say("At most {most} find room beside {names}.", most=plan.most, names=names)
    if plan.problem:
        return f"! {plan.problem} " + say("At most {most} find room.", most=plan.most)
    if plan.most >= MOST_PIECES:
        return say("{most} and more find room on the platform.", most=plan.most)
    return say("At most {most} find room on the platform.", most=plan.most)


def pair_sentences(pair: Pair) -> list[str]:
    """How the support comes off, how the face comes out, how the two hold, and from where."""
    told = [say("Support is {removal}.", removal=say(REMOVALS[pair.removal]))]
    if pair.touched_face:
        told.append(say("Touched face: {words}.", words=say(pair.touched_face)))
    if pair.bond:
        told.append(say("Bond: {words}.", words=say(pair.bond)))
    if pair.bond_source:
        told.append(say("Source: {words}.", words=say(pair.bond_source)))
    return told


def caution_lines(cautions: tuple[Caution, ...]) -> list[str]:
    """The cautions, what is particular first."""
    return [f"! {say(caution.text)}" for caution in cautions]
