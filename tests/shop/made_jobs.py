"""Layers, machines and materials that several tests of the shop use."""

import msgspec
import numpy as np

from viewer.shop.job_layers import JobLayers
from viewer.shop.machines import Machine, Nozzle
from viewer.shop.materials import Material
from viewer.shop.pairs import Pair
from viewer.shop.print_job import Estimate, PrintJob, estimate
from viewer.shop.processes import Process
from viewer.shop.shop import PairMaterials

WAX = Material(name="Wax", density_g_cm3=1.0, price_per_kg=20.0, min_layer_s=0.0)
SALT = Material(name="Salt", density_g_cm3=2.0, price_per_kg=100.0, min_layer_s=0.0)
ALONE = Pair(name="Wax alone", model="Wax", support_body="Wax", contact="Wax")
WHOLE = Pair(
    name="Wax with salt", model="Wax", support_body="Salt", contact="Salt", contact_gap_mm=0.0,
    contact_layers=3,
)  # fmt: skip
CONTACT = msgspec.structs.replace(WHOLE, name="Wax, salt contact layers", support_body="Wax")
MATERIALS = {"Wax": WAX, "Salt": SALT}


def machine(**more) -> Machine:
    """Two nozzles that reach a platform of 200 × 200 × 200 mm alike."""
    reach = {"reach_low_mm": (-100.0, -100.0, 0.0), "reach_high_mm": (100.0, 100.0, 200.0)}
    count = 1 if more.get("shared_nozzle") else 2
    nozzles = tuple(Nozzle(name=f"nozzle {n + 1}", **reach) for n in range(count))
    values = {
        "name": "Made", "build_volume_mm": (200.0, 200.0, 200.0), "nozzles": nozzles,
        "materials": 2, "hourly_rate": 3.0, "start_s": 0.0, "layer_change_s": 0.0,
    }  # fmt: skip
    return Machine(**(values | more))


def layers(area_mm2, perimeter_mm, support_mm2=0.0, touch_at=(), count=50, layer_mm=0.2):
    """Layers alike; supports end in those of `touch_at`, all of their section under the part."""
    support = np.broadcast_to(np.asarray(support_mm2, float), count).copy()
    touch = np.zeros(count)
    for at in touch_at:
        touch[at] = support[at - 1]
        support[at:] = 0.0
    return JobLayers(
        layer_mm,
        np.broadcast_to(np.asarray(area_mm2, float), count),
        np.broadcast_to(np.asarray(perimeter_mm, float), count),
        support,
        touch,
        np.zeros(count),
    )


def estimated(job_layers: JobLayers, pair: Pair = ALONE, on: Machine | None = None,
              process: Process | None = None, **more) -> Estimate:  # fmt: skip
    """The estimate on a made machine."""
    of_pair = PairMaterials(*(MATERIALS[n] for n in (pair.model, pair.support_body, pair.contact)))
    process = process or Process(name="Usual")
    return estimate(job_layers, PrintJob(on or machine(), pair, of_pair, process, **more))
