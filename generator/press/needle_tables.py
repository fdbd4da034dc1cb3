"""Reference tables about needles: groupings, speeds by technique, needle diameters."""

from __future__ import annotations

from generator.planning.reckoning import Recorded, reckon, recorded
from generator.planning.settings import computed_width, dial_for_speed, dial_row
from generator.press.addresses import anchor, to_entry, to_source
from generator.press.markup import Markup, Row, heading, note, page, paragraph, table
from generator.press.worded import measured, number, reckoned, yes_no
from generator.quantities import Quantity, shown
from generator.records.families import Records
from generator.records.machines import Machine
from generator.records.needles import Dial, Grouping, Technique
from generator.trade import labels, motion, needles
from generator.trade.refusal import Refusal

NOT_MEASURED = "not measured – measure it"


def groupings_page(records: Records, here: str) -> str:
    """Every grouping on the shelf, its computed width beside the measured line."""
    columns = ("Label", "Needle diameter", "Needles", "Configuration", "Packed", "Taper", "Spread", "Computed width",
               "Measured fresh line", "Hang-out", "Taken for", "Source")  # fmt: skip
    return page(
        "Groupings",
        paragraph(
            "The computed width is that of the full wire. It is not the mark: the taper narrows it and ink spreads it. "
            "Where a fresh line was measured, plans use the measured one."
        ),
        table(
            "Needle groupings on the shelf", columns, (_grouping(g, records, here) for g in records.groupings.values())
        ),
    )


def _grouping(grouping: Grouping, records: Records, here: str) -> Row:
    label = labels.read_label(grouping.label)
    return Row(anchor("groupings", grouping.id), (
        grouping.label,
        reckoned(label.needle_diameter, label.needle_diameter, "length", records),
        str(label.count),
        f"{labels.CONFIGURATIONS[label.configuration]} ({label.configuration})",
        grouping.packed,
        grouping.taper,
        "a round has none" if grouping.spread is None else number(grouping.spread),
        _computed(grouping, records),
        NOT_MEASURED if grouping.fresh_line is None else measured(grouping.fresh_line, records),
        measured(grouping.hang_out, records),
        grouping.good_for,
        to_source(here, grouping.source, records),
    ))  # fmt: skip


def _computed(grouping: Grouping, records: Records) -> str:
    try:
        width = computed_width(grouping)
    except Refusal as refusal:
        return f"cannot be computed: {refusal.remedy}"
    return reckoned(width.low, width.high, "length", records)


def speeds_page(records: Records, here: str) -> str:
    """Every technique: how it is worked, and the dial of every machine for every row of groupings."""
    columns = ("Technique", "Works", "Usual for", "Usual grouping", "Machines, first choice first", "Stroke",
               "Hang-out", "Hand speed", "Clock rate", "Stretch", "How the hand moves", "What ends it",
               "Apprentice, supervised", "Source")  # fmt: skip
    blocks: list[str] = []
    for technique in records.techniques.values():
        blocks.append(heading(technique.name, anchor("speeds", technique.id)))
        blocks.append(_dials(technique, records))
    return page(
        "Techniques and speeds",
        paragraph(
            "A range to start from. Each machine has a column in what its own dial shows. A display shows the "
            "commanded speed, not the speed in the skin. Hang-out is a preference and not the depth."
        ),
        table("Techniques and how they are worked", columns,
              (_technique(t, records, here) for t in records.techniques.values())),
        note("Volts", f"“{NOT_MEASURED}” means that nobody has measured this machine with such a stroke at this speed. "
             "Volts are never guessed from another machine, stroke, cartridge or supply."),
        *blocks,
    )  # fmt: skip


def _technique(technique: Technique, records: Records, here: str) -> Row:
    return Row(anchor("techniques", technique.id), (
        technique.name,
        technique.works,
        ", ".join(technique.usual_for) or "nothing by itself; a job names it",
        to_entry(here, technique.usual_grouping, records),
        Markup(", ").join(to_entry(here, machine, records) for machine in technique.machines),
        measured(technique.stroke, records),
        measured(technique.hang_out, records),
        measured(technique.hand_speed, records),
        measured(technique.clock_rate, records),
        technique.stretch,
        technique.passes,
        technique.stop,
        yes_no(technique.may_apprentice),
        to_source(here, technique.source, records),
    ))  # fmt: skip


def _dials(technique: Technique, records: Records) -> Markup:
    machines = list(records.machines.values())
    columns = ("Groupings", "On the shelf", "Speed", "Usual", *(f"{m.name}, {m.dial}" for m in machines),
               "Spacing at the usual speed", "Times over, then stop")  # fmt: skip
    rows = []
    for place, row in enumerate(technique.dials):
        spacing = reckon(
            motion.spacing, "length",
            hand_speed=recorded(technique.hand_speed, "hand_speed"), frequency=recorded(row.usual, "usual"),
        )  # fmt: skip
        fitting = [g.label for g in records.groupings.values() if dial_row(technique, g) is row]
        rows.append(Row(anchor("techniques", technique.id, "dials", str(place)), (
            f"{', '.join(row.configurations)} of {row.fewest} to {row.most}",
            ", ".join(fitting) or "none",
            measured(row.speed, records),
            measured(row.usual, records),
            *(_setting(records, technique, row, machine) for machine in machines),
            reckoned(spacing.low, spacing.high, "length", records),
            str(row.times_over),
        )))  # fmt: skip
    return table(f"{technique.name}: dial by groupings and machine", columns, rows)


def _setting(records: Records, technique: Technique, row: Dial, machine: Machine) -> str:
    """The machine's own dial for a row: the usual setting, and the range that its dial and its points allow."""
    strokes = [s for s in machine.strokes if technique.stroke.low <= s.low <= technique.stroke.high]
    if not strokes:
        return "no stroke for it"
    if machine.dial == "Hz":
        return _within(machine, (row.usual.low, row.speed.low, row.speed.high), "frequency")
    return "; ".join(_volts(records, row, machine, stroke) for stroke in strokes)


def _volts(records: Records, row: Dial, machine: Machine, stroke: Quantity) -> str:
    at = f"with a stroke of {measured(stroke, records)}: "
    usual = _volts_for(records, machine, stroke, row.usual.low)
    if usual is None:
        return at + NOT_MEASURED
    ends = [_volts_for(records, machine, stroke, speed) for speed in (row.speed.low, row.speed.high)]
    # Where an end of the range lies beyond the measured points, only the usual setting is known.
    low, high = (usual if end is None else end for end in ends)
    said = at + _within(machine, (usual, low, high), "voltage")
    return f"{said}, the rest of the range is {NOT_MEASURED}" if None in ends else said


def _volts_for(records: Records, machine: Machine, stroke: Quantity, speed: float) -> float | None:
    try:
        return dial_for_speed(records, machine, stroke.low, Recorded(speed, speed, "frequency", "usual")).low
    except Refusal:
        return None


def _within(machine: Machine, setting: tuple[float, float, float], kind: str) -> str:
    usual, low, high = setting
    if not machine.limits.low <= usual <= machine.limits.high:
        return "beyond its dial"
    low, high = max(low, machine.limits.low), min(high, machine.limits.high)
    one = shown(usual, usual, kind, "metric")
    return one if low == high else f"{one} ({shown(low, high, kind, 'metric')})"


def needle_diameters_page(records: Records, here: str) -> str:
    """Wire codes, and the tightest bundle of every count."""
    codes = labels.WIRE_DIAMETERS
    wires = [
        Row(f"wire-{code}", (
            f"#{code}", reckoned(diameter, diameter, "length", records),
            "bugpin" if needles.bugpin(diameter) else "standard",
        ))
        for code, diameter in codes.items()
    ]  # fmt: skip
    disputed = ", ".join(f"#{code}" for code in labels.DISPUTED_WIRE)
    bundles = []
    for count in range(1, needles.LARGEST_ROUND + 1):
        packing = needles.tightest_packing(count)
        widths = (needles.tightest_bundle(count, diameter) for diameter in codes.values())
        bundles.append(Row(f"bundle-{count}", (
            str(count), f"{packing.ratio:.3f}", packing.standing,
            *(reckoned(width, width, "length", records) for width in widths),
        )))  # fmt: skip
    return page(
        "Needle diameters",
        paragraph(
            "The wire code on the box stands for the diameter of the full wire. No standard is behind these codes; "
            f"where the box prints a diameter, that one counts. On {disputed} the published tables disagree: read the "
            "box."
        ),
        table("Wire codes", ("Code", "Needle diameter", "Called"), wires),
        heading("Tightest rounds", "tightest-rounds"),
        paragraph(
            "The width of the smallest circle around so many full wires. “Proved” and “best known” say how firmly that "
            "circle is known. A loose or hollow round is wider; the mark is another matter, and a measured line wins."
        ),
        table("Width of the tightest round by needles and wire code",
              ("Needles", "Width in needle diameters", "Standing", *(f"#{code}" for code in codes)), bundles),
    )  # fmt: skip
