"""Reference tables about needles: groupings, speeds by technique, needle diameters."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator

from markupsafe import Markup

from generator.planning.computed import compute, recorded
from generator.planning.working.technique import dial_row
from generator.planning.working.widths import computed_width
from generator.press.drawings.charts import ChartSpan, spans_chart
from generator.press.drawings.needles import cross_sections
from generator.press.explained.worked import WorkedOut, as_worked, how_computed, to_formula
from generator.press.tables.dial_settings import NOT_MEASURED, groupings_of, machine_setting
from generator.press.words.addresses import address, anchor, to_entry, to_source
from generator.press.words.formatted import calculated, measured, number, with_end, yes_no
from generator.press.words.markup import Row, bullets, heading, link, note, page, paragraph, table, terms
from generator.records.families import Records
from generator.records.needles import Grouping, Technique
from generator.trade import labels, motion, needle_positions, needles
from generator.trade.refusal import Refusal


def groupings_page(records: Records, here: str) -> str:
    """Every grouping on the shelf, its computed width beside the measured line."""
    columns = (
        "Label",
        "Needle diameter",
        "Needles",
        "Configuration",
        "Packed",
        "Taper",
        "Computed width",
        "Measured fresh line",
        "Hang-out",
        "Taken for",
        "Source",
    )
    return page(
        "Groupings",
        paragraph(
            "The computed width is that of the full wire. It is not the mark: the taper narrows it and ink spreads it. "
            "Where a fresh line was measured, plans use the measured one."
        ),
        table(
            "Needle groupings on the shelf", columns, (_grouping(g, records, here) for g in records.groupings.values())
        ),
        how_computed("width of the groupings", _widths(records), records, here),
        heading("Drawn to scale", "groupings-drawn"),
        paragraph(
            Markup(
                "Full wires, seen from the skin, all at one scale and placed by the formula “{}”. The bar under "
                "each is 1 mm long. Tips are finer, and no maker solders as evenly."
            ).format(to_formula(here, needle_positions.needle_positions))
        ),
        cross_sections(records),
    )


def _grouping(grouping: Grouping, records: Records, here: str) -> Row:
    label = labels.read_label(grouping.label)
    return Row(
        anchor("groupings", grouping.id),
        (
            with_end(grouping.label, grouping.until),
            calculated(label.needle_diameter, label.needle_diameter, "needle length", records),
            str(label.count),
            f"{labels.CONFIGURATIONS[label.configuration]} ({label.configuration})",
            grouping.packed if grouping.spread is None else f"{grouping.packed}, spread {number(grouping.spread)}",
            grouping.taper,
            _computed(grouping, records, here),
            NOT_MEASURED if grouping.fresh_line is None else measured(grouping.fresh_line, records),
            measured(grouping.hang_out, records),
            grouping.good_for,
            to_source(here, grouping.source, records),
        ),
    )


def _computed(grouping: Grouping, records: Records, here: str) -> str:
    try:
        width = computed_width(grouping)
    except Refusal as refusal:
        return f"cannot be computed: {refusal.remedy}"
    return to_formula(here, width.function, calculated(width.low, width.high, "needle length", records))


def _widths(records: Records) -> Iterator[tuple[str, str, WorkedOut]]:
    for grouping in records.groupings.values():
        # What cannot be computed says so in its row.
        with contextlib.suppress(Refusal):
            width = as_worked(computed_width(grouping), records)
            yield anchor("width", grouping.id), grouping.label, width


def speeds_page(records: Records, here: str) -> str:
    """Every technique: how it is worked, and the dial of every machine for every row of groupings."""
    columns = (
        "Technique",
        "Works",
        "Usual grouping",
        "Machines, first choice first",
        "Stroke",
        "Hang-out",
        "Hand speed",
        "Pace",
        "Apprentice, supervised",
        "Source",
    )
    blocks: list[str] = []
    for technique in records.techniques.values():
        blocks += [
            heading(technique.name, anchor("speeds", technique.id)),
            terms(
                ("Stretch", technique.stretch),
                ("How the hand moves", technique.movement),
                ("What ends it", technique.stop),
            ),
            *_dials(technique, records, here),
        ]
    return page(
        "Techniques and speeds",
        paragraph(
            "A range to start from. Each machine has a column in what its own dial shows. A display shows the "
            "commanded speed, not the speed in the skin. Hang-out is a preference and not the depth. "
            "A pace is timed by the clock over a whole technique: dips, wipes and stretching included, breaks left out."
        ),
        table(
            "Techniques and how they are worked",
            columns,
            (_technique(t, records, here) for t in records.techniques.values()),
        ),
        spans_chart("Speed by technique and groupings", _speeds(records), records),
        note(
            "Volts",
            f"“{NOT_MEASURED}” means that nobody has measured this machine with such a stroke at this speed. "
            "Volts are never guessed from another machine, stroke, cartridge or supply.",
        ),
        bullets(link(f"#{anchor('speeds', t.id)}", t.name) for t in records.techniques.values()),
        *blocks,
        contents=False,
    )


def _speeds(records: Records) -> list[ChartSpan]:
    return [
        ChartSpan(f"{technique.name}, {groupings_of(row)}", row.speed, row.usual)
        for technique in records.techniques.values()
        for row in technique.dials
    ]


def _technique(technique: Technique, records: Records, here: str) -> Row:
    return Row(
        anchor("techniques", technique.id),
        (
            technique.name,
            f"{technique.works}; usual for {', '.join(technique.usual_for) or 'nothing by itself, a job names it'}",
            _usual_groupings(technique, records, here),
            Markup(", ").join(to_entry(here, machine, records) for machine in technique.machines),
            measured(technique.stroke, records),
            measured(technique.hang_out, records),
            measured(technique.hand_speed, records),
            measured(technique.pace, records),
            yes_no(technique.may_apprentice),
            to_source(here, technique.source, records),
        ),
    )


def _usual_groupings(technique: Technique, records: Records, here: str) -> Markup:
    """The usual one, and the rounds for what it does not reach."""
    usual = to_entry(here, technique.usual_grouping, records)
    rounds = Markup(", ").join(to_entry(here, name, records) for name in technique.rounds)
    return Markup("{}; narrow places and letters: {}").format(usual, rounds) if technique.rounds else usual


def _dials(technique: Technique, records: Records, here: str) -> Iterator[str]:
    machines = list(records.machines.values())
    columns = (
        "Groupings",
        "On the shelf",
        "Speed",
        "Usual",
        *(f"{m.name}, {m.dial}" for m in machines),
        "Spacing at the usual speed",
        "Passes at most, then stop",
    )
    rows, how = [], []
    for place, row in enumerate(technique.dials):
        spacing = compute(
            motion.spacing,
            "needle length",
            hand_speed=recorded(technique.hand_speed),
            frequency=recorded(row.usual),
        )
        fitting = [g.label for g in records.groupings.values() if dial_row(technique, g) is row]
        settings = [machine_setting(records, technique, place, machine, here) for machine in machines]
        rows.append(
            Row(
                anchor("techniques", technique.id, "dials", str(place)),
                (
                    groupings_of(row),
                    ", ".join(fitting) or "none",
                    measured(row.speed, records),
                    measured(row.usual, records),
                    *(setting.shown for setting in settings),
                    to_formula(here, motion.spacing, calculated(spacing.low, spacing.high, "needle length", records)),
                    str(row.passes),
                ),
            )
        )
        how.append(
            (anchor("spacing", technique.id, str(place)), f"spacing, {groupings_of(row)}", as_worked(spacing, records))
        )
        how += [computed for setting in settings for computed in setting.computed]
    yield table(f"{technique.name}: dial by groupings and machine", columns, rows)
    yield how_computed(technique.name, how, records, here)


def needle_diameters_page(records: Records, here: str) -> str:
    """Wire codes, and the tightest bundle of every count."""
    codes = labels.WIRE_DIAMETERS
    wires = [
        Row(
            f"wire-{code}",
            (
                f"#{code}",
                calculated(diameter, diameter, "needle length", records),
                "bugpin" if needles.bugpin(diameter) else "standard",
            ),
        )
        for code, diameter in codes.items()
    ]
    disputed = ", ".join(f"#{code}" for code in labels.DISPUTED_WIRE)
    bundles = []
    for count in range(1, needles.LARGEST_ROUND + 1):
        packing = needles.tightest_packing(count)
        widths = (needles.tightest_bundle(count, diameter) for diameter in codes.values())
        bundles.append(
            Row(
                f"bundle-{count}",
                (
                    str(count),
                    f"{packing.ratio:.3f}",
                    packing.standing,
                    *(calculated(width, width, "needle length", records) for width in widths),
                ),
            )
        )
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
        paragraph(
            Markup(
                "Every width is computed by the formula “{}”, from the needles that head its row and the "
                "diameter that the {} give for the code that heads its column."
            ).format(to_formula(here, needles.tightest_bundle), link(address(here, here, "wire-12"), "wire codes"))
        ),
        table(
            "Width of the tightest round by needles and wire code",
            ("Needles", "Width in needle diameters", "Standing", *(f"#{code}" for code in codes)),
            bundles,
        ),
    )
