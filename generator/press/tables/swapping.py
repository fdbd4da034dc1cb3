"""“I swapped 9 for 14 needles, what now”: groupings of each technique side by side, and one example worked out."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from generator.planning.computed import Computed, Recorded, compute, text_of
from generator.planning.working.swapping import (
    _shelf,
    hand_of,
    hand_speed_kept,
    misleading_speed,
    needles_of,
    speed_of,
    swap_to_show,
)
from generator.planning.working.technique import dial_row
from generator.press.explained.worked import WorkedOut, as_worked, how_computed, to_formula
from generator.press.tables.dial_settings import machine_setting
from generator.press.words.addresses import anchor, to_record
from generator.press.words.formatted import calculated, measured
from generator.press.words.markup import Row, heading, note, page, paragraph, table
from generator.records.families import Records
from generator.records.needles import Technique
from generator.trade import motion


def swapping_page(records: Records, here: str) -> str:
    """The page: the rule, one example, then every technique."""
    blocks: list[str] = []
    for technique in records.techniques.values():
        blocks += _technique(technique, records, here)
    return page(
        "Swapping groupings",
        paragraph(
            "Another grouping, what now? Take the dial from the technique’s table, in your machine’s own setting. Then "
            "move the hand so that the spacing of the punctures stays what it was. Nothing else is carried over."
        ),
        *_example(records, here),
        *blocks,
    )


def _technique(technique: Technique, records: Records, here: str) -> Iterator[str]:
    machines = [records.machines[machine] for machine in technique.machines]
    usual = records.groupings[technique.usual_grouping]
    kept = (
        compute(motion.spacing, "needle length", hand_speed=hand_of(technique), frequency=speed_of(technique, usual))
        if dial_row(technique, usual)
        else None
    )
    columns = (
        "Grouping",
        "Needles",
        "Speed",
        *(f"{m.name}, {m.dial}" for m in machines),
        f"Hand speed that keeps the spacing of {usual.label}",
    )
    rows, how = [], []
    for grouping, row in _shelf(technique, records):
        place = technique.dials.index(row)
        settings = [machine_setting(records, technique, place, machine, here) for machine in machines]
        hand = "no speed to compare with"
        if kept is not None:
            speed = hand_speed_kept(technique, usual, grouping)
            hand = to_formula(here, speed.function, calculated(speed.low, speed.high, "hand speed", records))
            how.append((anchor("hand", technique.id, grouping.id), grouping.label, as_worked(speed, records)))
        rows.append(
            Row(
                anchor("swap", technique.id, grouping.id),
                (
                    to_record(here, "groupings", grouping.id, grouping.label),
                    str(needles_of(grouping)),
                    measured(row.usual, records),
                    *(setting.shown for setting in settings),
                    hand,
                ),
            )
        )
    yield heading(technique.name, anchor("swap", technique.id))
    if kept is not None:
        spaced = to_formula(here, motion.spacing, calculated(kept.low, kept.high, "needle length", records))
        how.insert(0, (anchor("kept", technique.id), f"spacing of {usual.label}", as_worked(kept, records)))
        yield paragraph(
            Markup("With the usual {} the hand moves at {}, and the punctures lie {} apart.").format(
                usual.label, measured(technique.hand_speed, records), spaced
            )
        )
    yield table(f"{technique.name}: groupings side by side", columns, rows, "No grouping on the shelf fits it.")
    yield how_computed(technique.name, how, records, here)


def _example(records: Records, here: str) -> Iterator[str]:
    yield heading("An example", "swap-example")
    swap = swap_to_show(records)
    if swap is None:
        yield paragraph("No record to show it with: no technique has two groupings on the shelf that run differently.")
        return
    technique, before, after = swap
    speed, new = speed_of(technique, before), speed_of(technique, after)
    distance = compute(motion.spacing, "needle length", hand_speed=hand_of(technique), frequency=speed)
    hand, wrong = hand_speed_kept(*swap), misleading_speed(swap)

    def said(value: Recorded | Computed) -> str:
        text = calculated(value.low, value.high, value.kind, records, text_of(value))
        return to_formula(here, value.function, text) if isinstance(value, Computed) else text

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
    slower = "slow" if wrong.low < new.low else "speed"
    yield note(
        "Why not the same number of punctures on each square millimetre?",
        Markup(
            "That sum would give {} for {}. It misleads: it takes all needles to stab the same patch, as if the "
            "wider grouping covered no more skin. So it would {} a large grouping {} although each needle still has "
            "its own bit of line to fill; the dots would move apart or the hand would have to crawl. Keep the "
            "spacing, and take the dial from the table."
        ).format(said(wrong), after.label, slower, "down" if slower == "slow" else "up"),
    )
    steps: list[tuple[str, str, WorkedOut]] = [
        ("swap-spacing", "spacing before", as_worked(distance, records)),
        ("swap-hand", "hand speed after", as_worked(hand, records)),
        ("swap-misleading", "not to be set", as_worked(wrong, records)),
    ]
    yield how_computed("the example", steps, records, here)
