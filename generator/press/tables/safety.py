"""Reference tables about safety: screening questions, hygiene, and the studio itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.planning.findings.screening import wait_of
from generator.planning.findings.states import level_words
from generator.press.lists.expires import EXPIRES
from generator.press.lists.here import Here
from generator.press.words.addresses import anchor
from generator.press.words.formatted import said, spelled, yes_no
from generator.press.words.markup import Cells, bullets, heading, note, page, paragraph, table_of
from generator.records.checklist import CHECKLIST_QUOTES, NEVER_YIELDS, QUOTE
from generator.records.conditions import in_words
from generator.records.hygiene import PHASES, HygieneStep
from generator.records.limits import CartridgeLimit, Composition, Limits
from generator.records.record import described
from generator.records.roles import Roles
from generator.records.rules import Question
from generator.records.studio import LocalRule

LOCAL_FIRST = "Local codes and licensed practice come before anything written here."


def screening_page(here: Here) -> str:
    """What is asked before a client sits down."""
    return page(
        "Screening questions",
        note(
            "Ask all of them",
            "A question that nobody answered is a finding and not a no. The studio asks and sends "
            "on; it does not judge health. The answers stay in the consent file. A question that is added is asked "
            "anew of those who were asked before it, unless its row says otherwise; either way their sheet says so.",
        ),
        table_of(
            "Questions before a client sits down", here.rows("screening", here.records.screening.values(), _question)
        ),
    )


def _question(question: Question, here: Here) -> Cells:
    wait = wait_of(question, here.records.studio)
    asked_anew = "" if question.ask_anew else ", and not anew of those asked before"
    return {
        "Id": question.id,
        "Question": question.ask,
        "Answer that finds nothing": question.clear,
        "Any other answer leads to": level_words(question.otherwise),
        "What follows": question.consequence,
        "What would clear it": question.clears,
        "Wait after the last day": "no time named" if wait is None else here.measured(wait),
        "Asked since": question.added.isoformat() + asked_anew,
    }


def hygiene_page(here: Here) -> str:
    """The steps of hygiene by phase."""
    blocks: list[str] = []
    for phase in PHASES:
        steps = [step for step in here.records.hygiene.values() if step.phase == phase]
        rows = ((anchor("hygiene", step.id), _step(number, step, here)) for number, step in enumerate(steps, 1))
        title = phase.capitalize()
        blocks += [
            heading(title, anchor("phase", phase.replace(" ", "-"))),
            table_of(f"{title}: steps in order", rows, "No step on file."),
        ]
    takes = (
        "How long a step takes is no contact time. How long a surface or the skin stays wet is the contact time of its "
        "product, and the product’s label comes first."
    )
    return page("Hygiene", paragraph(LOCAL_FIRST), paragraph(takes), *blocks)


def _step(number: int, step: HygieneStep, here: Here) -> Cells:
    return {
        "Step": str(number),
        "What is done": step.do,
        "Product": "none" if step.disinfectant is None else here.to_entry(step.disinfectant),
        "The step takes": "until it is done" if step.lasts is None else here.measured(step.lasts),
        "New gloves": step.new_gloves or "no",
        "Ticked on the sheet": _ticked_when(step),
        "Source": here.to_source(step.source),
    }


def _ticked_when(step: HygieneStep) -> str:
    """The words of its box, what they quote of a job in words of its own, and which sheets have it."""
    if step.tick is None:
        return "no"
    words = QUOTE.sub(lambda quote: f"‹{CHECKLIST_QUOTES[quote['path'].strip()]}›", step.tick)
    each = f", for each {step.for_each}" if step.for_each else ""
    where = f", where: {in_words(step.when)}" if step.when is not None else ""
    never = ", never on a second sheet" if step.standing in NEVER_YIELDS else ""
    return f"“{words}”, before the {step.pause}{each}{where}{never}"


def _limits(here: Here) -> Iterator[tuple[str, Cells]]:
    """Each limit; those with a source of their own each in a row of its own, beside it."""
    for key, field in described(Limits).items():
        limit = getattr(here.records.studio.limits, key)
        name, about = key.replace("_", " "), field.description or ""
        if not isinstance(limit, Composition | CartridgeLimit):
            yield _limit((key,), name, said(limit, here.records) or "", about)
            continue
        yield _limit((key,), name, "in the rows below", about)
        for inner, its_field in described(type(limit)).items():
            value = getattr(limit, inner)
            shown = here.to_source(value) if inner == "source" else said(value, here.records) or ""
            yield _limit((key, inner), f"{name}, {inner.replace('_', ' ')}", shown, its_field.description or "")


def _limit(keys: Sequence[str], name: str, value: str, described: str) -> tuple[str, Cells]:
    return anchor("studio", "limits", *keys), {"Limit": name, "Value": value, "What it is": described}


def _local_rule(rule: LocalRule) -> Cells:
    if not rule.confirmed:
        standing = "not confirmed yet – ask before you rely on it"
    else:
        standing = f"confirmed {rule.on.isoformat()}" if rule.on else "confirmed, and nobody wrote down when"
    return {"About": rule.topic, "What to ask, and of whom": rule.ask, "Standing": standing}


def _roles(roles: Roles, here: Here) -> Iterator[Markup]:
    """Each role that the studio has an article for, with a link to the article."""
    for role, article in roles:
        if article is not None:
            yield Markup("{}: {}").format(spelled(role), here.to_entry(article))


def studio_page(here: Here) -> str:
    """The studio: local rules first, then what it decided itself."""
    studio = here.records.studio
    line_ink = "the first black of the inks" if studio.line_ink is None else here.to_entry(studio.line_ink)
    matters = (
        ("name", "Name", studio.name),
        ("units", "Units shown first", studio.units),
        ("paper", "Paper of the sheets", studio.paper),
        ("order", "Order in which areas are worked, where neither artist nor job says otherwise", studio.order),
        ("line-ink", "Ink of lines that name none", line_ink),
        ("roles", "What the pages mean by", bullets(_roles(studio.roles, here))),
        ("region", "Region, for pigments barred there", studio.region),
        ("reprocessing", "Anything sterilized here", yes_no(studio.reprocessing)),
        ("mix-volumes", "Volumes that mixes are tabled for", ", ".join(v.text for v in studio.mix_volumes)),
        ("expires", "What counts only for a time", here.to(EXPIRES, "What expires", "rules")),
        ("numbing", "Numbing products", studio.numbing),
        ("stop-signs", "What ends the work", bullets(studio.stop_signs)),
        ("record-afterwards", "What is written down afterwards", bullets(studio.record_afterwards)),
        ("source", "Who decided the limits", here.to_source(studio.source)),
    )
    local = {anchor("studio", "local-rules", str(n)): _local_rule(rule) for n, rule in enumerate(studio.local_rules)}
    own = {anchor("studio", key): {"Matter": matter, "How it is here": value} for key, matter, value in matters}
    return page(
        "The studio",
        note(
            "Confirm these first",
            LOCAL_FIRST,
            "What is not confirmed yet is asked before anyone relies on this handbook.",
            kind="first",
        ),
        heading("Local rules to confirm", "studio-local-rules"),
        table_of("Local rules to confirm", local.items()),
        heading("The studio’s own", "studio-own"),
        table_of("The studio", own.items()),
        heading("Limits", "studio-limits"),
        table_of("Limits that every plan keeps", _limits(here)),
    )
