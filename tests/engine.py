"""What the engine says of every option of every pair, and the same joint as the oracle takes it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

import numpy as np
import yaml

from generator.compute.fit.detail import option_fit
from generator.compute.fit.judge import Judge
from generator.compute.fit.options import bench, restricted
from generator.compute.fit.result import OptionFit
from generator.model.chain_parts import Chain, Clip
from generator.model.dataset import Dataset, Part, TrialFacts
from generator.model.quantity import NM_PER_MM, Quantity
from generator.model.tools_and_bikes import Bike
from generator.model.trials_and_rides import Trial
from tests import oracle
from tests.clubs import DATA
from tests.tried import tried

# field of the record -> symbol of the oracle
FIELDS: dict[str, dict[str, str]] = {
    "chain": {
        "bush_bore": "d3", "over_inner_plates": "b2p", "over_bush_ends": "b2b", "between_outer_plates": "b3",
        "over_riveted_pins": "b4", "plate_thickness": "tc", "plate_height": "h2", "tensile": "Fc",
        "elongation": "el",
    },
    "link": {
        "pin_diameter": "d", "pin_reach": "G", "clip_stop": "C", "pin_length": "L", "groove_width": "gw",
        "groove_diameter": "gd", "side_plate_thickness": "t", "side_plate_height": "h", "shoulder_depth": "M",
        "hollow_depth": "hd", "tensile": "Fl", "fixed_plate_thickness": "f", "head_stand_out": "hs",
    },
    "clip": {
        "thickness": "k", "thickness_new": "k0", "seat_width": "cs", "mouth": "cm", "pin_spacing": "csp", "bow": "bow",
    },
    "seal": {"thickness": "s"},
    "washers": {"thickness": "w"},
}  # fmt: skip


@dataclass(frozen=True)
class Way:
    """One way to join a chain and a link; the seal set is the seals fitted or the washers packed."""

    chain: str
    link: str
    clip: str | None
    seals: str
    seal_set: str | None
    seat: str = "made"
    spacer: str | None = None


@dataclass(frozen=True)
class Told:
    """One option of one pair as the engine sees it."""

    way: Way
    fit: OptionFit


def every_option(
    dataset: Dataset, chains: Sequence[str] | None = None, links: Sequence[str] | None = None
) -> list[Told]:
    """In order of pair and preference."""
    judge = Judge(dataset, restricted(bench(dataset), chains, links))
    found: dict[int, Told] = {}
    for closely in judge.closely(np.arange(len(judge.options))):
        for at, number in enumerate(closely.index.tolist()):
            chain = judge.on.chains[int(judge.options.chain[number])].id
            link = judge.on.links[int(judge.options.link[number])].id
            fit = option_fit(judge, closely, at)
            found[number] = Told(
                Way(chain, link, fit.clip, fit.seals, fit.seal_set, fit.seat, fit.spacer), fit
            )
    return [found[number] for number in sorted(found)]


def interval(quantity: Quantity) -> oracle.Interval:
    """In mm, of a force in kN."""
    low, nominal, high = (Fraction(end, NM_PER_MM) for end in (quantity.low, quantity.nominal, quantity.high))
    return low, nominal, high


@cache
def joint_rules() -> dict[str, dict[str, object]]:
    """The records that ship, as they stand in their file."""
    text = (DATA / "rules" / "joint.yaml").read_text(encoding="utf-8")
    found: dict[str, dict[str, object]] = yaml.load(text, yaml.BaseLoader)
    return found


def dims_of(dataset: Dataset, way: Way) -> dict[str, oracle.Interval]:
    """The known dimensions of one option by the oracle's symbols."""
    chain, link = dataset.chains[way.chain], dataset.links[way.link]
    of_part = [("chain", chain.dims), ("link", link.dims)]
    if way.clip is not None:
        of_part.append(("clip", dataset.clips[way.clip].dims))
    if way.seal_set is not None:
        kind = "washers" if way.seals == "packed" else "seal"
        of_part.append((kind, dataset.seals[way.seal_set].dims))
    dims = {
        FIELDS[kind][field]: interval(q) for kind, known in of_part for field, q in known.items() if field in FIELDS[kind]
    }  # fmt: skip
    dims |= {name: interval(q) for name, q in _pitches(dataset, way)}
    dims |= _clip_stop(dims, dataset, way)
    dims.pop("C", None)
    if way.spacer is not None and "thickness" in dataset.seals[way.spacer].dims:
        dims["ws"] = interval(dataset.seals[way.spacer].dims["thickness"])
    dims.pop("el", None)
    if "elongation" in chain.dims:
        q = chain.dims["elongation"]
        dims["el"] = (
            Fraction(q.low, PPM_OF_PERCENT),
            Fraction(q.nominal, PPM_OF_PERCENT),
            Fraction(q.high, PPM_OF_PERCENT),
        )
    return dims | _bike(dataset, way) | _place(dims, dataset, way)


PPM_OF_PERCENT = 10_000
NOTHING: oracle.Interval = (Fraction(0), Fraction(0), Fraction(0))


def _pitches(dataset: Dataset, way: Way) -> Iterator[tuple[str, Quantity]]:
    """np and npl are what the size codes say, p and pl what counts; nothing of a code that is not known."""
    chain, link = dataset.chains[way.chain], dataset.links[way.link]
    of_chain, of_link = (dataset.shelf.sizes.get(part.record.size_code) for part in (chain, link))
    if of_chain is not None:
        yield "p", of_chain.dims["pitch"]
        yield "np", of_chain.dims["pitch"]
    if of_link is not None:
        yield "npl", of_link.dims["pitch"]
    pins = link.dims.get("pin_spacing", of_link.dims["pitch"] if of_link is not None else None)
    if pins is not None:
        yield "pl", pins


def _clip_stop(dims: oracle.Dims, dataset: Dataset, way: Way) -> dict[str, oracle.Interval]:
    """The clip stop as it gives the hold of this clip and the far edge of the groove: a bowed clip stands off by up to
    its bow, and another one than it was read with shifts it by the difference of thicknesses."""
    link = dataset.links[way.link]
    stop = link.dims.get("clip_stop")
    if stop is None:
        return {}
    found = {"C_read": interval(stop)}
    with_ = dataset.clips.get(link.record.clip_stop_with or link.record.clip or "")
    if with_ is None:
        return found
    clip = oracle.settled({**_of_clip(with_), "p": dims.get("p", NOTHING)}, _clip_words(dataset, with_.id))
    low, middle, high = interval(stop)
    read = (low, middle, high + clip["bw"][2])
    if "ks" in clip:
        found["C_edge"] = tuple(a + b for a, b in zip(read, clip["ks"], strict=True))  # type: ignore[assignment]
    if way.clip == with_.id:
        found["C_hold"] = read
    elif way.clip is not None and "ks" in clip:
        other = oracle.settled(
            {**_of_clip(dataset.clips[way.clip]), "p": dims.get("p", NOTHING)}, _clip_words(dataset, way.clip)
        )
        if "ks" in other:
            (bl, bm, bh), (al, am, ah) = clip["ks"], other["ks"]
            found["C_hold"] = (read[0] + bl - ah, read[1] + bm - am, read[2] + bh - al)
    return found


def _of_clip(clip: Part[Clip]) -> dict[str, oracle.Interval]:
    return {FIELDS["clip"][field]: interval(q) for field, q in clip.dims.items() if field in FIELDS["clip"]}


def _clip_words(dataset: Dataset, clip: str) -> dict[str, str]:
    history = dataset.clips[clip].record.history
    return {"clip_history": history, "own_joint": "rivet", "plate_fit": "press", "kind": "plain"}


def _bike(dataset: Dataset, way: Way) -> dict[str, oracle.Interval]:
    """The least room read on the bikes that run the chain, and the link they run with."""
    dims = {}
    for side, name in (("clearance_clip_side", "C"), ("clearance_other_side", "Co")):
        rooms = [interval(room) for room in _rooms(dataset, way, side) if room is not None]
        if rooms:
            dims[name] = (min(r[0] for r in rooms), min(r[1] for r in rooms), min(r[2] for r in rooms))
    chain = dataset.chains[way.chain].record
    own = dataset.links.get(chain.own_link or "")
    if own is None or chain.in_use is False:
        return dims
    for field, name in (("pin_length", "oL"), ("head_stand_out", "ohs"), ("fixed_plate_thickness", "of")):
        if field in own.dims:
            dims[name] = interval(own.dims[field])
    if "of" not in dims and "side_plate_thickness" in own.dims:
        low, middle, high = interval(own.dims["side_plate_thickness"])
        dims["of"] = (max(low - oracle.LIKE_SIDE, Fraction(0)), middle, high + oracle.LIKE_SIDE)
    return dims


def _rooms(dataset: Dataset, way: Way, side: str = "clearance_clip_side") -> list[Quantity | None]:
    """By bike that runs the chain."""
    return [bike.dims.get(side) for bike in dataset.bikes.values() if bike.record.chain == way.chain]


def _place(dims: oracle.Dims, dataset: Dataset, way: Way) -> dict[str, oracle.Interval]:
    """Where the newest dry fit that pressed the plate saw it, mm outside its neighbours."""
    trial = _pressing(dataset, way)
    if trial is None:
        return {}
    found = []
    get = {name: interval(q) for name, q in trial.dims.items()}
    if "width_at_joint" in get and "width_at_neighbour" in get:
        more = _more_plate(dims, dataset, way)
        if more is not None:
            found.append(_minus(_minus(get["width_at_joint"], get["width_at_neighbour"]), more))
    gaps = (
        "joint_gap_clip_side",
        "joint_gap_other_side",
        "neighbour_gap_clip_side",
        "neighbour_gap_other_side",
    )
    if all(gap in get for gap in gaps):
        one, two, three, four = (get[gap] for gap in gaps)
        found.append(_minus(_minus(_plus(one, two), three), four))
    if trial.record.plates_level:
        found.append((Fraction("-0.10"), Fraction(0), Fraction("0.15")))
    looked = "width_at_joint" in get and "width_at_neighbour" in get
    if not found and (trial.record.plates_level is False or looked):
        return {"place": (-oracle.NO_END, Fraction(0), oracle.NO_END)}
    return {"place": oracle._met(found)} if found else {}


def _more_plate(dims: oracle.Dims, dataset: Dataset, way: Way) -> oracle.Interval | None:
    """Side and fixed plate less two outer plates; of one box they are alike."""
    alike = (Fraction("-0.1"), Fraction(0), Fraction("0.1"))
    read = None
    if "t" in dims and "tc" in dims:
        t, tc = dims["t"], dims["tc"]
        f = dims.get("f", (max(t[0] - oracle.LIKE_SIDE, Fraction(0)), t[1], t[2] + oracle.LIKE_SIDE))
        read = _minus(_minus(_plus(t, f), tc), tc)
    if not _by_make(dataset, way):
        return read
    if read is None:
        return alike
    low, high = max(read[0], alike[0]), min(read[2], alike[2])
    return read if low > high else oracle._met([read, alike])


def _plus(a: oracle.Interval, b: oracle.Interval) -> oracle.Interval:
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def _minus(a: oracle.Interval, b: oracle.Interval) -> oracle.Interval:
    return (a[0] - b[2], a[1] - b[1], a[2] - b[0])


def _pressing(dataset: Dataset, way: Way) -> TrialFacts | None:
    if dataset.links[way.link].record.plate_fit != "press" or way.seat != "neighbours":
        return None
    found = [
        t for t in dataset.trials.values()
        if (t.record.chain, t.record.link, t.record.plate_on) == (way.chain, way.link, "pressed")
        and t.record.seals in (way.seals, "unknown")
    ]  # fmt: skip
    return max(found, key=lambda t: (t.record.on, t.id), default=None)


def _by_make(dataset: Dataset, way: Way) -> bool:
    chain, link = dataset.chains[way.chain].record, dataset.links[way.link].record
    alike = (
        chain.letters is not None
        and link.letters is not None
        and chain.letters.split() == link.letters.split()
    )
    together = link.came_with == way.chain or (alike and chain.size_code == link.size_code)
    return together and link.condition in ("new", "fitted-once", "fitted-twice")


# the limit of elongation by kind of chain, per cent (an owners' forum)
WEAR_LIMIT = {"sealed": Fraction("1.0"), "plain": Fraction("2.0")}
# what was seen, better first
TRIED = (
    "not-tried", "tried-in-part", "perhaps-not", "stiff-with-seals", "went-together", "stiff", "thrown", "plate-moves",
    "did-not-go",
)  # fmt: skip


def words_of(dataset: Dataset, way: Way) -> dict[str, str]:
    """The words of one option as the oracle takes them."""
    chain, link = dataset.chains[way.chain].record, dataset.links[way.link].record
    place = "place" in dims_of(dataset, way)
    words = {
        "kind": chain.kind,
        "own_joint": chain.own_joint,
        "chain_seal": chain.seal,
        "chain_size": chain.size_code,
        "chain_state": chain.state,
        "runs_with": "yes" if chain.own_link == way.link and chain.in_use is not False else "no",
        "own_make": "yes" if _own_make(dataset, chain, way) else "no",
        "runs_with_now": "yes" if chain.own_link == way.link and chain.in_use else "no",
        "unread_room": "yes" if None in (_rooms(dataset, way) or [None]) else "no",
        "unread_other": "yes" if None in (_rooms(dataset, way, "clearance_other_side") or [None]) else "no",
        "rubs": "clear"
        if chain.own_joint in ("rivet", "endless")
        else _answered(chain.rub_marks, "rubbed", "clear"),
        "wear_limit": str(WEAR_LIMIT.get(chain.kind, 1)),
        "manual": _manual(dataset, way),
        "tried": tried(dataset, way),
        "link_size": link.size_code,
        "half_link": _answered(link.half_link, "yes", "no", "unknown"),
        "flared": _answered(link.flared, "yes", "no", "unknown"),
        "plate_history": _plate_history(dataset, way),
        "heights_seen": _heights(dataset, way),
        "by_make": "yes" if _by_make(dataset, way) else "no",
        "seat": "tried" if place else way.seat,
        "spacers": "no" if way.spacer is None else "yes",
        "level": _level(dataset, way),
        "play": _play(dataset, way),
        "d3_is_old": _old_bore(dataset, way),
    }
    words |= {name: getattr(link, name) for name in ("closure", "plate_fit", "made_for", "pin_kind")}
    words["condition"] = _condition(dataset, way)
    own = dataset.links.get(chain.own_link or "")
    if own is not None:
        given = own.record.seals not in (None, "none", "unknown")
        between = {"unknown": "fitted" if given else "unknown", "left-out": "bare", "none": "bare"}
        words["own_between"] = between.get(
            chain.own_seals, "fitted" if chain.own_seals == "fitted" else "unknown"
        )
    return words | _of_the_clip(dataset, way) | _of_the_seals(dataset, way)


def _own_make(dataset: Dataset, chain: Chain, way: Way) -> bool:
    """Does the chain run with a link out of its own box, or of its own letters, closed as this one is?"""
    own, link = dataset.links.get(chain.own_link or ""), dataset.links[way.link].record
    if own is None or chain.in_use is False:
        return False
    known = own.record
    box = known.came_with == way.chain
    typed = (
        chain.letters is not None
        and known.letters is not None
        and chain.letters.split() == known.letters.split()
    )
    made = known.condition in ("new", "fitted-once", "fitted-twice") and (
        box or (typed and known.size_code == chain.size_code)
    )
    return made and (known.closure, known.plate_fit, known.made_for) == (
        link.closure,
        link.plate_fit,
        link.made_for,
    )


def _answered(answer: bool | None, yes: str, no: str, unknown: str = "not-looked") -> str:
    return unknown if answer is None else yes if answer else no


def _of_the_clip(dataset: Dataset, way: Way) -> dict[str, str]:
    link = dataset.links[way.link].record
    if link.closure != "clip":
        return {"own_clip": "yes"}
    own = link.clip if link.clip not in (None, "unknown", "none") else None
    words = {"own_clip": "yes" if way.clip == own and link.clip != "none" else "no"}
    if way.clip is None:
        words["packet"] = "yes" if link.condition == "new" and own is None and link.clip != "none" else "no"
        return words
    clip = dataset.clips[way.clip]
    thin, was = clip.dims.get("thickness"), clip.dims.get("thickness_new")
    worn = thin is not None and was is not None and thin.high < was.low
    new = clip.record.history in ("new", "never-off") and not worn
    words["packet"] = "yes" if way.clip == own and new and link.condition == "new" else "no"
    words["clip_recorded"] = clip.record.history
    words["clip_history"] = _clip_history(dataset, way.clip, clip.record, way.clip == own)
    words["bow"] = _bow(clip)
    return words


def _clip_history(dataset: Dataset, id_: str, clip: Clip, own: bool) -> str:
    """For any link but its own a clip that was never off has to come off first; dry fits and joints that run use up one
    each."""
    if clip.history not in ("new", "never-off"):
        return clip.history
    if clip.history == "never-off" and not own:
        return "taken-off"
    runs = [c for c, chain in dataset.chains.items() if _clip_that_runs(dataset, chain.record) == id_]
    trials = [
        t.record for t in dataset.trials.values() if t.record.clip_on and _trial_clip(dataset, t) == id_
    ]
    used = len(runs) + sum(not (t.left_in_use and t.chain in runs) for t in trials)
    if clip.for_trials or clip.count > used:
        return clip.history
    return "taken-off" if clip.history == "never-off" else "off-once"


def _clip_that_runs(dataset: Dataset, chain: Chain) -> str | None:
    own = dataset.links.get(chain.own_link or "")
    return (chain.own_clip or own.record.clip) if chain.in_use and own is not None else None


def _trial_clip(dataset: Dataset, trial: TrialFacts) -> str | None:
    return trial.record.clip or dataset.links[trial.record.link].record.clip


def _bow(clip: Part[Clip]) -> str:
    most = Fraction("0.30")
    low, _, high = interval(clip.dims["bow"]) if "bow" in clip.dims else (Fraction(0),) * 3
    if high <= most:
        return "flat"
    if clip.record.history in ("new", "never-off") and clip.record.made_bowed is not False:
        return "made-bowed" if clip.record.made_bowed else "perhaps-bent"
    return "bent" if low > most else "perhaps-bent"


def _of_the_seals(dataset: Dataset, way: Way) -> dict[str, str]:
    link = dataset.links[way.link].record
    own = link.seals if link.seals not in (None, "unknown", "none") else None
    words = {"own_seals": "yes" if way.seals != "fitted" or way.seal_set == own else "no"}
    if way.seals == "fitted" and way.seal_set is not None:
        seal = dataset.seals[way.seal_set]
        words |= {"seal_shape": seal.record.shape, "covers_bush": seal.record.covers_bush}
        words["seal_evidence"] = seal.dims["thickness"].evidence if "thickness" in seal.dims else "unknown"
    return words


def _manual(dataset: Dataset, way: Way) -> str:
    if dataset.links[way.link].record.closure != "clip":
        return "agrees"
    found = ["agrees"] if _bikes(dataset, way) else ["unknown"]
    for bike in _bikes(dataset, way):
        if bike.joint_in_manual in ("rivet", "endless"):
            found.append("differs" if bike.clip_because is None else "allowed")
        elif bike.joint_in_manual == "unknown":
            found.append("unknown")
    return next(word for word in ("differs", "unknown", "allowed", "agrees") if word in found)


def _bikes(dataset: Dataset, way: Way) -> list[Bike]:
    return [bike.record for bike in dataset.bikes.values() if bike.record.chain == way.chain]


def _plate_history(dataset: Dataset, way: Way) -> str:
    link = dataset.links[way.link].record
    if link.condition == "fitted-twice":
        return "twice"
    runs = [
        c for c, chain in dataset.chains.items() if chain.record.in_use and chain.record.own_link == way.link
    ]
    pressed = [
        t.record
        for t in dataset.trials.values()
        if (t.record.link, t.record.plate_on) == (way.link, "pressed")
    ]
    used = len(runs) + sum(not (t.left_in_use and t.chain in runs) for t in pressed)
    if link.condition == "fitted-once":
        return "twice" if used else "once"
    return "never" if link.count > used else "once"


def _trials(dataset: Dataset, way: Way) -> list[Trial]:
    return [
        t.record for t in dataset.trials.values() if (t.record.chain, t.record.link) == (way.chain, way.link)
    ]


def _heights(dataset: Dataset, way: Way) -> str:
    chain = dataset.chains[way.chain].record
    seen = [trial.plates_no_higher for trial in _trials(dataset, way)]
    if chain.in_use and chain.own_link == way.link:
        seen.append(chain.plates_no_higher)
    return "taller" if False in seen else "seen" if True in seen else "unknown"


def _level(dataset: Dataset, way: Way) -> str:
    trial = _pressing(dataset, way)
    return "not-looked" if trial is None else _answered(trial.record.plates_level, "level", "not-level")


def _play(dataset: Dataset, way: Way) -> str:
    seen = {trial.play for trial in _trials(dataset, way)}
    return "no-more" if "no-more" in seen and "more" not in seen else "unknown"


def _old_bore(dataset: Dataset, way: Way) -> str:
    """A bore that was not measured, or before the newest line of the log, is not that of the worn chain."""
    chain = dataset.chains[way.chain]
    bore = chain.dims.get("bush_bore")
    logged = [line.on for line in dataset.wear_log if line.chain == way.chain]
    read_on = chain.record.measured_on
    later = bool(logged) and read_on is not None and read_on < max(logged)
    return "yes" if bore is not None and (bore.evidence != "measured" or later) else "no"


def _condition(dataset: Dataset, way: Way) -> str:
    """A step of 0.10 mm on a pin is wear, whatever a link is called that is not said to be worse."""
    link = dataset.links[way.link]
    step = link.dims.get("pin_step")
    if step is None or link.record.condition not in ("new", "fitted-once", "fitted-twice"):
        return link.record.condition
    low, _, high = interval(step)
    worn = Fraction(1, 10)
    return "worn" if low >= worn else "perhaps-worn" if high >= worn else link.record.condition


def reckoned(dataset: Dataset, way: Way) -> oracle.Joint:
    """The oracle's verdict on the same option."""
    return oracle.judge(dims_of(dataset, way), words_of(dataset, way), way.seals, joint_rules())
