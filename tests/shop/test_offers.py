"""Offers: every machine and every pair, against what is chosen."""

import msgspec
import numpy as np
import pytest

from tests import shapes
from viewer.geometry.measure_pose import measure_pose
from viewer.geometry.pose import Pose
from viewer.geometry.prepared_part import prepare_part
from viewer.geometry.print_settings import PrintSettings
from viewer.progress import Progress
from viewer.shop.job_numbers import job_numbers
from viewer.shop.offers import machine_offers, pair_offers
from viewer.shop.shop import Shop, example_shop
from viewer.shop.shop_choice import ShopChoice


@pytest.fixture(scope="module")
def asked():
    mesh, settings, pose = shapes.post_and_cap(), PrintSettings(), Pose()
    part = prepare_part(mesh)
    classes = np.zeros(mesh.face_count, np.uint8)
    measures = measure_pose(part, classes, pose, settings)

    def numbers(choice, shop=None):
        return job_numbers(mesh, classes, pose, settings, measures, shop or example_shop(), choice)

    return numbers, measures, settings


def test_every_machine_is_offered_the_chosen_first_and_the_difference_is_that_of_estimates(asked):
    numbers, _, _ = asked
    told = numbers(ShopChoice("Two nozzles, large", "PLA with PVA"))
    offers = machine_offers(told, example_shop())
    assert {offer.machine for offer in offers} == {m.name for m in example_shop().machines}
    assert offers[0].machine == "Two nozzles, large"
    assert offers[0].against is None
    shared = next(o for o in offers if o.machine == "Shared nozzle, four materials")
    assert shared.against.time_s == shared.made.time_s.likely - told.estimate.time_s.likely
    assert shared.against.time_s > 0
    assert shared.against.purge_g > 0
    single = next(o for o in offers if o.machine == "One nozzle, medium")
    assert single.made is None
    assert "needs 2 materials" in single.problem


def test_contact_layers_alone_take_less_of_the_other_material_than_the_whole_support(asked):
    numbers, measures, settings = asked
    told = numbers(ShopChoice("Two nozzles, large", "PLA with PVA"))
    offers = pair_offers(told, measures, settings, example_shop(), (), Progress())
    by_name = {offer.pair: offer for offer in offers}
    assert offers[0].pair == "PLA with PVA"
    whole, contact = by_name["PLA with PVA"].made, by_name["PLA, PVA contact layers"].made
    assert contact.material_g["PVA"].likely < whole.material_g["PVA"].likely
    assert all(offer.known for offer in offers)  # the start set has both already


def test_a_pair_that_the_chosen_machine_cannot_print_is_offered_on_the_first_that_can(asked):
    numbers, measures, settings = asked
    told = numbers(ShopChoice("One nozzle, medium", "PLA alone"))
    offers = pair_offers(told, measures, settings, example_shop(), (), Progress())
    by_name = {offer.pair: offer for offer in offers}
    assert by_name["PLA alone"].machine == "One nozzle, medium"
    able = [m.name for m in example_shop().machines if m.materials > 1]
    assert by_name["PLA with PVA"].machine == able[0]
    assert all(offer.made is not None for offer in offers)


def test_of_a_pair_of_ones_own_the_missing_one_is_made_up(asked):
    numbers, measures, settings = asked
    examples = example_shop()
    own = msgspec.structs.replace(examples.pair("PLA with PVA"), name="Mine")
    shop = Shop(examples.machines, examples.materials, (own,), examples.processes)
    told = numbers(ShopChoice("Two nozzles, large", "Mine"), shop)
    offers = pair_offers(told, measures, settings, shop, (), Progress())
    assert [offer.pair for offer in offers] == ["Mine", "PLA, PVA contact layers"]
    assert [offer.known for offer in offers] == [True, False]
    assert offers[1].made.material_g["PVA"].likely < offers[0].made.material_g["PVA"].likely
