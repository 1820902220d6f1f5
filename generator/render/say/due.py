"""What is due, in words."""

from generator.compute.wear.due import REPLACE, Due
from generator.model.dataset import Dataset
from generator.render.say.days import day_in_words

_WHY = {
    "never-done": "Never written down.",
    "months": "",
    "hours": "By the hours its log grows by.",
    "worn": "Worn out: start no ride with it.",
    "forecast": "The soonest day on which its chain may reach the limit: measure it, and have a new set ready.",
    "ride": "Every rider, before the start.",
}


def due_title(dataset: Dataset, due: Due) -> str:
    """`Measure wear: leader's trail bike`."""
    if due.ride:
        ride = dataset.rides[due.ride]
        return f"Before {ride.name or due.ride}: {dataset.shelf.care.tasks[due.task].title}"
    return f"{task_title(dataset, due)}: {dataset.bikes[due.bike].label}"


def task_title(dataset: Dataset, due: Due) -> str:
    if due.task == REPLACE:
        return "Replace chain and sprockets" if due.why == "worn" else "Chain may be at its limit"
    return dataset.shelf.care.tasks[due.task].title


def due_says(dataset: Dataset, due: Due) -> str:
    """With what to do, for a calendar, where nothing stands around it."""
    task = dataset.shelf.care.tasks.get(due.task)
    parts = [due_why(dataset, due)]
    if due.on < dataset.as_of and due.why != "forecast":
        parts.append(f"Late: it was due on {day_in_words(due.on)}.")
    return " ".join([*parts, task.do] if task else parts)


def due_why(dataset: Dataset, due: Due) -> str:
    """Why then, when it was done last, and the rides after which it is due as well."""
    parts = [_WHY[due.why]]
    if due.ride:
        parts.append(f"Bikes: {', '.join(dataset.rides[due.ride].bikes)}.")
    if due.last:
        parts.append(f"Last done {day_in_words(due.last)}.")
    if due.rides:
        parts.append(f"{_usual_rides(due.rides)} from then, if that is sooner.")
    return " ".join(part for part in parts if part)


def _usual_rides(count: int) -> str:
    return "Or 1 usual ride" if count == 1 else f"Or {count} usual rides"
