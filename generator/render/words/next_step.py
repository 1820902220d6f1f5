"""What to do at the bench so that an open verdict closes.

Goes in: a dataset and a fit.  Comes out: one sentence, and the reading it is about.
"""

from collections.abc import Mapping

from generator.compute.fit.result import PairFit, Reading
from generator.model.dataset import Dataset
from generator.render.lengths import shown_length
from generator.render.words.names import reading_name
from generator.render.words.said import Said

# where no reading but a look, a question or a try settles the deciding check
_LOOK: Mapping[str, str] = {
    "rule-of-thumb": "Measure chain and link: width over the bush ends and bore of the bush, pin diameter and pin reach first.",
    "clip-history": "Ask whether the clip has ever been off its link, and write it down; if nobody knows, take a new clip.",
    "seal-kind": "Look at the section of the seals, round or four-lobed, on chain and link, and write it down.",
    "joint-kind": "Look at how the chain itself is joined, pressed, riveted or sliding, and write it down.",
    "chain-worn": "Measure how far the chain is worn: the length over an even number of pitches, pulled taut.",
}


def next_reading(fit: PairFit) -> Reading | None:
    return fit.measure_next.reading if fit.measure_next else None


def next_step(dataset: Dataset, fit: PairFit) -> Said:
    """Empty where all is decided."""
    if fit.refused is not None:
        return (_refused_step(fit.refused),)
    if fit.best == fit.worst or fit.option is None:
        return ()
    found = fit.measure_next
    if found is None:
        return (_LOOK.get(fit.option.deciding, "Dry-fit it at home and write down what you saw."),)
    name = reading_name(dataset, found.reading)
    if found.to_within is None:
        return (f"Start with {name}. One reading alone does not settle it; a dry fit at home may.",)
    return (f"Measure {name} to within ± ", shown_length(found.to_within), ", or dry-fit it at home.")


def _refused_step(reason: str) -> str:
    if "modified" in reason:
        return "Readings do not help with a modified part: let someone who knows chains look at it, or leave it out."
    if "contradict" in reason:
        return "Measure again and try again: one of the two was written down wrongly."
    return "Find it out, write it into the club's file, and the verdict follows."
