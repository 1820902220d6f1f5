"""Why parts that meet came out as they did: the deciding check in a sentence or two."""

from generator.compute.others.result import NeighbourFit, PartFit
from generator.model.dataset import Dataset
from generator.render.say.around import part_around, wholes
from generator.render.say.checks import Around, rule_of, told
from generator.render.say.said import Said, capital, joined


def part_why(dataset: Dataset, fit: PartFit) -> Said:
    check = fit.deciding_check
    if check is None:
        return (f"{capital(fit.refused or '')}.",)
    return joined((told(check, part_around(dataset, fit)), _adds_up(fit.adds_up)))


def neighbour_why(dataset: Dataset, fit: NeighbourFit) -> Said:
    """Which of the two joints decides, or the bush ends, and why."""
    check = fit.deciding_check
    if check is None:
        return (f"{capital(fit.refused or '')}.",)
    where = f"The {fit.decided_by} {'decide' if fit.decided_by == 'bush ends' else 'decides'}."
    around = Around(dataset, wholes=wholes(dataset, fit.clip, dataset.links[fit.link].record.seals))
    found = told(check, around) if check.category is None else (rule_of(dataset, check.rule_id).says,)
    return joined(((where,), found, _adds_up(fit.adds_up)))


def _adds_up(adds_up: bool) -> Said:
    return ("Small faults in four groups of checks add up to last-resort.",) if adds_up else ()


# a page about one kind of part never prints a better word than the joint
JOINT_DECIDES = "It would do; the rest of the joint is no better than this."
