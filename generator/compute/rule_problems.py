"""Overrides whose limits cannot be used: they cannot be read, their rungs do not nest, or they could grow too large.

Goes in: a dataset.  Comes out: a Problem for each.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from generator.compute.fit.forms import FormFault, Vocabulary
from generator.compute.fit.joint import words_for
from generator.compute.fit.limit_rows import RuleFault, rows_of, table_scale
from generator.compute.fit.rule_table import PLATE_FITS, overridden
from generator.compute.others import clip_links, plates, strips, tools
from generator.compute.others.judge import words_of_symbols
from generator.compute.others.rulebook import rules_of
from generator.model.dataset import Dataset
from generator.model.shipped import Rule
from generator.problems import Place, Problem

# by file of rules, the dimensions its limits may speak of; the others speak of those of a joint
SYMBOLS: Mapping[str, Sequence[str]] = {
    "clip_link": clip_links.SYMBOLS,
    "plate": plates.SYMBOLS,
    "strip": strips.SYMBOLS,
    "neighbours": strips.SYMBOLS,
    "tool": tools.SYMBOLS,
    "key": (),
}
Rules = Mapping[str, Rule]


def rule_problems(dataset: Dataset) -> Iterator[Problem]:
    """Each override alone, and where all are fine alone, those of one table together."""
    for shipped, words in _tables(replace(dataset, overrides={})):
        own = {id_: overridden(shipped[id_], o) for id_, o in dataset.overrides.items() if id_ in shipped}
        faults = [
            (id_, fault) for id_, rule in own.items() if (fault := _fault({**shipped, id_: rule}, words))
        ]
        if not faults and own and (fault := _fault({**shipped, **own}, words)):
            faults = [(list(own)[-1], fault)]
        for id_, fault in faults:
            file, line = dataset.places.get(("rule", id_), ("rules.yaml", 1))
            yield Problem("U605", f"rule '{id_}' cannot be used: {fault}", Place(file, line), (id_,))


def _tables(shipped: Dataset) -> Iterator[tuple[Rules, Sequence[Vocabulary]]]:
    of_joint = [words_for(fit) for fit in PLATE_FITS]
    yield shipped.shelf.joint_rules, of_joint
    for table in shipped.shelf.other_rules:
        yield rules_of(shipped, table), [words_of_symbols(SYMBOLS[table])] if table in SYMBOLS else of_joint


def _fault(rules: Rules, vocabularies: Sequence[Vocabulary]) -> str | None:
    """Why the rules cannot be multiplied out."""
    try:
        scale = table_scale(rules, vocabularies)
        for words in vocabularies:
            for id_, rule in rules.items():
                rows_of(id_, rule, words, scale)
    except (FormFault, RuleFault) as fault:
        return str(fault)
    return None
