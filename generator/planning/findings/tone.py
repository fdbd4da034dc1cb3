"""The tone of the client's skin as it was picked or measured, for estimates and notes only.

Contrast leaves out black, which carries, and white, which heals away.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.planning.computed import Computed, compute, recorded
from generator.records.families import Records
from generator.records.jobs import Job
from generator.trade import skin_tone

# What the published classes are called by the tone picker, where it says otherwise.
_PICKED = {"intermediate": "medium"}


@dataclass(frozen=True, slots=True)
class Tone:
    """A word of the tone picker with the studio's swatch for it; the angle and its class where it was measured."""

    word: str
    swatch: str
    angle: Computed | None
    measured_class: str


def tone_of(records: Records, job: Job) -> Tone | None:
    """The picker's word comes before a reading; None where nobody wrote down either."""
    if job.skin is None:
        return None
    angle, measured_class = None, ""
    if job.skin.measured is not None:
        angle = compute(
            skin_tone.typology_angle,
            "angle",
            lightness=recorded(job.skin.measured.lightness),
            b=recorded(job.skin.measured.b),
        )
        measured_class = skin_tone.skin_class(angle.low)
    word = job.skin.tone or _PICKED.get(measured_class, measured_class)
    swatch: str = getattr(records.studio.tones, word.replace(" ", "_"))
    return Tone(word, swatch, angle, measured_class)
