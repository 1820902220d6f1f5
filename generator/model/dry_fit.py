"""Which questions a dry fit answers."""

from generator.model.trials_and_rides import Trial

GAPS = ("joint_gap_clip_side", "joint_gap_other_side", "neighbour_gap_clip_side", "neighbour_gap_other_side")
WIDTHS = ("width_at_joint", "width_at_neighbour")


def open_answers(trial: Trial, closure: str, plate_fit: str) -> tuple[str, ...]:
    """What a whole dry fit answers and this one does not; one that failed needs no more answers.

    A pressed plate must have been pressed home, and somebody must have looked how far."""
    if False in (trial.enters, trial.clip_on, trial.bends):
        return ()
    asked = ("enters", "clip_on", "bends") if closure == "clip" else ("enters", "bends")
    left = [field for field in asked if getattr(trial, field) is None]
    if plate_fit != "slip" and trial.plate_on != "pressed":
        left.append("plate_on")
    if plate_fit == "press" and not seen_where(trial):
        left.append("plates_level")
    return tuple(left)


def seen_where(trial: Trial) -> bool:
    """Did anybody look where the plate lies beside its neighbours?"""
    return trial.plates_level is not None or any(
        all(getattr(trial, field) is not None for field in fields) for fields in (WIDTHS, GAPS)
    )
