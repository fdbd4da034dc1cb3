"""Disinfectants at the station: how long each stays wet, how it is mixed, and what common volumes take."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from generator.planning.supplies.mixes import SYSTEMS, Measured, measured_mix, measured_mixes
from generator.press.explained.worked import WorkedOut
from generator.press.lists.here import Here, Step
from generator.press.words.addresses import PAGE_OF, anchor
from generator.press.words.markup import Cells, bullets, heading, note, page, paragraph, table_of, valued
from generator.quantities import Quantity, as_written
from generator.records.families import Records
from generator.records.hygiene import Disinfectant
from generator.trade import disinfection
from generator.trade.refusal import Refusal

READY = "ready to use"
NOTHING_TO_MIX = "Nothing is mixed here: every product is ready to use."
NOTHING_MEASURED = "No measure comes near enough to any of the volumes on file."


def disinfectants_page(here: Here) -> str:
    """Contact times, mixes for the studio's volumes, and everything about each product."""
    products = here.records.disinfectants.values()
    return page(
        "Contact times and mixes",
        note(
            "The label comes first",
            "Where the label on the bottle says something else, the label is right. The "
            "surface stays wet for the whole contact time; what dries early is wetted again.",
        ),
        heading("How long it stays wet", "contact-times"),
        table_of("Contact times", here.rows("contact", products, _contact)),
        heading("Mixes for common volumes", "mixes"),
        *_volumes(here),
        heading("The products", "products"),
        table_of("Disinfectants and how one batch is mixed", here.rows("disinfectants", products, _product)),
        here.how_computed("batches", _batches(here.records)),
    )


def _contact(product: Disinfectant, here: Here) -> Cells:
    return {
        "Product": here.to_record("disinfectants", product.id, product.name),
        "Stays wet for": here.measured(product.contact),
        "Used on": product.used_on,
    }


def _volumes(here: Here) -> Iterator[str]:
    studio = here.records.studio
    yield paragraph(
        Markup(
            "For the volumes on file as {}. The product is rounded up and the water down to what a measure or a scale "
            "shows, so that a mix is never weaker than its record asks, and at most {} stronger. Measure both in the "
            "same system of units. By the formulas “{}” and “{}”."
        ).format(
            here.to(PAGE_OF["studio"], "the studio’s", "studio-mix-volumes"),
            here.measured(studio.limits.mix_stronger),
            here.to_formula(disinfection.mix_for),
            here.to_formula(disinfection.powder_for),
        )
    )
    rows: list[tuple[str, Cells]] = []
    left_out: list[str] = []
    for product in here.records.disinfectants.values():
        if product.batch is None:
            continue
        for place, volume in enumerate(studio.mix_volumes):
            mixes = measured_mixes(product, volume, here.records)
            if mixes:
                rows.append((anchor("mix", product.id, str(place)), _mix(product, volume, mixes, here)))
            lacking = [system for system in SYSTEMS if system not in {mix.system for mix in mixes}]
            if lacking:
                left_out.append(f"{product.name}, {as_written(volume.text)}, in {' and '.join(lacking)} units")
    yield table_of("What a volume takes", rows, NOTHING_MEASURED if left_out else NOTHING_TO_MIX)
    if left_out:
        yield paragraph(
            "Not in the table, because no measure comes near enough: mix a larger volume, or measure in the other "
            "units, where the table has them."
        )
        yield bullets(left_out)


def _mix(product: Disinfectant, volume: Quantity, mixes: tuple[Measured, ...], here: Here) -> Cells:
    assert product.stock and product.mixed_to and product.mix_life
    first = mixes[0]
    return {
        "Product": here.to_record("disinfectants", product.id, product.name),
        "Volume of the mix": valued(as_written(volume.text), volume.low),
        "Product to take": valued(_beside(mix.product_in_words for mix in mixes), first.taken),
        "Water": valued(_beside(mix.water_in_words for mix in mixes), first.water),
        "Made from, and asked for": (
            f"{here.measured(product.stock)} {product.form}, to {here.measured(product.mixed_to)}"
        ),
        "Strength of the mix": valued(_beside(mix.strength_in_words for mix in mixes), first.strength),
        "Good for": here.measured(product.mix_life),
        "Source": here.to_source(product.source),
    }


def _beside(texts: Iterable[str]) -> str:
    """The studio's first system, the other in brackets."""
    first, *others = texts
    return f"{first} ({others[0]})" if others else first


def _product(product: Disinfectant, here: Here) -> Cells:
    def mixed(value: Quantity | None) -> str:
        return READY if value is None else here.measured(value)

    return {
        "Product": product.name,
        "Used on": product.used_on,
        "Contact time": here.measured(product.contact),
        "Comes as": product.form,
        "Bought at": mixed(product.stock),
        "Used at": mixed(product.mixed_to),
        "One batch": _batch_in_words(product, here),
        "Mix is good for": mixed(product.mix_life),
        "Caution": product.caution,
    }


def _batch_in_words(product: Disinfectant, here: Here) -> str:
    """Product and water for one batch, as in the table of volumes, linked to the formula that says so."""
    if product.batch is None:
        return READY
    mixes = measured_mixes(product, product.batch, here.records)
    if not mixes:
        refused = measured_mix(product, product.batch, here.records.studio.units, here.records)
        return f"ask before mixing: {refused.remedy if isinstance(refused, Refusal) else 'read the label'}"
    powder = product.form == "powder"
    taken = f"{_beside(mix.product_in_words for mix in mixes)} of {'powder' if powder else 'product'}"
    return Markup("{} {} {} water, which gives {}").format(
        here.to_formula(mixes[0].function, taken),
        "into" if powder else "and",
        _beside(mix.water_in_words for mix in mixes),
        _beside(mix.strength_in_words for mix in mixes),
    )


def _batches(records: Records) -> Iterator[Step]:
    """How one batch comes about, in each system of units that can measure it."""
    for product in records.disinfectants.values():
        for mix in () if product.batch is None else measured_mixes(product, product.batch, records):
            words = f"{mix.product_in_words} and {mix.water_in_words} water, which gives {mix.strength_in_words}"
            at = anchor("batch", product.id, *(() if mix.system == records.studio.units else (mix.system,)))
            yield at, f"{product.name}, in {mix.system} units", WorkedOut(mix.function, mix.inputs, words)
