"""Reference tables about the studio's things and people: machines, sites, supplies, people, sources."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from markupsafe import Markup

from generator.press.drawings.charts import calibration_chart
from generator.press.lists.expires import EXPIRES
from generator.press.lists.here import Here
from generator.press.lists.training import TRAINING
from generator.press.tables.vibration import NOT_ASSESSED, vibration_section
from generator.press.words.addresses import NO_SOURCE, anchor
from generator.press.words.formatted import number, with_end, yes_no
from generator.press.words.markup import Cells, bullets, heading, page, paragraph, table_of
from generator.records.decisions import who_decided
from generator.records.families import LISTED, Records
from generator.records.limits import Limits
from generator.records.machines import Calibration, Machine
from generator.records.people import Person, RequiredTraining
from generator.records.quoting import name_of
from generator.records.references import references
from generator.records.sites import Site
from generator.records.sources import SourceRecord
from generator.records.supplies import Supply
from generator.records.values import Value


def machines_page(here: Here) -> str:
    """The machines, then what their dials were measured to do."""
    records = here.records
    measurements = [block for calibration in records.calibrations.values() for block in _measured(calibration, here)]
    return page(
        "Machines",
        table_of("Machines of the studio", here.rows("machines", records.machines.values(), _machine)),
        heading("What the dials were measured to do", "calibrations"),
        paragraph(
            "Each table holds for one machine with one stroke, one kind of cartridge and one supply. Between two "
            "points the line is taken as straight; beyond them nothing is said. Measure again after any repair."
        ),
        *(measurements or [paragraph("No dial has been measured yet.")]),
        *vibration_section(here),
        contents=False,
    )


def _machine(machine: Machine, here: Here) -> Cells:
    return {
        "Machine": with_end(machine.name, machine.until),
        "Drive": machine.drive.replace("-", ", "),
        "Strokes": "; ".join(here.measured(stroke) for stroke in machine.strokes),
        "Dial shows": machine.dial,
        "Dial limits": here.measured(machine.limits),
        "Hang-out, with needles on the shelf": _hang_out(machine, here),
        "Weight": here.measured(machine.weight),
        "Vibration": NOT_ASSESSED if machine.vibration is None else here.measured(machine.vibration),
        "Care between clients": machine.care,
    }


def _hang_out(machine: Machine, here: Here) -> str:
    """What machine and needles on the shelf can be set to together: that much, and no more, can be typed in a job."""
    needles = [grouping.hang_out for grouping in here.records.groupings.values() if grouping.until is None]
    own = machine.hang_out
    both = [(max(own.low, n.low), min(own.high, n.high)) for n in needles if own.low <= n.high and n.low <= own.high]
    if not both:
        return here.measured(own)
    low, high = min(low for low, _ in both), max(high for _, high in both)
    return here.measured(own) if (low, high) == (own.low, own.high) else here.calculated(low, high, own.kind)


def _measured(calibration: Calibration, here: Here) -> Iterator[str]:
    """One dial that was measured: under which conditions, drawn, and point by point."""
    title = f"{here.records.machines[calibration.machine].name}, stroke {calibration.stroke.text}"
    conditions = {
        "Machine": here.to_entry(calibration.machine),
        "Stroke": here.measured(calibration.stroke),
        "Cartridge": calibration.cartridge,
        "Supply": calibration.supply,
        "Measured on": calibration.measured.isoformat(),
        "Source": here.to_source(calibration.source),
    }
    at = anchor("calibrations", calibration.id)
    points = {
        f"{at}-points-{number}": {"Dial": here.measured(dial), "Speed": here.measured(speed)}
        for number, (dial, speed) in enumerate(calibration.points)
    }
    yield heading(title, anchor("measured", calibration.id), 3)
    yield table_of(f"Conditions of the measurement {calibration.id}", [(at, conditions)])
    yield calibration_chart(calibration, title, here.records)
    yield table_of(f"Measured points: {title} ({calibration.id})", points.items())


def sites_page(here: Here) -> str:
    """Places on the body."""
    return page(
        "Places on the body",
        paragraph(
            "Skin thickness is knowledge and no setting: it differs from person to person, and hang-out is not depth. "
            "Girth is taped on the client, standing and relaxed."
        ),
        table_of("Places on the body", here.rows("sites", here.records.sites.values(), _site)),
    )


def _site(site: Site, here: Here) -> Cells:
    return {
        "Place": site.name,
        "Usual pose": site.pose,
        "Stretch": site.stretch,
        "Watch for": site.cautions,
        "Skin thickness, as published": "none on file" if site.thickness is None else here.measured(site.thickness),
        "Apprentice": site.apprentice,
        "Girth is taped": yes_no(site.limb),
    }


def supplies_page(here: Here) -> str:
    """What is used up."""
    rows = here.rows("supplies", here.records.supplies.values(), _supply)
    return page("Supplies", table_of("Supplies and how they are counted", rows))


def _supply(supply: Supply, here: Here) -> Cells:
    # What nobody has read is not nothing.
    contains = "not read yet – ask" if supply.contains is None else ", ".join(supply.contains)
    return {
        "Article": with_end(supply.name, supply.until),
        "Use": _use(supply, here),
        "Pack": str(supply.pack),
        "On the shelf": str(supply.stock),
        "Always kept": str(supply.reserve),
        "Contains": contains or "none named on the label",
        "Taken instead": supply.instead or "nothing on file – ask",
    }


def _use(supply: Supply, here: Here) -> str:
    per = here.measured(supply.area) if supply.area is not None else f"each {supply.per}"
    instead = f"; or {here.records.supplies[supply.or_else].name.lower()}" if supply.or_else is not None else ""
    return f"{number(supply.amount)} {supply.counted_in} for {per}{instead}"


def values_page(here: Here) -> str:
    """Numbers that procedures quote."""
    return page(
        "Values of the house",
        paragraph("Numbers that procedures quote and that are in no other table. Each is changed here alone."),
        table_of("Values of the house", here.rows("values", here.records.values.values(), _value), long_cells=True),
    )


def _value(value: Value, here: Here) -> Cells:
    return {"What": value.what, "Value": here.measured(value.is_)}


def people_page(here: Here) -> str:
    """Who works here, and what they may do."""
    records = here.records
    return page(
        "People",
        paragraph(here.to(TRAINING, "Who has read which procedure, and what has to be read again")),
        table_of("Who works here", here.rows("people", records.people.values(), _person)),
        heading("Training and checks that a role needs", "required-training"),
        paragraph(
            Markup("{} lists until when each of them counts for whom. Of a check only its day is written down.").format(
                here.to(EXPIRES, "What expires")
            )
        ),
        table_of(
            "Training and checks that a role needs",
            here.rows("required-training", records.required_training.values(), _needed),
            "No training is asked for by a role.",
        ),
    )


def _person(person: Person, here: Here) -> Cells:
    trained = bullets(f"{training.what}, {training.on.isoformat()}" for training in person.training)
    return {
        "Name": with_end(person.name, person.until),
        "Role": person.role,
        "Working hand": person.hand,
        "Order of areas": person.order or f"{here.records.studio.order}, as the studio",
        "May work": Markup(", ").join(here.to_entry(technique) for technique in person.may) or "none",
        "Own settings": bullets(_own_settings(person, here)) or "the studio’s usual",
        "Training": trained or "none on file",
    }


def _own_settings(person: Person, here: Here) -> Iterator[Markup]:
    """What an artist sets otherwise than the studio, where machine and needle can do it and a job says nothing."""
    for own in person.own_settings:
        machine = [here.to_entry(own.machine)] if own.machine is not None else []
        values = [here.measured(value) for value in (own.stroke, own.dial) if value is not None]
        hang_out = [f"hang-out {here.measured(own.hang_out)}"] if own.hang_out is not None else []
        yield Markup("{}: {}; {}").format(
            here.to_entry(own.technique),
            Markup(", ").join([*machine, *values, *hang_out]),
            here.to_source(own.source),
        )
    if person.hang_out is not None:
        yield Markup("{} hang-out").format(person.hang_out)


def _needed(training: RequiredTraining, here: Here) -> Cells:
    again = here.records.values[training.again]
    texts = (here.to(f"procedures/{text}.md", text.replace("-", " ")) for text in training.texts)
    return {
        "Training or check": training.name,
        "Needed by": ", ".join(training.roles),
        "Repeated within": Markup("{}").format(here.to_record("values", training.again, here.measured(again.is_))),
        "Signed for it": Markup(", ").join(texts) or "none",
    }


def sources_page(here: Here, quoting: Mapping[str, Sequence[tuple[str, str]]]) -> str:
    """Every source with what rests on it.

    quoting: the authored pages that quote a source, by its id, each with address and title.
    """
    used = _used(here)
    for source, pages in quoting.items():
        used.setdefault(source, []).extend(here.to(page, f"page: {title}") for page, title in pages)
    rows = (
        (anchor("sources", source.id), _source(source, used.get(source.id, ()), here.records))
        for source in here.records.sources.values()
    )
    return page(
        "Sources",
        paragraph(
            "Every value and rule says where it comes from. Common practice is what working artists commonly do; "
            "no publication supports it, and it is marked so wherever it is used."
        ),
        table_of("Sources", rows),
    )


def _source(source: SourceRecord, used: Sequence[Markup], records: Records) -> Cells:
    kinds = {"published": "published", "house": "decision of the studio", "common-practice": NO_SOURCE}
    return {
        "Source": source.id,
        "Kind": kinds[source.kind],
        "Title": source.title,
        "Issued or decided": _issued(source, records),
        "Where in it": source.where or "no place named",
        "Used by": bullets(used) or "nothing yet",
    }


def _issued(source: SourceRecord, records: Records) -> str:
    if source.kind == "published":
        return f"{source.body}, {source.year}"
    if source.kind == "house":
        return who_decided(source, records) if source.decided else "not decided here"
    return "no published source"


def _used(here: Here) -> dict[str, list[Markup]]:
    """For each source the records that name it, linked; most limits of the studio rest on one decision."""
    studio = here.records.studio
    used = {str(studio.source): [here.to_record("studio", "limits-sitting", "studio: limits")]}
    for key in Limits.model_fields:
        for reference in references(getattr(studio.limits, key)):
            if reference.family == "sources":
                named = here.to_record("studio", f"limits-{key}", f"studio: limits, {key.replace('_', ' ')}")
                used.setdefault(str(reference), []).append(named)
    for family in LISTED:
        for entry in here.records.family(family.name).values():
            for reference in references(entry):
                if reference.family == "sources":
                    named = here.to_record(family.name, entry.id, f"{family.name}: {name_of(entry)}")
                    used.setdefault(str(reference), []).append(named)
    return used
