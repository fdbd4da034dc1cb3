"""Reference tables about safety: screening questions, hygiene, and the studio itself."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.planning.findings.screening import wait_of
from generator.planning.findings.states import level_words
from generator.press.lists.expires import EXPIRES
from generator.press.words.addresses import address, anchor, to_entry, to_source
from generator.press.words.formatted import measured, said, spelled, yes_no
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table
from generator.records.checklist import CHECKLIST_QUOTES, NEVER_YIELDS, QUOTE
from generator.records.conditions import in_words
from generator.records.families import Records
from generator.records.hygiene import PHASES, HygieneStep
from generator.records.piece_limits import Composition
from generator.records.roles import Roles
from generator.records.rules import Question
from generator.records.studio import Limits, LocalRule

LOCAL_FIRST = "Local codes and licensed practice come before anything written here."


def screening_page(records: Records, here: str) -> str:
    """What is asked before a client sits down."""
    columns = (
        "Id",
        "Question",
        "Answer that finds nothing",
        "Any other answer leads to",
        "What follows",
        "What would clear it",
        "Wait after the last day",
        "Asked since",
        "Source",
    )
    return page(
        "Screening questions",
        note(
            "Ask all of them",
            "A question that nobody answered is a finding and not a no. The studio asks and sends "
            "on; it does not judge health. The answers stay in the consent file. A question that is added is asked "
            "anew of those who were asked before it, unless its row says otherwise; either way their sheet says so.",
        ),
        table(
            "Questions before a client sits down",
            columns,
            (_question(q, records, here) for q in records.screening.values()),
        ),
    )


def _question(question: Question, records: Records, here: str) -> Row:
    wait = wait_of(question, records.studio)
    return Row(
        anchor("screening", question.id),
        (
            question.id,
            question.ask,
            question.clear,
            level_words(question.otherwise),
            question.consequence,
            question.clears,
            "no time named" if wait is None else measured(wait, records),
            question.added.isoformat() + ("" if question.ask_anew else ", and not anew of those asked before"),
            to_source(here, question.source, records),
        ),
    )


def hygiene_page(records: Records, here: str) -> str:
    """The steps of hygiene by phase."""
    columns = ("Step", "What is done", "Product", "The step takes", "New gloves", "Ticked on the sheet", "Source")
    blocks: list[str] = []
    for phase in PHASES:
        steps = [step for step in records.hygiene.values() if step.phase == phase]
        rows = (
            Row(
                anchor("hygiene", step.id),
                (
                    str(number),
                    step.do,
                    "none" if step.disinfectant is None else to_entry(here, step.disinfectant, records),
                    "until it is done" if step.lasts is None else measured(step.lasts, records),
                    step.new_gloves or "no",
                    _ticked_when(step),
                    to_source(here, step.source, records),
                ),
            )
            for number, step in enumerate(steps, 1)
        )
        title = phase.capitalize()
        blocks += [
            heading(title, anchor("phase", phase.replace(" ", "-"))),
            table(f"{title}: steps in order", columns, rows, "No step on file."),
        ]
    takes = (
        "How long a step takes is no contact time. How long a surface or the skin stays wet is the contact time of its "
        "product, and the product’s label comes first."
    )
    return page("Hygiene", paragraph(LOCAL_FIRST), paragraph(takes), *blocks)


def _ticked_when(step: HygieneStep) -> str:
    """The words of its box, what they quote of a job in words of its own, and which sheets have it."""
    if step.tick is None:
        return "no"
    words = QUOTE.sub(lambda quote: f"‹{CHECKLIST_QUOTES[quote['path'].strip()]}›", step.tick)
    each = f", for each {step.for_each}" if step.for_each else ""
    where = f", where: {in_words(step.when)}" if step.when is not None else ""
    never = ", never on a second sheet" if step.standing in NEVER_YIELDS else ""
    return f"“{words}”, before the {step.pause}{each}{where}{never}"


def _inner(key: str, limit: Composition, records: Records, here: str) -> Iterator[Row]:
    """The limits for notes, each in a row of its own, and the source that they share."""
    for inner, field in type(limit).model_fields.items():
        value = getattr(limit, inner)
        shown = to_source(here, value, records) if inner == "source" else said(value, records) or ""
        name = f"{key.replace('_', ' ')}, {inner.replace('_', ' ')}"
        yield Row(anchor("studio", "limits", key, inner), (name, shown, field.description or ""))


def _standing(rule: LocalRule) -> str:
    if not rule.confirmed:
        return "not confirmed yet – ask before you rely on it"
    return f"confirmed {rule.on.isoformat()}" if rule.on else "confirmed, and nobody wrote down when"


def _roles(roles: Roles, here: str, records: Records) -> Iterator[Markup]:
    """Each role that the studio has an article for, with a link to the article."""
    for role, article in roles:
        if article is not None:
            yield Markup("{}: {}").format(spelled(role), to_entry(here, article, records))


def studio_page(records: Records, here: str) -> str:
    """The studio: local rules first, then what it decided itself."""
    studio = records.studio
    rules = (
        Row(
            anchor("studio", "local-rules", str(n)),
            (
                rule.topic,
                rule.ask,
                _standing(rule),
            ),
        )
        for n, rule in enumerate(studio.local_rules)
    )
    line_ink: str = "the first black of the inks"
    if studio.line_ink is not None and studio.line_ink in records.inks:
        line_ink = to_entry(here, studio.line_ink, records)
    head = [
        Row(anchor("studio", key), (name, value))
        for key, name, value in (
            ("name", "Name", studio.name),
            ("units", "Units shown first", studio.units),
            ("paper", "Paper of the sheets", studio.paper),
            ("order", "Order in which areas are worked, where neither artist nor job says otherwise", studio.order),
            ("line-ink", "Ink of lines that name none", line_ink),
            ("roles", "What the pages mean by", bullets(_roles(studio.roles, here, records))),
            ("region", "Region, for pigments barred there", studio.region),
            ("reprocessing", "Anything sterilized here", yes_no(studio.reprocessing)),
            ("mix-volumes", "Volumes that mixes are tabled for", ", ".join(v.text for v in studio.mix_volumes)),
            ("expires", "What counts only for a time", link(address(here, EXPIRES, "rules"), "What expires")),
            ("numbing", "Numbing products", studio.numbing),
            ("stop-signs", "What ends the work", bullets(studio.stop_signs)),
            ("record-afterwards", "What is written down afterwards", bullets(studio.record_afterwards)),
            ("source", "Who decided the limits", to_source(here, studio.source, records)),
        )
    ]
    limits = []
    for key, field in Limits.model_fields.items():
        limit = getattr(studio.limits, key)
        value = "in the rows below" if isinstance(limit, Composition) else said(limit, records) or ""
        cells = (key.replace("_", " "), value, field.description or "")
        limits.append(Row(anchor("studio", "limits", key), cells))
        if isinstance(limit, Composition):
            limits += _inner(key, limit, records, here)
    return page(
        "The studio",
        note(
            "Confirm these first",
            LOCAL_FIRST,
            "What is not confirmed yet is asked before anyone relies on this handbook.",
            kind="first",
        ),
        heading("Local rules to confirm", "studio-local-rules"),
        table("Local rules to confirm", ("About", "What to ask, and of whom", "Standing"), rules),
        heading("The studio’s own", "studio-own"),
        table("The studio", ("Matter", "How it is here"), head),
        heading("Limits", "studio-limits"),
        table("Limits that every plan keeps", ("Limit", "Value", "What it is"), limits),
    )
