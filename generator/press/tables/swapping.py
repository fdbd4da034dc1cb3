"""“I swapped 9 for 14 needles, what now”: groupings of each technique side by side, and one example worked out."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.planning.computed import Computed, Recorded, compute
from generator.planning.working.swapping import (
    hand_of,
    hand_speed_kept,
    misleading_speed,
    needles_of,
    shelf_of,
    speed_of,
    swap_to_show,
)
from generator.planning.working.technique import dial_row
from generator.press.explained.worked import value_in_words
from generator.press.lists.here import Here
from generator.press.tables.dial_settings import in_one_cell, on_dial
from generator.press.words.addresses import anchor
from generator.press.words.markup import heading, note, page, paragraph, table_of
from generator.records.needles import Grouping, Technique
from generator.trade import motion

SWAPPING = "reference/swapping.md"


def swapping_page(here: Here) -> str:
    """The page: the rule, one example, then every technique."""
    return page(
        "Swapping groupings",
        paragraph(
            "Another grouping, what now? Take the dial from the technique’s table, in your machine’s own setting. Then "
            "move the hand so that the spacing of the punctures stays what it was. Nothing else is carried over."
        ),
        *_example(here),
        *(block for technique in here.records.techniques.values() for block in _technique(technique, here)),
    )


def _technique(technique: Technique, here: Here) -> Iterator[str]:
    records = here.records
    machines = [records.machines[machine] for machine in technique.machines]
    usual = records.groupings[technique.usual_grouping]
    kept = _spacing(technique, usual) if dial_row(technique, usual) else None
    rows, how = [], []
    for grouping, row in shelf_of(technique, records):
        place = technique.dials.index(row)
        hand = "no speed to compare with"
        if kept is not None:
            speed = hand_speed_kept(technique, usual, grouping)
            hand = here.computed(speed)
            how.append((anchor("hand", technique.id, grouping.id), grouping.label, speed))
        settings = ((machine, on_dial(technique, place, machine, here)) for machine in machines)
        cells = (
            ("Grouping", here.to_record("groupings", grouping.id, grouping.label)),
            ("Needles", str(needles_of(grouping))),
            ("Speed", here.measured(row.usual)),
            *((f"{machine.name}, {machine.dial}", in_one_cell(found, machine)) for machine, found in settings),
            (f"Hand speed that keeps the spacing of {usual.label}", hand),
        )
        rows.append((anchor("swap", technique.id, grouping.id), cells))
    yield heading(technique.name, anchor("swap", technique.id))
    if kept is not None:
        how.insert(0, (anchor("kept", technique.id), f"spacing of {usual.label}", kept))
        yield paragraph(
            Markup("With the usual {} the hand moves at {}, and the punctures lie {} apart.").format(
                usual.label, here.measured(technique.hand_speed), here.computed(kept)
            )
        )
    yield table_of(f"{technique.name}: groupings side by side", rows, "No grouping on the shelf fits it.")
    yield here.how_computed(technique.name, how)


def _spacing(technique: Technique, grouping: Grouping) -> Computed:
    """How far apart the punctures lie at the usual speeds of hand and machine."""
    frequency = speed_of(technique, grouping)
    return compute(motion.spacing, "needle length", hand_speed=hand_of(technique), frequency=frequency)


def _example(here: Here) -> Iterator[str]:
    yield heading("An example", "swap-example")
    swap = swap_to_show(here.records)
    if swap is None:
        yield paragraph("No record to show it with: no technique has two groupings on the shelf that run differently.")
        return
    technique, before, after = swap
    speed, new = speed_of(technique, before), speed_of(technique, after)
    distance = _spacing(technique, before)
    hand, wrong = hand_speed_kept(*swap), misleading_speed(swap)

    def said(value: Recorded | Computed) -> str:
        return here.computed(value) if isinstance(value, Computed) else value_in_words(value, here.records)

    yield paragraph(
        Markup("{}: {} is put down and {} is taken up, {} needles instead of {}.").format(
            technique.name, before.label, after.label, needles_of(after), needles_of(before)
        )
    )
    yield paragraph(
        Markup(
            "Before, the machine ran at {} and the hand moved at {}: a spacing of {}. The technique’s table gives "
            "{} for {}. The hand that keeps the spacing then moves at {}."
        ).format(said(speed), said(hand_of(technique)), said(distance), said(new), after.label, said(hand))
    )
    yield note(
        "Why not the same number of punctures on each square millimetre?",
        Markup(
            "That sum would give {} for {}. It misleads: it takes all needles to stab the same patch, as if the "
            "wider grouping covered no more skin. So it would {} a large grouping {} although each needle still has "
            "its own bit of line to fill; the dots would move apart or the hand would have to crawl. Keep the "
            "spacing, and take the dial from the table."
        ).format(said(wrong), after.label, *(("slow", "down") if wrong.low < new.low else ("speed", "up"))),
    )
    steps = (
        ("swap-spacing", "spacing before", distance),
        ("swap-hand", "hand speed after", hand),
        ("swap-misleading", "not to be set", wrong),
    )
    yield here.how_computed("the example", steps)
