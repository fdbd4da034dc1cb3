import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.trade.labels import (
    CONFIGURATIONS,
    DISPUTED_WIRE,
    ROUNDS,
    WIRE_DIAMETERS,
    Label,
    known_configuration,
    read_label,
    wire_diameter,
)
from generator.trade.needles import LARGEST_ROUND, grouping_width
from generator.trade.refusal import Refusal

SEPARATORS = st.sampled_from(["", " ", "-", "  ", " - ", "\u2011"])


@pytest.mark.parametrize(
    ("written", "canonical"),
    [
        ("1207RL", "1207RL"),
        ("12-07 RL", "1207RL"),
        ("0803rl", "0803RL"),
        ("1215CM", "1215CM"),
        (" #12 7 rl ", "1207RL"),
        ("10-15-m1", "1015M1"),
        ("1209 RM", "1209RM"),
        ("12 6f", "1206F"),
        ("1414 M2", "1414M2"),
        ("12\u201307RL", "1207RL"),
    ],
)
def test_forms_on_boxes(written: str, canonical: str) -> None:
    assert read_label(written).written == canonical


def test_everything_the_label_says() -> None:
    assert read_label("12-07 RL") == Label("12", 0.35, 7, "RL", "1207RL")


@given(
    st.sampled_from(sorted(WIRE_DIAMETERS)),
    SEPARATORS,
    st.integers(3, LARGEST_ROUND),
    SEPARATORS,
    st.sampled_from(sorted(CONFIGURATIONS)),
    st.booleans(),
)
def test_reading_what_was_written_gives_it_back(
    code: str, first: str, count: int, second: str, configuration: str, lower: bool
) -> None:
    written = f"{code}{first}{count:02d}{second}{configuration}"
    label = read_label(written.lower() if lower else written)
    assert (label.code, label.count, label.configuration) == (code, count, configuration)
    assert label.needle_diameter == wire_diameter(code)
    assert read_label(label.written) == label


@given(st.sampled_from(sorted(CONFIGURATIONS)), st.integers(1, 99))
def test_every_label_that_reads_has_a_width(configuration: str, count: int) -> None:
    try:
        label = read_label(f"12{count:02d}{configuration}")
    except Refusal as refusal:
        if refusal.argument != "count":
            raise
        return
    spread = None if configuration in ROUNDS else 1.0
    assert grouping_width(label.configuration, label.count, label.needle_diameter, spread) > 0


@given(st.text(max_size=12))
def test_any_text_reads_or_is_refused_with_a_remedy(text: str) -> None:
    try:
        label = read_label(text)
    except Refusal as refusal:
        remedy = refusal.remedy
    else:
        remedy = f"write {label.written}"
        assert read_label(label.written) == label
    assert remedy


@pytest.mark.parametrize("written", ["7RL", "07 RL", "15-M1"])
def test_a_label_without_wire_code_is_refused(written: str) -> None:
    with pytest.raises(Refusal, match=r"^written: .*the wire code before the count") as refused:
        read_label(written)
    assert "1207RL" in refused.value.remedy


@pytest.mark.parametrize(
    "written",
    ["", "RL", "1207", "RL1207", "127RL", "12200RL", "1207 RL long taper", "12.07RL", "12/07RL", "١٢٠٧RL", "12 -7.5RL"],
)
def test_other_text_is_refused(written: str) -> None:
    with pytest.raises(Refusal, match=r"^written: .*wire code, count, configuration"):
        read_label(written)


@pytest.mark.parametrize(
    "written", ["1200RL", "1221RL", "1299RS", "12 0 M1", "1202M1", "1202M2", "1202CM", "1202RM", "1201F"]
)
def test_a_count_that_cannot_stand_is_refused(written: str) -> None:
    with pytest.raises(Refusal, match=r"^count: "):
        read_label(written)


def test_an_even_weaved_magnum_is_read() -> None:
    assert read_label("1214M1").count == 14


@pytest.mark.parametrize("code", [*DISPUTED_WIRE, "16", "00", "12 "])
def test_wire_without_agreed_diameter_is_refused(code: str) -> None:
    with pytest.raises(Refusal, match=r"^code: ") as refused:
        wire_diameter(code)
    assert "from the box" in refused.value.remedy


def test_a_disputed_wire_is_refused_in_a_label() -> None:
    with pytest.raises(Refusal, match=r"^code: "):
        read_label("0603RL")


def test_an_unknown_configuration_names_the_nearest() -> None:
    with pytest.raises(Refusal, match=r"^configuration: ") as refused:
        read_label("1215M3")
    assert refused.value.remedy == "did you mean M1 or M2?"
    with pytest.raises(Refusal, match=r"^configuration: ") as refused:
        known_configuration("XYZ")
    assert "round liner" in refused.value.remedy
