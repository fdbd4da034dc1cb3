"""Whether the punctures of the lines lie as close as the studio aims at."""

from __future__ import annotations

from collections.abc import Iterator

from generator.planning.findings.verdict import About, Finding
from generator.planning.working.steps import LINES, Step
from generator.records.families import Records


def spacing_findings(records: Records, steps: tuple[Step, ...]) -> Iterator[Finding]:
    """A line whose spacing, at every speed of the hand, lies outside the studio's range.

    Areas are left out: in whip shading and stippling the dots stand apart on purpose.
    """
    aim = records.studio.limits.spacing
    for number, step in enumerate(steps, 1):
        spacing = step.setting.spacing
        if step.section == LINES and spacing is not None and (spacing.high < aim.low or spacing.low > aim.high):
            far = spacing.low > aim.high
            yield About(f"parts.{step.part.id}", aim).care(
                f"Step {number}: the punctures lie too {'far apart' if far else 'close'} for {aim.text}.",
                "Slow the hand, or raise the dial inside its range." if far else "Move the hand faster.",
            )
