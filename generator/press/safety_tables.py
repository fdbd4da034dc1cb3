"""Reference tables about safety: scar rules, screening questions, disinfectants, hygiene, and the studio itself."""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.reckoning import Operand, Recorded
from generator.press.addresses import anchor, to_entry, to_source
from generator.press.live_cupboard import mix_inputs
from generator.press.markup import Markup, Row, bullets, heading, note, page, paragraph, table
from generator.press.worded import measured, reckoned, said, yes_no
from generator.press.worked import Worked, how_computed, to_formula, worked
from generator.records.conditions import in_words
from generator.records.families import Records
from generator.records.hygiene import PHASES, Disinfectant
from generator.records.rules import Question, ScarRule
from generator.records.studio import Limits
from generator.trade import disinfection
from generator.trade.refusal import Refusal

LOCAL_FIRST = "Local codes and licensed practice come before anything written here."


def scar_rules_page(records: Records, here: str) -> str:
    """What may go over which scar."""
    columns = ("Rule", "When", "Verdict", "What follows", "What would clear it", "Looked at again from", "Times over",
               "Added working time", "Source")  # fmt: skip
    return page(
        "Scar rules",
        note("A rule never clears a scar", "No rule and no date clears a scar. The artist looks at the skin on the day "
             "and feels it. What nobody knows counts as the worst it could be, and the plan says to ask."),
        table("What may go over which scar", columns,
              (_scar_rule(r, records, here) for r in records.scar_rules.values())),
    )  # fmt: skip


def _scar_rule(rule: ScarRule, records: Records, here: str) -> Row:
    return Row(anchor("scar-rules", rule.id), (
        rule.id,
        in_words(rule.when),
        rule.verdict,
        rule.consequence,
        rule.clears or "nothing to clear; work with care",
        "no age named" if rule.wait_until_age is None else f"{measured(rule.wait_until_age, records)} after the wound",
        "as the technique" if rule.times_over is None else f"at most {rule.times_over}",
        "none" if rule.slower is None else measured(rule.slower, records),
        to_source(here, rule.source, records),
    ))  # fmt: skip


def screening_page(records: Records, here: str) -> str:
    """What is asked before a client sits down."""
    columns = ("Id", "Question", "Answer that finds nothing", "Any other answer leads to", "What the sheet says",
               "What would clear it", "Wait after the last day", "Asked since", "Source")  # fmt: skip
    return page(
        "Screening questions",
        note("Ask all of them", "A question that nobody answered is a finding and not a no. The studio asks and sends "
             "on; it does not judge health. The answers stay in the consent file."),
        table("Questions before a client sits down", columns,
              (_question(q, records, here) for q in records.screening.values())),
    )  # fmt: skip


def _question(question: Question, records: Records, here: str) -> Row:
    return Row(anchor("screening", question.id), (
        question.id,
        question.ask,
        question.clear,
        question.otherwise,
        question.consequence,
        question.clears,
        "no time named" if question.wait is None else measured(question.wait, records),
        question.added.isoformat(),
        to_source(here, question.source, records),
    ))  # fmt: skip


def disinfectants_page(records: Records, here: str) -> str:
    """Contact times, and how a batch is mixed."""
    columns = ("Product", "Used on", "Contact time", "Comes as", "Bought at", "Used at", "One batch", "Mix is good for",
               "Caution", "Source")  # fmt: skip
    return page(
        "Disinfectants",
        note("The label comes first", "Where the label on the bottle says something else, the label is right. The "
             "surface stays wet for the whole contact time; what dries early is wetted again."),
        table("Contact times and mixing", columns,
              (_product(d, records, here) for d in records.disinfectants.values())),
        how_computed("batches", _batches(records), records, here),
    )  # fmt: skip


def _product(product: Disinfectant, records: Records, here: str) -> Row:
    ready = "ready to use"
    stock, mixed_to, life = (
        ready if value is None else measured(value, records)
        for value in (product.stock, product.mixed_to, product.mix_life)
    )
    return Row(anchor("disinfectants", product.id), (
        product.name, product.used_on, measured(product.contact, records), product.form, stock, mixed_to,
        batch_in_words(product, records, here), life, product.caution, to_source(here, product.source, records),
    ))  # fmt: skip


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


def hygiene_page(records: Records, here: str) -> str:
    """The steps of hygiene by phase."""
    columns = ("Step", "What is done", "Product", "Lasts", "Ticked on the sheet", "Source")
    blocks: list[str] = []
    for phase in PHASES:
        steps = [step for step in records.hygiene.values() if step.phase == phase]
        rows = (
            Row(anchor("hygiene", step.id), (
                str(number), step.do,
                "none" if step.product is None else to_entry(here, step.product, records),
                "until it is done" if step.lasts is None else measured(step.lasts, records),
                "no" if step.pause is None else f"“{step.tick}”, before the {step.pause}",
                to_source(here, step.source, records),
            ))
            for number, step in enumerate(steps, 1)
        )  # fmt: skip
        title = phase.capitalize()
        blocks += [heading(title, anchor("phase", phase.replace(" ", "-"))),
                   table(f"{title}: steps in order", columns, rows, "No step on file.")]  # fmt: skip
    return page("Hygiene", paragraph(LOCAL_FIRST), *blocks)


def studio_page(records: Records, here: str) -> str:
    """The studio: local rules first, then what it decided itself."""
    studio = records.studio
    rules = (
        Row(anchor("studio", "local-rules", str(n)), (
            rule.topic, rule.ask, "confirmed" if rule.confirmed else "not confirmed yet – ask before you rely on it",
        ))
        for n, rule in enumerate(studio.local_rules)
    )  # fmt: skip
    head = [
        Row(anchor("studio", key), (name, value)) for key, name, value in (
            ("name", "Name", studio.name),
            ("units", "Units shown first", studio.units),
            ("paper", "Paper of the sheets", studio.paper),
            ("region", "Region, for pigments barred there", studio.region),
            ("reprocessing", "Anything sterilized here", yes_no(studio.reprocessing)),
            ("numbing", "Numbing products", studio.numbing),
            ("stop-signs", "What ends the work", bullets(studio.stop_signs)),
            ("record-afterwards", "What is written down afterwards", bullets(studio.record_afterwards)),
            ("source", "Who decided the limits", to_source(here, studio.source, records)),
        )
    ]  # fmt: skip
    limits = []
    for key, field in Limits.model_fields.items():
        value = said(getattr(studio.limits, key), records)
        cells = (key.replace("_", " "), value or "", field.description or "")
        limits.append(Row(anchor("studio", "limits", key), cells))
    return page(
        "The studio",
        note("Confirm these first", LOCAL_FIRST, "What is not confirmed yet is asked before anyone relies on this "
             "handbook.", kind="first"),
        heading("Local rules to confirm", "studio-local-rules"),
        table("Local rules to confirm", ("About", "What to ask, and of whom", "Standing"), rules),
        heading("The studio’s own", "studio-own"),
        table("The studio", ("Matter", "How it is here"), head),
        heading("Limits", "studio-limits"),
        table("Limits that every plan keeps", ("Limit", "Value", "What it is"), limits),
    )  # fmt: skip
