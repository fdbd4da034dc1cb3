"""The limits the studio keeps: for the drawing, for a sitting, for time, needles and ink."""

from typing import Annotated

from pydantic import Field

from generator.quantities import Quantity
from generator.records.fields import Choice, Count, Measure, Number
from generator.records.ids import Source, ValueId
from generator.records.kind import Example, problem
from generator.records.record import Record, between_keys

Lightness = Annotated[float, Number(0, 100, Example("40"))]


class CoverLightness(Record):
    """How light, in CIELAB L*, the darkest ink over an existing tattoo may be, by its darkness."""

    light: Lightness = Field(description="over a light existing tattoo")
    medium: Lightness = Field(description="over an existing tattoo of medium darkness")
    dark: Lightness = Field(description="over a dark existing tattoo")


class Composition(Record):
    """From when on the eye says something about a drawing. Notes, never more."""

    third: Annotated[Quantity, Measure("share", "34 %", "100 %", "70 %")]
    """share of the weight of colour, chroma times area, in one third of the piece, that is noted"""
    strong_third: Annotated[Quantity, Measure("share", "34 %", "100 %", "85 %")]
    """share of the strong colour in one third of the piece, from which it is collected there"""
    off_centre: Annotated[Quantity, Measure("share", "1 %", "50 %", "15 %")]
    """how far the weight of colour may balance beside the middle, of the width or of the height"""
    ink_in_parts: Annotated[int, Count(1, 5)]
    """parts in which a colour is found at least, where the piece has so many"""
    filler_louder: Annotated[Quantity, Measure("share", "10 %", "500 %", "100 %")]
    """weight of colour of a filler over that of the main part, above which the filler is louder"""
    size_step: Annotated[float, Number(1, 5, Example("1.5"))]
    """how many times as large one of main, secondary and filler is as the next, at least"""
    deep_red_lightness: Lightness = Field(description="CIELAB lightness below which a red is a deep one")
    deep_red_chroma: Annotated[float, Number(0, 150, Example("30"))]
    """CIELAB chroma from which a deep red counts as a strong colour, as a red"""
    source: Source = Field(description="where these come from")


class CartridgeLimit(Record):
    """For how little work no cartridge of its own is opened."""

    least_work: Annotated[Quantity, Measure("duration", "0 min", "10 min", "1 min")]
    """work with one cartridge, at the slow end, under which an open needle that fits does it"""
    source: Source = Field(description="where it comes from")


class Limits(Record):
    """The studio's own decisions that every plan uses."""

    # Those that judge a drawing.
    girth_change: Annotated[Quantity, Measure("share", "1 %", "50 %", "5 %")]
    """change of the girth from standing to the pose, from which the stencil is placed again"""
    counter_gap: Annotated[Quantity, Measure("length", "0.3 mm", "10 mm", "1.5 mm")]
    """smallest counter of a letter that stays open"""
    after_laser: Annotated[Quantity, Measure("days", "14 days", "730 days", "8 weeks")]
    """time from the last laser session before an existing tattoo is worked over"""
    cover_ratio: Annotated[float, Number(1, 10, Example("2"))]
    """area of a cover-up over the area of what it covers, at least"""
    cover_lightness: CoverLightness = Field(description="how dark the inks over an existing tattoo have to be")
    beside: Annotated[Quantity, Measure("length", "0 mm", "50 mm", "2 mm")]
    """gap up to which two parts count as beside each other when inks are laid"""
    darker_by: Annotated[float, Number(1, 100, Example("20"))]
    """difference in CIELAB lightness from which an ink counts as darker than one beside it"""
    blend_chroma: Annotated[float, Number(0, 100, Example("12"))]
    """CIELAB chroma from which inks of one hue are laid as one blend"""
    one_place: Annotated[Quantity, Measure("share", "34 %", "100 %", "90 %")]
    """share of a strong colour in one of the nine places of a piece, from which it sits in one only"""
    blend_jump: Annotated[float, Number(1, 10, Example("2.5"))]
    """how many times the mean of its other steps a step of a blend may be before it jumps"""
    quiet_ink: Annotated[float, Number(0, 50, Example("8"))]
    """estimated CIEDE2000 difference from the skin under which an ink reads quietly"""
    strip_overlap: Annotated[Quantity, Measure("length", "2 mm", "50 mm", "10 mm")]
    """how far the strips of a template that is wider than the paper lie on one another"""
    closed_band: Annotated[Quantity, Measure("share", "50 %", "100 %", "85 %")]
    """share of the girth from which a band runs all round, so that its ends have to be closed"""
    seen_flat: Annotated[Quantity, Measure("share", "64 %", "100 %", "80 %")]
    """width that a wrapped piece shows from the front over its drawn one, under which its sides are lost"""
    composition: Composition = Field(description="from when on the eye says something about a drawing")
    scar_margin: Annotated[Quantity, Measure("length", "0 mm", "20 mm", "2 mm")]
    """how far beside a scar still counts as over it: for passes, for time, and where a part is moved"""
    left_to_round: Annotated[Quantity, Measure("share", "0.5 %", "50 %", "5 %")]
    """share of an area that a magnum does not reach, from which a row of its own is planned for a round"""
    white_area: Annotated[Quantity, Measure("area", "0.1 cm²", "500 cm²", "6 cm²")]
    """area of white in a piece; more is a note"""

    # Those of a sitting, of time, needles and ink, and of what the studio keeps.
    sitting: Annotated[Quantity, Measure("duration", "30 min", "12 h", "4 h")]
    """longest working time of one sitting, breaks included"""
    break_after: Annotated[Quantity, Measure("duration", "15 min", "3 h", "75 min")]
    """working time after which a break is due"""
    break_length: Annotated[Quantity, Measure("duration", "2 min", "60 min", "10 min")]
    """length of one break"""
    zone_worked: Annotated[Quantity, Measure("duration", "20 min", "6 h", "90 min")]
    """how long one part is worked before it rests, breaks left out"""
    zone_rest: Annotated[Quantity, Measure("duration", "5 min", "3 h", "20 min")]
    """how long a part is not worked until it counts as rested"""
    set_up: Annotated[Quantity, Measure("duration", "5 min", "2 h", "30 min")]
    """setting up the station before the client sits down"""
    stencil: Annotated[Quantity, Measure("duration", "5 min", "2 h", "15 min")]
    """shaving, cleaning and placing the stencil"""
    stencil_dry: Annotated[Quantity, Measure("duration", "5 min", "60 min", "15 min")]
    """drying of the stencil before the first line"""
    clean_skin: Annotated[Quantity, Measure("duration", "1 min", "60 min", "10 min")]
    """shaving and cleaning the skin in a later sitting that needs no stencil"""
    clean_and_wrap: Annotated[Quantity, Measure("duration", "5 min", "60 min", "15 min")]
    """final clean and wrap, aftercare talk"""
    turn_round: Annotated[Quantity, Measure("duration", "5 min", "3 h", "30 min")] | None = None
    """time between one client's wrap and the setting up for the next at the same chair, or by the same artist: taking
    the station down, cleaning, contact time and airing"""
    airing: Annotated[Quantity, Measure("duration", "0 min", "2 h", "10 min")] | None = None
    """airing of the room after a station was wiped, before it is set up again"""
    mole_clearance: Annotated[Quantity, Measure("length", "1 mm", "50 mm", "8 mm")]
    """distance kept from a mole or lesion where the job names none"""
    line_gap: Annotated[Quantity, Measure("length", "0.3 mm", "10 mm", "1.2 mm")]
    """smallest gap between two lines that stays open"""
    filled: Annotated[Quantity, Measure("share", "1 %", "100 %", "45 %")]
    """share of a part's box that is shaded or filled, where the job gives no area"""
    highlight: Annotated[Quantity, Measure("share", "0.1 %", "20 %", "2 %")]
    """share of a part's box that white highlights take, where the job gives no area"""
    lining_row: Annotated[Quantity, Measure("length", "10 mm", "300 mm", "40 mm")]
    """how deep a strip the hand lines without resting farther up"""
    spacing: Annotated[Quantity, Measure("needle length", "0.01 mm", "1 mm", "0.03–0.15 mm", span=True)]
    """spacing of punctures along a line that the studio aims at"""
    strong_chroma: Annotated[float, Number(10, 150, Example("45"))]
    """CIELAB chroma from which an ink counts as a strong colour"""
    strong_colours: Annotated[int, Count(1, 12)]
    """strong colours that carry a piece; more is a note"""
    lot_cases: Annotated[int, Count(1, 12)]
    """complaints on one lot of ink at which it is taken off the shelf"""
    screening_valid: Annotated[Quantity, Measure("days", "0 days", "365 days", "30 days")]
    """how long answers to the screening questions count before they are asked again"""
    same_skin_again: Annotated[Quantity, Measure("days", "7 days", "365 days", "4 weeks")]
    """time before the same skin is worked again"""
    touch_up: Annotated[Quantity, Measure("days", "7 days", "365 days", "6–8 weeks", span=True)]
    """time to the touch-up"""
    touch_up_slow: Annotated[Quantity, Measure("days", "7 days", "365 days", "8–12 weeks", span=True)]
    """time to the touch-up on scars or after heavy colour"""
    heavy_colour: Annotated[Quantity, Measure("area", "1 cm²", "2000 cm²", "25 cm²")]
    """packed colour, in all, from which a piece counts as heavy colour"""
    ink_rate: Annotated[Quantity, Measure("ink rate", "0.001 mL/cm²", "1 mL/cm²", "0.03–0.06 mL/cm²", span=True)]
    """ink poured for each area worked, loss in cap and wipes included"""
    line_ink_width: Annotated[Quantity, Measure("needle length", "0.1 mm", "10 mm", "2 mm")]
    """width of the strip that a line counts as when its ink is calculated by area"""
    cap: Annotated[Quantity, Measure("volume", "0.1 mL", "20 mL", "1 mL")]
    """what one ink cap holds when filled as the studio fills it"""
    hang_out_step: Annotated[Quantity, Measure("needle length", "0.1 mm", "1 mm", "0.5 mm")]
    """steps in which a hang-out is set"""
    cartridge: CartridgeLimit | None = None
    """for how little work no cartridge is opened; without it each row has its own needle"""
    apprentice_pieces: Annotated[str, Choice(("never", "ask", "supervised"), clears=("supervised",))]
    """whether an apprentice may work on a client's piece"""

    plan_ahead: Annotated[Quantity, Measure("days", "1 weeks", "52 weeks", "6 weeks")]
    """how far ahead the page of what to order looks"""
    learned_from: Annotated[int, Count(3, 60)]
    """how many of an artist's latest finished jobs with a technique a learned factor rests on at most"""
    healed_from: Annotated[int, Count(2, 1000)]
    """how many parts have to be looked at healed before the handbook says a share of them"""
    f0_reference: Annotated[Quantity, Measure("temperature", "100 °C", "150 °C", "121.1 °C")]
    """reference temperature of F0; published ones differ, so it is printed with every result"""
    f0_z: Annotated[Quantity, Measure("temperature difference", "5 K", "20 K", "10 °C")]
    """z for F0: the rise in temperature that does the same in a tenth of the time"""
    words_a_minute: Annotated[int, Count(50, 400)]
    """words of a procedure that are read in a minute, with care"""
    calibration_age: ValueId
    """the value that says for how long the measured points of a dial in volts count"""
    mix_stronger: Annotated[Quantity, Measure("share", "0.1 %", "50 %", "5 %")]
    """how much stronger than asked a mix of disinfectant may come out, because a measure shows steps"""
    retention: Annotated[Quantity, Measure("months", "1 years", "100 years", "3 years")]
    """whole years that a finished job's record is kept at least; local codes may ask for more"""
    retention_source: Source = Field(description="where the retention comes from")

    @property
    def retention_years(self) -> int:
        return int(self.retention.low) // 12

    @between_keys
    def kept_for_whole_years(self) -> None:
        if self.retention.low % 12:
            raise problem(
                "Q208",
                self.retention,
                expected="whole years",
                help_="write the next full year, such as `3 years`",
                says="records are kept for whole years",
            )
