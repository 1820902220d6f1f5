"""The rules of a club worked out for each case that occurs, once each, however many judges ask.

Goes in: rules of the joint.  Comes out: plans by case, and what dry fits prove of their rows.
"""

from collections.abc import Mapping, Sequence
from functools import cached_property

from generator.compute.fit.tighten import Proofs, proofs
from generator.compute.fit.trials import bounds, pair_bounds, symbols_bound
from generator.model.dataset import TrialFacts
from generator.model.shipped import Rule
from generator.rules.plan import Case, Plan, make_plan
from generator.rules.symbols import PLATE_FITS, words_for
from generator.rules.table import concerns_clip, joint_scale

# where the pins cannot line up nothing else is worth asking
ASKED_OF_STOPPED = ("pitch", "size-code")
# the plan, the trials of an option and those of its pair
ProofsKey = tuple[Case, tuple[str, ...], tuple[str, ...]]


class Plans:
    """Of one club: the ids of its trials tell them apart."""

    def __init__(self, rules: Mapping[str, Rule]) -> None:
        self.rules = rules
        self.vocabularies = {fit: words_for(fit) for fit in PLATE_FITS}
        self.bound_by_trials = symbols_bound(self.vocabularies.values())
        self.scale = joint_scale(rules)
        self._plans: dict[Case, Plan] = {}
        self._proofs: dict[ProofsKey, Proofs] = {}

    @cached_property
    def without_clip(self) -> "Plans":
        """Those of the same rules but for the ones that concern the clip."""
        return Plans({id_: rule for id_, rule in self.rules.items() if not concerns_clip(rule)})

    def plan(self, case: Case) -> Plan:
        if case not in self._plans:
            known = dict(case)
            only = ASKED_OF_STOPPED if known["stopped"] == "yes" else None
            words = self.vocabularies[known["plate_fit"]]
            self._plans[case] = make_plan(self.rules, known, words, self.scale, only)
        return self._plans[case]

    def proofs(self, case: Case, own: Sequence[TrialFacts], of_pair: Sequence[TrialFacts]) -> Proofs:
        """Of the `own` trials of an option, and of those of its pair with other clips or seals."""
        key = (case, tuple(trial.id for trial in own), tuple(trial.id for trial in of_pair))
        if key not in self._proofs:
            known = dict(case)
            plate_fit, closure = known["plate_fit"], known["closure"]
            words = self.vocabularies[plate_fit]
            proven = [bound for trial in own for bound in bounds(trial, plate_fit, closure, words)]
            proven += [bound for trial in of_pair for bound in pair_bounds(trial, words)]
            self._proofs[key] = proofs(self.plan(case), proven)
        return self._proofs[key]
