"""Disinfectants at the station: how long each stays wet, how it is mixed, and what common volumes take."""

from __future__ import annotations

import math
from collections.abc import Iterator

from generator.planning.reckoning import Operand, Recorded
from generator.press.addresses import PAGE_OF, address, anchor, to_record, to_source
from generator.press.live_cupboard import mix_inputs
from generator.press.markup import Markup, Row, heading, link, note, page, paragraph, table, valued
from generator.press.worded import measured, reckoned
from generator.press.worked import Worked, how_computed, to_formula, worked
from generator.quantities import SHOWN, Quantity, from_canonical, to_canonical
from generator.records.families import Records
from generator.records.hygiene import Disinfectant
from generator.trade import disinfection
from generator.trade.refusal import Refusal


def disinfectants_page(records: Records, here: str) -> str:
    """Contact times, mixes for the studio's volumes, and everything about each product."""
    products = list(records.disinfectants.values())
    columns = (
        "Product",
        "Used on",
        "Contact time",
        "Comes as",
        "Bought at",
        "Used at",
        "One batch",
        "Mix is good for",
        "Caution",
        "Source",
    )
    return page(
        "Contact times and mixes",
        note(
            "The label comes first",
            "Where the label on the bottle says something else, the label is right. The "
            "surface stays wet for the whole contact time; what dries early is wetted again.",
        ),
        heading("How long it stays wet", "contact-times"),
        table(
            "Contact times",
            ("Product", "Stays wet for", "Used on", "Source"),
            (
                Row(
                    anchor("contact", p.id),
                    (
                        to_record(here, "disinfectants", p.id, p.name),
                        measured(p.contact, records),
                        p.used_on,
                        to_source(here, p.source, records),
                    ),
                )
                for p in products
            ),
        ),
        heading("Mixes for common volumes", "mixes"),
        *_volumes(products, records, here),
        heading("The products", "products"),
        table("Disinfectants and how one batch is mixed", columns, (_product(p, records, here) for p in products)),
        how_computed("batches", _batches(records), records, here),
    )


def _volumes(products: list[Disinfectant], records: Records, here: str) -> Iterator[str]:
    yield paragraph(
        Markup(
            "For the volumes on file as {}. The product is rounded up to what a measure or a scale shows, so that a "
            "mix is never weaker than its record asks; the water is the rest of the volume, or the whole of it for "
            "a powder. By the formulas “{}” and “{}”."
        ).format(
            link(address(here, PAGE_OF["studio"], "studio-mix-volumes"), "the studio’s"),
            to_formula(here, disinfection.mix_for),
            to_formula(here, disinfection.powder_per_litre),
        )
    )
    columns = (
        "Product",
        "Volume of the mix",
        "Product to take",
        "Water",
        "Made from",
        "Strength of the mix",
        "Good for",
        "Source",
    )
    rows = [
        _mix(product, volume, place, records, here)
        for product in products
        if mix_inputs(product) is not None
        for place, volume in enumerate(records.studio.mix_volumes)
    ]
    yield table("What a volume takes", columns, rows, "Nothing is mixed here: every product is ready to use.")


def _mix(product: Disinfectant, volume: Quantity, place: int, records: Records, here: str) -> Row:
    assert product.stock and product.mixed_to and product.mix_life
    made = amounts(product, volume.low, records.studio.units)
    if made is None:
        taken, water = "ask before mixing", "ask before mixing"
    else:
        taken, water = (reckoned(amount, amount, kind, records) for amount, kind in made)
    return Row(
        anchor("mix", product.id, str(place)),
        (
            to_record(here, "disinfectants", product.id, product.name),
            valued(volume.text, volume.low),
            taken,
            water,
            f"{measured(product.stock, records)} {product.form}",
            measured(product.mixed_to, records),
            measured(product.mix_life, records),
            to_source(here, product.source, records),
        ),
    )


def amounts(product: Disinfectant, volume: float, system: str) -> tuple[tuple[float, str], tuple[float, str]] | None:
    """Product and water for a volume in mL, each with its kind; None where the trade's sums refuse.

    The product is rounded up as it is shown in this system of units, so that the printed mix is never too weak.
    """
    assert product.stock and product.mixed_to
    try:
        if product.form == "powder":
            each = disinfection.powder_per_litre(product.stock.low, product.mixed_to.low)
            return (rounded_up(each * from_canonical(volume, "L"), "weight", system), "weight"), (volume, "volume")
        poured = disinfection.mix_for(volume, product.stock.low, product.mixed_to.low).product
    except Refusal:
        return None
    taken = rounded_up(poured, "volume", system)
    return (taken, "volume"), (volume - taken, "volume")


def rounded_up(amount: float, kind: str, system: str) -> float:
    """A canonical amount, rounded up to the last digit that this system shows of it."""
    unit, steps = SHOWN[kind][system]
    shown = from_canonical(amount, unit)
    digits = next(decimals for below, decimals in steps if shown < below)
    # Nine digits, so that the last bits of a float do not add a step.
    return to_canonical(math.ceil(round(shown * 10**digits, 9)) / 10**digits, unit)


def _product(product: Disinfectant, records: Records, here: str) -> Row:
    ready = "ready to use"
    stock, mixed_to, life = (
        ready if value is None else measured(value, records)
        for value in (product.stock, product.mixed_to, product.mix_life)
    )
    return Row(
        anchor("disinfectants", product.id),
        (
            product.name,
            product.used_on,
            measured(product.contact, records),
            product.form,
            stock,
            mixed_to,
            batch_in_words(product, records, here),
            life,
            product.caution,
            to_source(here, product.source, records),
        ),
    )


def batch_in_words(product: Disinfectant, records: Records, here: str) -> str:
    """Product and water for one batch, each linked to the formula that says so."""
    found = mix_inputs(product)
    if found is None or product.batch is None:
        return "ready to use"
    done = mixed(product, records)
    if isinstance(done, Refusal):
        return f"ask before mixing: {done.remedy}"
    formula = done.function
    if product.form == "powder":
        grams = disinfection.powder_per_litre(_low(found["powder"]), _low(found["desired"]))
        grams *= product.batch.low / 1000
        parts, water = f"{reckoned(grams, grams, 'weight', records)} of powder", measured(product.batch, records)
        between = "into"
    else:
        mix = disinfection.mix_for(_low(found["wanted"]), _low(found["product"]), _low(found["desired"]))
        parts = f"{reckoned(mix.product, mix.product, 'volume', records)} of product"
        water, between = reckoned(mix.water, mix.water, "volume", records), "and"
    return Markup("{} {} {} water").format(to_formula(here, formula, parts), between, water)


def mixed(product: Disinfectant, records: Records) -> Worked | Refusal:
    """How the batch of a product that is mixed here comes about, or why it cannot be told."""
    found = mix_inputs(product)
    assert found is not None
    names = ("powder", "desired") if product.form == "powder" else ("wanted", "product", "desired")
    formula = disinfection.powder_per_litre if product.form == "powder" else disinfection.mix_for
    try:
        return worked(formula, records, **{name: found[name] for name in names})
    except Refusal as refusal:
        return refusal


def _low(operand: Operand) -> float:
    assert isinstance(operand, Recorded)
    return operand.low


def _batches(records: Records) -> Iterator[tuple[str, str, Worked]]:
    for product in records.disinfectants.values():
        if mix_inputs(product) is not None:
            done = mixed(product, records)
            if isinstance(done, Worked):
                yield anchor("batch", product.id), product.name, done
