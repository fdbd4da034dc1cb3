"""What is set outside the usual range of its technique: planned, because machine and needle can do it, and said.

So are volts at which nobody has measured the machine, and punctures of a line that lie farther apart or closer than the
studio aims at.
"""

from __future__ import annotations

from collections.abc import Iterator

from generator.grouped import grouped
from generator.planning.computed import Value, value_shown
from generator.planning.findings.verdict import About, Finding
from generator.planning.working.steps import LINES, Step
from generator.records.families import Records

_REMEDIES = {
    "needle": "Work a small patch first, and look how the skin takes it; a usual needle is the safe choice.",
    "speed": "Keep it where you mean it, and match the hand to it; else set the dial inside the range.",
    "stroke": "Keep it where you mean it, and look how deep the needle goes; else take a stroke inside the range.",
    "hang-out": "Keep it where you mean it, and look how deep the needle goes; else set it inside the range.",
}


def unusual_settings(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """Lines by their spacing, then speeds nobody measured, then one finding for each technique, value and range."""
    yield from _spacing(records, steps)
    yield from _unknown_speeds(records, steps)
    found = grouped(
        ((str(step.setting.technique.name), outside), number)
        for number, step in enumerate(steps, 1)
        for outside in step.setting.outside
    )
    for (technique, outside), numbers in found.items():
        chosen, usual = (_said(records, value) for value in (outside.chosen, outside.usual))
        yield About(steps[numbers[0] - 1].part, outside.by).care(
            f"{_named(numbers)}: {outside.what} {chosen} is outside the usual {usual} of {technique}.",
            _REMEDIES[outside.what],
        )


def _unknown_speeds(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """One finding for each machine, stroke and dial at which nobody has measured how fast it runs."""
    settings = ((number, step.setting) for number, step in enumerate(steps, 1) if step.setting.speed is None)
    found = grouped(
        ((one.machine.id, _said(records, one.stroke), _said(records, one.dial)), number) for number, one in settings
    )
    for (machine_id, stroke, dial), numbers in found.items():
        machine, step = records.machines[machine_id], steps[numbers[0] - 1]
        yield About(step.part, machine.origin_at("limits")).care(
            f"{_named(numbers)}: how fast {machine.name} runs at {dial} with a stroke of {stroke} and such a cartridge "
            "was never measured.",
            "Measure it first, or set it to volts that are measured.",
        )


def _named(numbers: list[int]) -> str:
    return f"{'Step' if len(numbers) == 1 else 'Steps'} {', '.join(map(str, numbers))}"


def _said(records: Records, value: Value | str) -> str:
    return value if isinstance(value, str) else value_shown(value, records.studio.shows)


def _spacing(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """A line whose spacing, at every speed of the hand, lies outside the studio's range.

    Areas are left out: in whip shading and stippling the dots stand apart on purpose.
    """
    aim = records.studio.limits.spacing
    for number, step in enumerate(steps, 1):
        spacing = step.setting.spacing
        if step.section == LINES and spacing is not None and (spacing.high < aim.low or spacing.low > aim.high):
            far = spacing.low > aim.high
            yield About(step.part, aim).care(
                f"Step {number}: the punctures lie too {'far apart' if far else 'close'} for {aim.text}.",
                "Slow the hand, or raise the dial inside its range." if far else "Move the hand faster.",
            )
