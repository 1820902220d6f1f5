"""One quick answer reads only what a verdict is made of, and says what the whole would say."""

from functools import cache

from generator.compute.fit.by_bike import apart_on
from generator.compute.fit.fits import explain_pair, fit_table
from generator.compute.next_act import next_act
from generator.load.folder import load_club, load_shelf
from generator.model.dataset import Dataset
from generator.problems import Problem
from generator.render.contract.fits_json import explain_document
from generator.render.explain_long import explain_long
from generator.render.explain_text import explain_text
from generator.validate.dataset import build_dataset
from tests.handbook import demo, demo_fits
from tests.samples import DATA


@cache
def quick() -> tuple[Dataset, tuple[Problem, ...]]:
    dataset, problems = build_dataset(load_club(DATA / "demo"), load_shelf(DATA, quick=True), quick=True)
    assert dataset is not None, problems
    return dataset, problems


def test_what_is_left_unread_changes_no_version_and_hides_no_warning() -> None:
    dataset, problems = quick()
    assert not dataset.shelf.glossary
    assert demo().shelf.glossary
    assert dataset.data_version == demo().data_version
    _, every = build_dataset(load_club(DATA / "demo"), load_shelf(DATA))
    assert problems == every != ()


def test_what_is_left_unread_is_in_no_fit_and_no_words() -> None:
    dataset, _ = quick()
    one_of_a_size = {chain.record.size_code: id_ for id_, chain in demo().chains.items()}
    chains = sorted(one_of_a_size.values())
    assert fit_table(dataset, chains) == tuple(fit for fit in demo_fits() if fit.chain in chains)
    for fit in demo_fits():
        for bike in (
            None,
            next((id_ for id_, b in demo().bikes.items() if b.record.chain == fit.chain), None),
        ):
            acts = next_act(dataset, fit), next_act(demo(), fit)
            assert explain_text(dataset, fit, acts[0], bike) == explain_text(demo(), fit, acts[1], bike)


def test_what_is_left_unread_is_in_no_long_answer() -> None:
    told = []
    for dataset in (quick()[0], demo()):
        fit, options = explain_pair(dataset, "tan-520", "tin-8-tan")
        apart, act = apart_on(dataset, fit), next_act(dataset, fit)
        document = explain_document(dataset, fit, options, apart, act)
        told.append((document, explain_long(dataset, fit, options, apart, None)))
    assert told[0] == told[1]
