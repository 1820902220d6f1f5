"""Loop length, centre distance and pitch diameter against printed worked examples and tables, and mpmath's root finder.

Sources: Analysis and Design of Machine Elements (2019), p. 162 and eq. 7.28, 7.29; Design of Machine Elements, ch. 14
examples 14.3 to 14.6; Mechanical Engineering Design (9th ed.), problem 17-26; Machine Design, example 30-3; a gear
maker's table of pitch diameters for 1 in pitch.  Each printed value was recomputed before it was taken here.
"""

import mpmath  # type: ignore[import-untyped]
import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute.geometry.axle import Drive, Room, axle_move
from generator.compute.geometry.loop import (
    centre_by_formula,
    centre_exact,
    length_exact,
    pitch_diameter,
)
from generator.model.quantity import Quantity

# front, rear, centre, pitch, printed pitches, how close it is printed
PRINTED_LENGTHS = [
    pytest.param(21, 63, 500, 12.7, 121.875097, 1e-6, id="Design of Machine Elements 14.3"),
    pytest.param(17, 34, 762.0, 19.05, 105.683011, 1e-6, id="Design of Machine Elements 14.4"),
    pytest.param(21, 81, 40 * 25.4, 25.4, 133.3, 0.05, id="Analysis and Design of Machine Elements p. 162"),
    pytest.param(21, 84, 20, 0.5, 135, 0.5, id="Mechanical Engineering Design 17-26"),
    pytest.param(21, 42, 50 * 9.52, 9.52, 131.7234, 1e-4, id="Machine Design 30-3"),
]
PRINTED_CENTRES = [
    pytest.param(122, 12.7, 21, 63, 500.804717, 1e-5, id="Design of Machine Elements 14.3"),
    pytest.param(106, 19.05, 17, 34, 765.026212, 1e-5, id="Design of Machine Elements 14.4"),
    pytest.param(134, 25.4, 21, 81, 1025.4, 0.05, id="Analysis and Design of Machine Elements p. 162"),
]
# teeth: mm for 25.4 mm pitch, a gear maker's reference table
PITCH_DIAMETERS = {
    8: 66.37, 10: 82.2, 12: 98.14, 14: 114.15, 16: 130.2, 19: 154.32,
    40: 323.74, 44: 356.05, 46: 372.2, 49: 396.44, 51: 412.6, 60: 485.33,
}  # fmt: skip
# Design of Machine Elements, examples 14.4 and 14.6
WORKED_DIAMETERS = {17: 103.673741, 34: 206.462975, 21: 127.816092, 80: 485.228971}
# motorcycle drives: teeth, pitch, pitches
DRIVES = st.tuples(
    st.integers(11, 17), st.integers(30, 56), st.sampled_from([12.7, 15.875, 19.05]), st.integers(48, 65)
)


@pytest.mark.parametrize(("front", "rear", "centre", "pitch", "printed", "within"), PRINTED_LENGTHS)
def test_centre_distance_from_a_printed_number_of_pitches(
    front: int, rear: int, centre: float, pitch: float, printed: float, within: float
) -> None:
    """The product reckons the other way, in which a pitch of chain is half a pitch of distance."""
    assert centre_by_formula(printed, pitch, front, rear) == pytest.approx(centre, abs=within * pitch)


@pytest.mark.parametrize(("pitches", "pitch", "front", "rear", "printed", "within"), PRINTED_CENTRES)
def test_centre_distance_as_printed(
    pitches: int, pitch: float, front: int, rear: int, printed: float, within: float
) -> None:
    assert centre_by_formula(pitches, pitch, front, rear) == pytest.approx(printed, abs=within)


def test_pitch_diameters_as_tabled() -> None:
    for teeth, printed in PITCH_DIAMETERS.items():
        assert pitch_diameter(25.4, teeth) == pytest.approx(printed, abs=0.01)
    for teeth, printed in WORKED_DIAMETERS.items():
        assert pitch_diameter(19.05, teeth) == pytest.approx(printed, abs=1e-5)


def by_mpmath(pitches: float, pitch: float, front: int, rear: int) -> float:
    """The tangent path written another way, in 40 digits: half angles from the tangent's length, root by secant."""
    mpmath.mp.dps = 40
    p = mpmath.mpf(pitch)
    small, large = (p / (2 * mpmath.sin(mpmath.pi / teeth)) for teeth in (front, rear))

    def over(centre: "mpmath.mpf") -> "mpmath.mpf":
        straight = mpmath.sqrt(centre**2 - (large - small) ** 2)
        lean = mpmath.atan2(large - small, straight)
        return 2 * straight / p + mpmath.mpf(front + rear) / 2 + (rear - front) * lean / mpmath.pi - pitches

    start = (pitches - (front + rear) / 2) / 2 * pitch
    return float(mpmath.findroot(over, (start, start * 0.99)))


@given(DRIVES)
def test_exact_centre_distance_is_the_root_that_a_general_library_finds(
    drive: tuple[int, int, float, int],
) -> None:
    front, rear, pitch, half = drive
    assert centre_exact(2 * half, pitch, front, rear) == pytest.approx(
        by_mpmath(2 * half, pitch, front, rear), abs=1e-7
    )


@given(DRIVES)
def test_length_and_centre_distance_are_each_others_inverse(drive: tuple[int, int, float, int]) -> None:
    front, rear, pitch, half = drive
    exact = centre_exact(2 * half, pitch, front, rear)
    assert length_exact(exact, pitch, front, rear) == pytest.approx(2 * half, abs=1e-9)
    # the formula takes the arc of a circle for its chords: a published comparison has it half a pitch off at most
    formula = centre_by_formula(2 * half, pitch, front, rear)
    assert abs(length_exact(formula, pitch, front, rear) - 2 * half) < 0.5


def room(forward: Quantity | None, back: Quantity | None, tyre: Quantity | None) -> Room:
    """The tyre keeps 3 mm (common practice, no source)."""
    return Room(forward, back, tyre, mm(3).nominal)


def mm(low: float, high: float | None = None) -> Quantity:
    ends = [round(value * 1_000_000) for value in (low, low if high is None else high)]
    return Quantity(ends[0], ends[0], ends[1])


def test_two_pitches_shorter_draw_the_axle_about_one_pitch_forward() -> None:
    """Arithmetic of the trade: about 16 mm on 5/8 in chain, 13 mm on 1/2 in."""
    for pitch, usual in ((15_875_000, 16.0), (12_700_000, 12.8)):
        move = axle_move(Drive(114, 13, 50, pitch, (0.0, 0.0)), -2, room(mm(22), None, mm(25)))
        assert move.low / 1e6 == pytest.approx(usual, abs=0.3)
        assert move.fits is True
        worn = axle_move(Drive(114, 13, 50, pitch, (0.0, 0.03)), -2, room(mm(22), None, mm(25)))
        assert worn.high == pytest.approx(move.high * 1.03, abs=2)


@pytest.mark.parametrize(
    ("room", "change", "fits", "short_of"),
    [
        (room(mm(16.5), None, mm(20)), -2, True, None),
        (room(mm(15.5), None, mm(20)), -2, False, "adjuster_forward"),
        (room(mm(15.5, 16.9), None, mm(20)), -2, None, "adjuster_forward"),
        (room(mm(22), None, mm(18)), -2, False, "tyre_clearance"),
        (room(mm(22), None, None), -2, None, "tyre_clearance"),
        (room(None, None, mm(18)), -2, False, "tyre_clearance"),
        (room(mm(22), None, mm(40)), -4, False, "adjuster_forward"),
        (room(None, mm(17), None), 2, True, None),
        (room(None, mm(15), None), 2, False, "adjuster_back"),
        (room(None, None, None), 2, None, "adjuster_back"),
    ],
)
def test_the_room_decides(room: Room, change: int, fits: bool | None, short_of: str | None) -> None:
    move = axle_move(Drive(114, 13, 50, 15_875_000, (0.0, 0.0)), change, room)
    assert (move.fits, move.short_of) == (fits, short_of)
