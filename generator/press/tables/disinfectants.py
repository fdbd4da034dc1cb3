"""Disinfectants at the station: how long each stays wet, how it is mixed, and what common volumes take."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from generator.planning.supplies.mixes import SYSTEMS, Measured, measured_mix, measured_mixes
from generator.press.explained.worked import WorkedOut, how_computed, to_formula
from generator.press.words.addresses import PAGE_OF, address, anchor, to_record, to_source
from generator.press.words.formatted import measured
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table, valued
from generator.quantities import Quantity, as_written
from generator.records.families import Records
from generator.records.hygiene import Disinfectant
from generator.trade import disinfection
from generator.trade.refusal import Refusal

READY = "ready to use"
NOTHING_TO_MIX = "Nothing is mixed here: every product is ready to use."
NOTHING_MEASURED = "No measure comes near enough to any of the volumes on file."


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
            "For the volumes on file as {}. The product is rounded up and the water down to what a measure or a scale "
            "shows, so that a mix is never weaker than its record asks, and at most {} stronger. Measure both in the "
            "same system of units. By the formulas “{}” and “{}”."
        ).format(
            link(address(here, PAGE_OF["studio"], "studio-mix-volumes"), "the studio’s"),
            measured(records.studio.limits.mix_stronger, records),
            to_formula(here, disinfection.mix_for),
            to_formula(here, disinfection.powder_for),
        )
    )
    columns = (
        "Product",
        "Volume of the mix",
        "Product to take",
        "Water",
        "Made from, and asked for",
        "Strength of the mix",
        "Good for",
        "Source",
    )
    rows: list[Row] = []
    left_out: list[str] = []
    for product in products:
        if product.form == READY:
            continue
        for place, volume in enumerate(records.studio.mix_volumes):
            mixes = measured_mixes(product, volume, records)
            if mixes:
                rows.append(_mix(product, volume, place, mixes, records, here))
            lacking = [system for system in SYSTEMS if system not in {mix.system for mix in mixes}]
            if lacking:
                left_out.append(f"{product.name}, {as_written(volume.text)}, in {' and '.join(lacking)} units")
    yield table("What a volume takes", columns, rows, NOTHING_TO_MIX if not left_out else NOTHING_MEASURED)
    if left_out:
        yield paragraph(
            "Not in the table, because no measure comes near enough: mix a larger volume, or measure in the other "
            "units, where the table has them."
        )
        yield bullets(left_out)


def _mix(
    product: Disinfectant, volume: Quantity, place: int, mixes: tuple[Measured, ...], records: Records, here: str
) -> Row:
    assert product.stock and product.mixed_to and product.mix_life
    first = mixes[0]
    return Row(
        anchor("mix", product.id, str(place)),
        (
            to_record(here, "disinfectants", product.id, product.name),
            valued(as_written(volume.text), volume.low),
            valued(_beside(mix.product_in_words for mix in mixes), first.taken),
            valued(_beside(mix.water_in_words for mix in mixes), first.water),
            f"{measured(product.stock, records)} {product.form}, to {measured(product.mixed_to, records)}",
            valued(_beside(mix.strength_in_words for mix in mixes), first.strength),
            measured(product.mix_life, records),
            to_source(here, product.source, records),
        ),
    )


def _beside(texts: Iterable[str]) -> str:
    """The studio's first system, the other in brackets."""
    first, *others = texts
    return f"{first} ({others[0]})" if others else first


def _product(product: Disinfectant, records: Records, here: str) -> Row:
    stock, mixed_to, life = (
        READY if value is None else measured(value, records)
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
    """Product and water for one batch, as in the table of volumes, linked to the formula that says so."""
    if product.form == READY or product.batch is None:
        return READY
    mixes = measured_mixes(product, product.batch, records)
    if not mixes:
        refused = measured_mix(product, product.batch, records.studio.units, records)
        return f"ask before mixing: {refused.remedy if isinstance(refused, Refusal) else 'read the label'}"
    powder = product.form == "powder"
    taken = f"{_beside(mix.product_in_words for mix in mixes)} of {'powder' if powder else 'product'}"
    return Markup("{} {} {} water, which gives {}").format(
        to_formula(here, mixes[0].function, taken),
        "into" if powder else "and",
        _beside(mix.water_in_words for mix in mixes),
        _beside(mix.strength_in_words for mix in mixes),
    )


def _batches(records: Records) -> Iterator[tuple[str, str, WorkedOut]]:
    """How one batch comes about, in each system of units that can measure it."""
    for product in records.disinfectants.values():
        if product.form == READY or product.batch is None:
            continue
        for mix in measured_mixes(product, product.batch, records):
            words = f"{mix.product_in_words} and {mix.water_in_words} water, which gives {mix.strength_in_words}"
            at = anchor("batch", product.id, *(() if mix.system == records.studio.units else (mix.system,)))
            yield at, f"{product.name}, in {mix.system} units", WorkedOut(mix.function, mix.inputs, words)
