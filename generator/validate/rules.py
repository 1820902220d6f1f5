"""Rules that cannot be used: they cannot be read, their rungs do not nest, or they could grow too large."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from generator.model.dataset import Dataset, Shelf
from generator.model.node import LoadedFolder, key_span
from generator.model.shipped import Rule
from generator.problems import Place, Problem
from generator.rules.forms import FormFault, Vocabulary
from generator.rules.others import OTHER_SYMBOLS, vocabulary_of
from generator.rules.rows import RuleFault, rows_of, table_scale
from generator.rules.symbols import PLATE_FITS
from generator.rules.table import filled_in, overridden, rules_of
from generator.rules.vocabulary import words_for

Rules = Mapping[str, Rule]


def shipped_rule_problems(shelf: Shelf, files: LoadedFolder) -> Iterator[Problem]:
    """A rule that ships is data like any other."""
    for table, rules in {"joint": shelf.joint_rules, **shelf.other_rules}.items():
        for id_, rule in rules.items():
            try:
                fault = _fault({id_: filled_in(id_, rule, shelf.joint_rules)}, _vocabularies(table))
            except RuleFault as missing:
                fault = str(missing)
            if fault is not None:
                place = key_span(files.node(f"rules/{table}.yaml"), (id_,))
                yield Problem("U605", f"rule '{id_}' cannot be used: {fault}", place, (id_,))


def override_problems(dataset: Dataset) -> Iterator[Problem]:
    """Each override alone, and where all are fine alone, those of one table together."""
    for shipped, words in _tables(replace(dataset, overrides={})) if dataset.overrides else ():
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
    yield shipped.shelf.joint_rules, _vocabularies("joint")
    for table in shipped.shelf.other_rules:
        yield rules_of(shipped, table), _vocabularies(table)


def _vocabularies(table: str) -> Sequence[Vocabulary]:
    return [vocabulary_of(table)] if table in OTHER_SYMBOLS else [words_for(fit) for fit in PLATE_FITS]


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
