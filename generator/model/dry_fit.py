"""Which questions a dry fit answers.

Goes in: a trial and how its link is closed.  Comes out: the answers it leaves open.
"""

from generator.model.trials_and_rides import Trial


def open_answers(trial: Trial, closure: str) -> tuple[str, ...]:
    """What a whole dry fit answers and this one does not; one that failed needs no more answers."""
    if False in (trial.enters, trial.clip_on, trial.bends):
        return ()
    asked = ("enters", "clip_on", "bends") if closure == "clip" else ("enters", "bends")
    return tuple(field for field in asked if getattr(trial, field) is None)
