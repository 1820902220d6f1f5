"""The rules of a club worked out for each case that occurs, once each, however many judges ask."""

from collections.abc import Mapping, Sequence, Set
from functools import cached_property

from generator.compute.fit.alike import AlikeOf
from generator.compute.fit.dense import Dense, dense_of
from generator.compute.fit.tighten import Proofs, proofs
from generator.compute.fit.trials import Proved, Shifted, bounds, pair_bounds, symbols_bound
from generator.model.dataset import Dataset, TrialFacts
from generator.model.shipped import Rule
from generator.rules.forms import Vocabulary
from generator.rules.plan import Case, Plan, PlanMaker
from generator.rules.symbols import PLATE_FITS
from generator.rules.table import effective_rules, joint_scale, texts_of
from generator.rules.vocabulary import names_in, words_in

# where the pins cannot line up nothing else is worth asking
ASKED_OF_STOPPED = ("pitch", "size-code")
# what can still be no-go for certain where no verdict can be given
ASKED_OF_REFUSED = ("pitch", "flared-before", "half-link", "link-condition", "dry-fit")
# the plan, the trials of an option and those of its pair
ProofsKey = tuple[Case, tuple[Shifted, ...], tuple[str, ...], bool]


def plans_of(dataset: Dataset) -> "Plans":
    """Of the rules of its joints, the club's own limits in place of ours."""
    return Plans(effective_rules(dataset), dataset.shelf.dry_fits)


class Plans:
    """Of one club: the ids of its trials tell them apart."""

    def __init__(self, rules: Mapping[str, Rule], felt: Proved) -> None:
        self.rules = rules
        self.felt = felt
        self.bound_by_trials = symbols_bound(felt)
        self.alike = AlikeOf()
        self._maker = PlanMaker(rules, joint_scale(rules))
        self._names = {id_: names_in(texts_of(rule)) for id_, rule in rules.items()}
        self._plans: dict[Case, Plan] = {}
        self._dense: dict[Case, Dense] = {}
        self._proofs: dict[ProofsKey, Proofs] = {}

    @cached_property
    def without_clip(self) -> "Plans":
        """Those of the same rules but for the ones that are about the clip itself."""
        return Plans({id_: rule for id_, rule in self.rules.items() if rule.group != "clip"}, self.felt)

    def plan(self, case: Case) -> Plan:
        if case not in self._plans:
            known = dict(case)
            only = {"yes": ASKED_OF_STOPPED, "refused": ASKED_OF_REFUSED}.get(known["stopped"])
            self._plans[case] = self._maker.plan(known, lambda id_: words_of(known, self._names[id_]), only)
        return self._plans[case]

    def dense(self, case: Case) -> Dense:
        """The same plan for a few options at a time."""
        if case not in self._dense:
            self._dense[case] = dense_of(self.plan(case))
        return self._dense[case]

    def proofs(
        self, case: Case, own: Sequence[Shifted], of_pair: Sequence[TrialFacts], clip_is_new: bool
    ) -> Proofs:
        """Of the `own` trials of an option, and of those of its pair with other clips or seals."""
        key = (case, tuple(own), tuple(trial.id for trial in of_pair), clip_is_new)
        if key not in self._proofs:
            known = dict(case)
            proven = [bound for each in own for bound in bounds(self.felt, each, known, clip_is_new)]
            proven += [bound for trial in of_pair for bound in pair_bounds(self.felt, trial)]
            self._proofs[key] = proofs(self.plan(case), proven)
        return self._proofs[key]


def words_of(case: Mapping[str, str], names: Set[str]) -> Vocabulary:
    """A link whose plate nobody has tried is asked nothing that depends on it."""
    clipped = case["closure"] == "clip"
    if case["plate_fit"] not in PLATE_FITS:
        return words_in(names, "press", "neighbours", case["lies"], clipped)
    return words_in(names, case["plate_fit"], case["seat"], case["lies"], clipped)
