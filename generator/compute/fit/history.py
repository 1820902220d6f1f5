"""What has happened to the parts of a joint: clips that were off, plates that were pressed, what the manual asks for."""

from collections.abc import Iterator

from generator.model.chain_parts import Chain, Clip, Link
from generator.model.dataset import Dataset, Part, Shelf, TrialFacts
from generator.rules.rooms import bikes_with

# of bikes that ask for different joints the gravest counts
MANUAL = ("agrees", "allowed", "unknown", "differs")


def clip_of(dataset: Dataset, trial: TrialFacts) -> str | None:
    """Without a clip named it was the link's own."""
    return trial.record.clip or dataset.links[trial.record.link].record.clip


def clip_history(dataset: Dataset, clip: Part[Clip], link: Part[Link] | None) -> str:
    """A clip that never was off its link has to come off it for any other, and to open a joint that runs; None is any
    other link.  Each dry fit uses up one clip of the record, and so does each joint that runs."""
    history, its_own = clip.record.history, link is not None and link.record.clip == clip.id
    if history not in ("new", "never-off"):
        return history
    if history == "never-off" and not its_own:
        return "taken-off"
    if clip.record.for_trials or clip.record.count > clips_used(dataset, clip.id):
        return history
    return "taken-off" if history == "never-off" else "off-once"


def clips_used(dataset: Dataset, clip: str) -> int:
    """Dry fits it went on in, and chains that run with it; a dry fit that was left to run is one of those."""
    tried = {
        trial.id: trial.record.chain
        for trial in dataset.trials.values()
        if trial.record.clip_on and clip_of(dataset, trial) == clip
    }
    running = set(_chains_with(dataset, clip))
    left = {t for t, chain in tried.items() if dataset.trials[t].record.left_in_use and chain in running}
    return len(tried) - len(left) + len(running)


def _chains_with(dataset: Dataset, clip: str) -> Iterator[str]:
    for chain in dataset.chains.values():
        own = dataset.links.get(chain.record.own_link or "")
        if chain.record.in_use and own is not None and (chain.record.own_clip or own.record.clip) == clip:
            yield chain.id


def plate_history(dataset: Dataset, link: Part[Link]) -> str:
    """How often the side plate was pressed on before this joint is made: each dry fit that presses one, and each joint
    that runs, uses up one link of the record."""
    condition = link.record.condition
    if condition == "fitted-twice":
        return "twice"
    pressed = links_used(dataset, link.id)
    if condition == "fitted-once":
        return "twice" if pressed else "once"
    return "never" if link.record.count > pressed else "once"


def links_used(dataset: Dataset, link: str) -> int:
    tried = {
        trial.id: trial.record.chain
        for trial in dataset.trials.values()
        if trial.record.link == link and trial.record.plate_on == "pressed"
    }
    running = {c.id for c in dataset.chains.values() if c.record.in_use and c.record.own_link == link}
    left = {t for t, chain in tried.items() if dataset.trials[t].record.left_in_use and chain in running}
    return len(tried) - len(left) + len(running)


def bow_word(clip: Part[Clip], shelf: Shelf) -> str:
    """One that was never off may have been made bowed; whether it was is a look."""
    bow, most = clip.dims.get("bow"), shelf.allowances["clip-bent"].nm
    if bow is None or bow.high <= most:
        return "flat"
    if clip.record.history in ("new", "never-off") and clip.record.made_bowed is not False:
        return "made-bowed" if clip.record.made_bowed else "perhaps-bent"
    return "bent" if bow.low > most else "perhaps-bent"


def manual_word(dataset: Dataset, chain: Part[Chain], link: Part[Link]) -> str:
    """Does the joint agree with what the manuals of the bikes ask for?  An override counts with its reason."""
    if link.record.closure != "clip":
        return "agrees"
    bikes = bikes_with(dataset, chain.id)
    found = [_of_bike(bike.record.joint_in_manual, bike.record.clip_because) for bike in bikes]
    return max(found, key=MANUAL.index, default="unknown")


def _of_bike(asked: str, because: str | None) -> str:
    if asked in ("rivet", "endless"):
        return "differs" if because is None else "allowed"
    return "agrees" if asked == "clip" else "unknown"
