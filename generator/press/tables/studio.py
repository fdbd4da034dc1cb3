"""Reference tables about the studio's things and people: machines, sites, supplies, people, sources."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from markupsafe import Markup

from generator.press.drawings.charts import calibration_chart
from generator.press.lists.expires import EXPIRES
from generator.press.lists.training import TRAINING
from generator.press.tables.vibration import NOT_ASSESSED, vibration_section
from generator.press.words.addresses import NO_SOURCE, PAGE_OF, address, anchor, to_entry, to_record, to_source
from generator.press.words.formatted import calculated, measured, number, with_end, yes_no
from generator.press.words.markup import Row, bullets, heading, link, page, paragraph, table
from generator.records.decisions import who_decided
from generator.records.families import LISTED, Records
from generator.records.machines import Calibration, Machine
from generator.records.people import Person
from generator.records.quoting import name_of
from generator.records.references import references
from generator.records.sources import SourceRecord
from generator.records.supplies import Supply

NOBODY: Mapping[str, Sequence[tuple[str, str]]] = MappingProxyType({})


def machines_page(records: Records, here: str) -> str:
    """The machines, then what their dials were measured to do."""
    columns = (
        "Machine",
        "Drive",
        "Strokes",
        "Dial shows",
        "Dial limits",
        "Hang-out, with needles on the shelf",
        "Weight",
        "Vibration",
        "Care between clients",
        "Source",
    )
    measurements: list[str] = []
    for calibration in records.calibrations.values():
        machine = records.machines[calibration.machine].name
        title = f"{machine}, stroke {calibration.stroke.text}"
        measurements += [
            heading(title, anchor("measured", calibration.id), 3),
            _conditions(calibration, records, here),
            calibration_chart(calibration, title, records),
            _points(calibration, title, records),
        ]
    return page(
        "Machines",
        table("Machines of the studio", columns, (_machine(m, records, here) for m in records.machines.values())),
        heading("What the dials were measured to do", "calibrations"),
        paragraph(
            "Each table holds for one machine with one stroke, one kind of cartridge and one supply. Between two "
            "points the line is taken as straight; beyond them nothing is said. Measure again after any repair."
        ),
        *(measurements or [paragraph("No dial has been measured yet.")]),
        *vibration_section(records, here),
        contents=False,
    )


def _machine(machine: Machine, records: Records, here: str) -> Row:
    vibration = NOT_ASSESSED if machine.vibration is None else measured(machine.vibration, records)
    return Row(
        anchor("machines", machine.id),
        (
            with_end(machine.name, machine.until),
            machine.drive.replace("-", ", "),
            "; ".join(measured(s, records) for s in machine.strokes),
            machine.dial,
            measured(machine.limits, records),
            _hang_out(machine, records),
            measured(machine.weight, records),
            vibration,
            machine.care,
            to_source(here, machine.source, records),
        ),
    )


def _hang_out(machine: Machine, records: Records) -> str:
    """What machine and needles on the shelf can be set to together: that much, and no more, can be typed in a job."""
    needles = [grouping.hang_out for grouping in records.groupings.values() if grouping.until is None]
    own = machine.hang_out
    both = [(max(own.low, n.low), min(own.high, n.high)) for n in needles if own.low <= n.high and n.low <= own.high]
    if not both:
        return measured(own, records)
    low, high = min(low for low, _ in both), max(high for _, high in both)
    return measured(own, records) if (low, high) == (own.low, own.high) else calculated(low, high, own.kind, records)


def _conditions(calibration: Calibration, records: Records, here: str) -> Markup:
    row = Row(
        anchor("calibrations", calibration.id),
        (
            to_entry(here, calibration.machine, records),
            measured(calibration.stroke, records),
            calibration.cartridge,
            calibration.supply,
            calibration.measured.isoformat(),
            to_source(here, calibration.source, records),
        ),
    )
    columns = ("Machine", "Stroke", "Cartridge", "Supply", "Measured on", "Source")
    return table(f"Conditions of the measurement {calibration.id}", columns, [row])


def _points(calibration: Calibration, title: str, records: Records) -> Markup:
    rows = (
        Row(anchor("calibrations", calibration.id, "points", str(n)), (measured(volts, records), measured(hz, records)))
        for n, (volts, hz) in enumerate(calibration.points)
    )
    return table(f"Measured points: {title} ({calibration.id})", ("Dial", "Speed"), rows)


def contents_in_words(supply: Supply) -> str:
    """What a client may be allergic to; what nobody has read is not nothing."""
    if supply.contains is None:
        return "not read yet – ask"
    return ", ".join(supply.contains) or "none named on the label"


def sites_page(records: Records, here: str) -> str:
    """Places on the body."""
    columns = (
        "Place",
        "Usual pose",
        "Stretch",
        "Watch for",
        "Skin thickness, as published",
        "Apprentice",
        "Girth is taped",
        "Source",
    )
    rows = (
        Row(
            anchor("sites", site.id),
            (
                site.name,
                site.pose,
                site.stretch,
                site.cautions,
                "none on file" if site.thickness is None else measured(site.thickness, records),
                site.apprentice,
                yes_no(site.limb),
                to_source(here, site.source, records),
            ),
        )
        for site in records.sites.values()
    )
    return page(
        "Places on the body",
        paragraph(
            "Skin thickness is knowledge and no setting: it differs from person to person, and hang-out is not depth. "
            "Girth is taped on the client, standing and relaxed."
        ),
        table("Places on the body", columns, rows),
    )


def supplies_page(records: Records, here: str) -> str:
    """What is used up."""
    columns = ("Article", "Use", "Pack", "On the shelf", "Always kept", "Contains", "Taken instead", "Source")
    rows = (
        Row(
            anchor("supplies", supply.id),
            (
                with_end(supply.name, supply.until),
                _use(supply, records),
                str(supply.pack),
                str(supply.stock),
                str(supply.reserve),
                contents_in_words(supply),
                supply.instead or "nothing on file – ask",
                to_source(here, supply.source, records),
            ),
        )
        for supply in records.supplies.values()
    )
    return page("Supplies", table("Supplies and how they are counted", columns, rows))


def _use(supply: Supply, records: Records) -> str:
    per = measured(supply.area, records) if supply.area is not None else f"each {supply.per}"
    instead = f"; or {records.supplies[supply.or_else].name.lower()}" if supply.or_else is not None else ""
    return f"{number(supply.amount)} {supply.counted_in} for {per}{instead}"


def values_page(records: Records, here: str) -> str:
    """Numbers that procedures quote."""
    rows = (
        Row(
            anchor("values", value.id),
            (
                value.what,
                measured(value.is_, records),
                to_source(here, value.source, records),
            ),
        )
        for value in records.values.values()
    )
    return page(
        "Values of the house",
        paragraph("Numbers that procedures quote and that are in no other table. Each is changed here alone."),
        table("Values of the house", ("What", "Value", "Source"), rows, long_cells=True),
    )


def _own_settings(person: Person, records: Records, here: str) -> Iterator[Markup]:
    """What an artist sets otherwise than the studio, where machine and needle can do it and a job says nothing."""
    for own in person.own_settings:
        machine = [to_entry(here, own.machine, records)] if own.machine is not None else []
        values = [measured(value, records) for value in (own.stroke, own.dial) if value is not None]
        hang_out = [f"hang-out {measured(own.hang_out, records)}"] if own.hang_out is not None else []
        yield Markup("{}: {}; {}").format(
            to_entry(here, own.technique, records),
            Markup(", ").join([*machine, *values, *hang_out]),
            to_source(here, own.source, records),
        )
    if person.hang_out is not None:
        yield Markup("{} hang-out").format(person.hang_out)


def people_page(records: Records, here: str) -> str:
    """Who works here, and what they may do."""
    rows = (
        Row(
            anchor("people", person.id),
            (
                with_end(person.name, person.until),
                person.role,
                person.hand,
                person.order or f"{records.studio.order}, as the studio",
                Markup(", ").join(to_entry(here, technique, records) for technique in person.may) or "none",
                bullets(_own_settings(person, records, here)) or "the studio’s usual",
                bullets(f"{training.what}, {training.on.isoformat()}" for training in person.training)
                or "none on file",
            ),
        )
        for person in records.people.values()
    )
    trained = link(address(here, TRAINING), "Who has read which procedure, and what has to be read again")
    columns = ("Name", "Role", "Working hand", "Order of areas", "May work", "Own settings", "Training")
    needed = (
        Row(
            anchor("required-training", needed.id),
            (
                needed.name,
                ", ".join(needed.roles),
                Markup("{}").format(
                    to_record(here, "values", needed.again, measured(records.values[needed.again].is_, records))
                ),
                Markup(", ").join(
                    link(address(here, f"procedures/{text}.md"), text.replace("-", " ")) for text in needed.texts
                )
                or "none",
                to_source(here, needed.source, records),
            ),
        )
        for needed in records.required_training.values()
    )
    return page(
        "People",
        paragraph(trained),
        table("Who works here", columns, rows),
        heading("Training and checks that a role needs", "required-training"),
        paragraph(
            Markup("{} lists until when each of them counts for whom. Of a check only its day is written down.").format(
                link(address(here, EXPIRES), "What expires")
            )
        ),
        table(
            "Training and checks that a role needs",
            ("Training or check", "Needed by", "Repeated within", "Signed for it", "Source"),
            needed,
            "No training is asked for by a role.",
        ),
    )


def sources_page(records: Records, here: str, quoting: Mapping[str, Sequence[tuple[str, str]]] = NOBODY) -> str:
    """Every source with what rests on it.

    quoting: the authored pages that quote a source, by its id, each with address and title.
    """
    used = _used(records, here)
    for source, pages in quoting.items():
        used.setdefault(source, []).extend(link(address(here, page), f"page: {title}") for page, title in pages)
    rows = (
        Row(
            anchor("sources", source.id),
            (
                source.id,
                _kind(source),
                source.title,
                _issued(source, records),
                source.where or "no place named",
                bullets(used.get(source.id, ())) or "nothing yet",
            ),
        )
        for source in records.sources.values()
    )
    return page(
        "Sources",
        paragraph(
            "Every value and rule says where it comes from. Common practice is what working artists commonly do; "
            "no publication supports it, and it is marked so wherever it is used."
        ),
        table("Sources", ("Source", "Kind", "Title", "Issued or decided", "Where in it", "Used by"), rows),
    )


def _kind(source: SourceRecord) -> str:
    return {"published": "published", "house": "decision of the studio", "common-practice": NO_SOURCE}[source.kind]


def _issued(source: SourceRecord, records: Records) -> str:
    if source.kind == "published":
        return f"{source.body}, {source.year}"
    if source.kind == "house":
        return who_decided(source, records) if source.decided else "not decided here"
    return "no published source"


def _used(records: Records, here: str) -> dict[str, list[Markup]]:
    """For each source the records that name it, linked."""
    used: dict[str, list[Markup]] = {}
    used.setdefault(records.studio.source, []).append(to_studio(here))
    for family, entry_id, source in _named(records):
        entry = records.family(family)[entry_id]
        used.setdefault(source, []).append(to_record(here, family, entry_id, f"{family}: {name_of(entry)}"))
    return used


def to_studio(here: str) -> Markup:
    """A link to the studio's limits, which rest on one decision."""
    return to_record(here, "studio", "limits-sitting", "studio: limits")


def _named(records: Records) -> Iterator[tuple[str, str, str]]:
    for family in LISTED:
        assert family.name in PAGE_OF
        for entry in records.family(family.name).values():
            for reference in references(entry):
                if reference.family == "sources":
                    yield family.name, entry.id, str(reference)
