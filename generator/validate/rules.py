"""Rules that cannot be used: they cannot be read, their rungs do not nest, or they could grow too large."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from generator.model.dataset import Dataset, Shelf
from generator.model.node import LoadedFolder, key_span
from generator.model.shipped import Rule
from generator.problems import Place, Problem
from generator.rules.forms import FormFault, Vocabulary
from generator.rules.others import OTHER_SYMBOLS, vocabulary_of
from generator.rules.rows import RuleFault, rows_of, table_scale
from generator.rules.symbols import PLATE_FITS
from generator.rules.table import filled_in, joint_scale, overridden, rules_of, texts_of
from generator.rules.vocabulary import names_in, words_in

Rules = Mapping[str, Rule]


def shipped_rule_problems(shelf: Shelf, files: LoadedFolder) -> Iterator[Problem]:
    """A rule that ships is data like any other."""
    for table, rules in {"joint": shelf.joint_rules, **shelf.other_rules}.items():
        filled = dict(_filled(rules, shelf.joint_rules))
        if None not in filled.values() and _fault(filled, table) is None:  # type: ignore[arg-type]
            continue
        for id_, rule in filled.items():
            missing = f"it is the same as '{rules[id_].same_as}', which the joint does not have"
            fault = missing if rule is None else _fault({id_: rule}, table)
            if fault is not None:
                place = key_span(files.node(f"rules/{table}.yaml"), (id_,))
                yield Problem("U605", f"rule '{id_}' cannot be used: {fault}", place, (id_,))


def _filled(rules: Rules, joint: Rules) -> Iterator[tuple[str, Rule | None]]:
    for id_, rule in rules.items():
        yield (
            id_,
            None if rule.same_as is not None and rule.same_as not in joint else filled_in(id_, rule, joint),
        )


def override_problems(dataset: Dataset) -> Iterator[Problem]:
    """Each override alone, and where all are fine alone, those of one table together."""
    for shipped, table in _tables(replace(dataset, overrides={})) if dataset.overrides else ():
        own = {id_: overridden(shipped[id_], o) for id_, o in dataset.overrides.items() if id_ in shipped}
        faults = [
            (id_, fault)
            for id_, rule in own.items()
            if (fault := _fault({**shipped, id_: rule}, table, shipped))
        ]
        if not faults and len(own) > 1 and (fault := _fault({**shipped, **own}, table, shipped)):
            faults = [(list(own)[-1], fault)]
        for id_, fault in faults:
            file, line = dataset.places.get(("rule", id_), ("rules.yaml", 1))
            yield Problem("U605", f"rule '{id_}' cannot be used: {fault}", Place(file, line), (id_,))


def _tables(shipped: Dataset) -> Iterator[tuple[Rules, str]]:
    yield shipped.shelf.joint_rules, "joint"
    for table in shipped.shelf.other_rules:
        yield rules_of(shipped, table), table


def _vocabularies(table: str, rule: Rule) -> Iterable[Vocabulary]:
    """A rule of the joint wherever the side plate sits of which it speaks."""
    if table in OTHER_SYMBOLS:
        return [vocabulary_of(table)]
    fits = rule.when.get("plate_fit", PLATE_FITS)
    found = (words_in(names_in(texts_of(rule)), fit, "neighbours", "centred", True) for fit in fits)
    return dict.fromkeys(found)


def _fault(rules: Rules, table: str, proven: Rules | None = None) -> str | None:
    """Why the rules cannot be multiplied out; those `proven` alone are, as long as their rows stay as they were."""
    try:
        scale = _scale(rules, table)
        kept = proven if proven is not None and _scale(proven, table) == scale else {}
        for id_, rule in rules.items():
            for words in _vocabularies(table, rule) if kept.get(id_) is not rule else ():
                rows_of(id_, rule, words, scale)
    except (FormFault, RuleFault) as fault:
        return str(fault)
    return None


def _scale(rules: Rules, table: str) -> int:
    return joint_scale(rules) if table not in OTHER_SYMBOLS else table_scale(rules, [vocabulary_of(table)])
