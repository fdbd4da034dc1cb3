"""Reference tables about needles: groupings, speeds by technique, needle diameters."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator, Sequence

from markupsafe import Markup

from generator.planning.computed import compute, recorded
from generator.planning.working.widths import computed_width
from generator.press.drawings.charts import ChartSpan, spans_chart
from generator.press.drawings.needles import cross_sections
from generator.press.lists.here import Here, Step
from generator.press.tables.dial_settings import NOT_MEASURED, groupings_of, in_one_cell, on_dial, on_shelf
from generator.press.words.addresses import anchor
from generator.press.words.formatted import number, with_end, yes_no
from generator.press.words.markup import Cells, bullets, heading, link, note, page, paragraph, table_of, terms
from generator.records.families import Records
from generator.records.needles import Grouping, Technique
from generator.trade import labels, motion, needle_positions, needles
from generator.trade.refusal import Refusal

NEEDLE_DIAMETERS = "reference/needle-diameters.md"


def groupings_page(here: Here) -> str:
    """Every grouping on the shelf, its computed width beside the measured line."""
    groupings = here.records.groupings.values()
    return page(
        "Groupings",
        paragraph(
            "The computed width is that of the full wire. It is not the mark: the taper narrows it and ink spreads it. "
            "Where a fresh line was measured, plans use the measured one."
        ),
        table_of("Needle groupings on the shelf", here.rows("groupings", groupings, _grouping)),
        here.how_computed("width of the groupings", _widths(here.records)),
        heading("Drawn to scale", "groupings-drawn"),
        paragraph(
            Markup(
                "Full wires, seen from the skin, all at one scale and placed by the formula “{}”. The bar under "
                "each is 1 mm long. Tips are finer, and no maker solders as evenly."
            ).format(here.to_formula(needle_positions.needle_positions))
        ),
        cross_sections(here.records),
    )


def _grouping(grouping: Grouping, here: Here) -> Cells:
    label = labels.read_label(grouping.label)
    packed = grouping.packed
    return {
        "Label": with_end(grouping.label, grouping.until),
        "Needle diameter": here.calculated(label.needle_diameter, label.needle_diameter, "needle length"),
        "Needles": str(label.count),
        "Configuration": f"{labels.CONFIGURATIONS[label.configuration]} ({label.configuration})",
        "Packed": packed if grouping.spread is None else f"{packed}, spread {number(grouping.spread)}",
        "Taper": grouping.taper,
        "Computed width": _computed(grouping, here),
        "Measured fresh line": NOT_MEASURED if grouping.fresh_line is None else here.measured(grouping.fresh_line),
        "Hang-out": here.measured(grouping.hang_out),
        "Taken for": grouping.good_for,
    }


def _computed(grouping: Grouping, here: Here) -> str:
    try:
        return here.computed(computed_width(grouping))
    except Refusal as refusal:
        return f"cannot be computed: {refusal.remedy}"


def _widths(records: Records) -> Iterator[Step]:
    for grouping in records.groupings.values():
        # What cannot be computed says so in its row.
        with contextlib.suppress(Refusal):
            yield anchor("width", grouping.id), grouping.label, computed_width(grouping)


def speeds_page(here: Here) -> str:
    """Every technique: how it is worked, and the dial of every machine for every row of groupings."""
    techniques = here.records.techniques.values()
    blocks: list[str] = []
    for technique in techniques:
        blocks += [
            heading(technique.name, anchor("speeds", technique.id)),
            terms(
                ("Stretch", technique.stretch),
                ("How the hand moves", technique.movement),
                ("What ends it", technique.stop),
            ),
            *_dials(technique, here),
        ]
    return page(
        "Techniques and speeds",
        paragraph(
            "A range to start from. Each machine has a column in what its own dial shows. A display shows the "
            "commanded speed, not the speed in the skin. Hang-out is a preference and not the depth. "
            "A pace is timed by the clock over a whole technique: dips, wipes and stretching included, breaks left out."
        ),
        table_of("Techniques and how they are worked", here.rows("techniques", techniques, _technique)),
        spans_chart("Speed by technique and groupings", _speeds(here.records), here.records),
        note(
            "Volts",
            f"“{NOT_MEASURED}” means that nobody has measured this machine with such a stroke at this speed. "
            "Volts are never guessed from another machine, stroke, cartridge or supply.",
        ),
        bullets(link(f"#{anchor('speeds', t.id)}", t.name) for t in techniques),
        *blocks,
        contents=False,
    )


def _speeds(records: Records) -> list[ChartSpan]:
    return [
        ChartSpan(f"{technique.name}, {groupings_of(row)}", row.speed, row.usual)
        for technique in records.techniques.values()
        for row in technique.dials
    ]


def _technique(technique: Technique, here: Here) -> Cells:
    usual = ", ".join(technique.usual_for) or "nothing by itself, a job names it"
    return {
        "Technique": technique.name,
        "Works": f"{technique.works}; usual for {usual}",
        "Usual grouping": _usual_groupings(technique, here),
        "Machines, first choice first": Markup(", ").join(here.to_entry(machine) for machine in technique.machines),
        "Stroke": here.measured(technique.stroke),
        "Hang-out": here.measured(technique.hang_out),
        "Hand speed": here.measured(technique.hand_speed),
        "Pace": here.measured(technique.pace),
        "Apprentice, supervised": yes_no(technique.may_apprentice),
    }


def _usual_groupings(technique: Technique, here: Here) -> Markup:
    """The usual one, and the rounds for what it does not reach."""
    usual = here.to_entry(technique.usual_grouping)
    rounds = Markup(", ").join(here.to_entry(name) for name in technique.rounds)
    return Markup("{}; narrow places and letters: {}").format(usual, rounds) if technique.rounds else usual


def _dials(technique: Technique, here: Here) -> Iterator[str]:
    machines = list(here.records.machines.values())
    rows: list[tuple[str, Sequence[tuple[str, str]]]] = []
    how: list[Step] = []
    for place, row in enumerate(technique.dials):
        speed, of = recorded(row.usual), groupings_of(row)
        spacing = compute(motion.spacing, "needle length", hand_speed=recorded(technique.hand_speed), frequency=speed)
        settings = [(on_dial(technique, place, machine, here), machine) for machine in machines]
        cells = (
            ("Groupings", of),
            ("On the shelf", ", ".join(g.label for g in on_shelf(technique, row, here.records)) or "none"),
            ("Speed", here.measured(row.speed)),
            ("Usual", here.measured(row.usual)),
            *((f"{machine.name}, {machine.dial}", in_one_cell(found, machine)) for found, machine in settings),
            ("Spacing at the usual speed", here.computed(spacing)),
            ("Passes at most, then stop", str(row.passes)),
        )
        rows.append((anchor("techniques", technique.id, "dials", str(place)), cells))
        how.append((anchor("spacing", technique.id, str(place)), f"spacing, {of}", spacing))
        how += [step for found, _ in settings for one in found for step in one.computed]
    yield table_of(f"{technique.name}: dial by groupings and machine", rows)
    yield here.how_computed(technique.name, how)


def needle_diameters_page(here: Here) -> str:
    """Wire codes, and the tightest bundle of every count."""

    def shown(millimetres: float) -> Markup:
        return here.calculated(millimetres, millimetres, "needle length")

    codes = labels.WIRE_DIAMETERS
    wires = {
        f"wire-{code}": {
            "Code": f"#{code}",
            "Needle diameter": shown(diameter),
            "Called": "bugpin" if needles.bugpin(diameter) else "standard",
        }
        for code, diameter in codes.items()
    }
    disputed = ", ".join(f"#{code}" for code in labels.DISPUTED_WIRE)
    bundles = {}
    for count in range(1, needles.LARGEST_ROUND + 1):
        packing = needles.tightest_packing(count)
        bundles[f"bundle-{count}"] = {
            "Needles": str(count),
            "Width in needle diameters": f"{packing.ratio:.3f}",
            "Standing": packing.standing,
            **{f"#{code}": shown(needles.tightest_bundle(count, diameter)) for code, diameter in codes.items()},
        }
    return page(
        "Needle diameters",
        paragraph(
            "The wire code on the box stands for the diameter of the full wire. No standard is behind these codes; "
            f"where the box prints a diameter, that one counts. On {disputed} the published tables disagree: read the "
            "box."
        ),
        table_of("Wire codes", wires.items()),
        heading("Tightest rounds", "tightest-rounds"),
        paragraph(
            "The width of the smallest circle around so many full wires. “Proved” and “best known” say how firmly that "
            "circle is known. A loose or hollow round is wider; the mark is another matter, and a measured line wins."
        ),
        paragraph(
            Markup(
                "Every width is computed by the formula “{}”, from the needles that head its row and the "
                "diameter that the {} give for the code that heads its column."
            ).format(here.to_formula(needles.tightest_bundle), here.to(NEEDLE_DIAMETERS, "wire codes", "wire-12"))
        ),
        table_of("Width of the tightest round by needles and wire code", bundles.items()),
    )
