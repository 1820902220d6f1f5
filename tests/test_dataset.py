"""A folder becomes a dataset: the day it speaks for, its version, its order, and doubt that does not spread."""

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute.fit.fits import explain_pair
from generator.compute.fit.result import CheckFit, PairFit
from generator.load.files import read_club, read_shelf
from generator.load.folder import load_shelf
from generator.load.yaml_text import lines_of
from generator.model.dataset import Dataset
from generator.problems import Problem
from generator.validate.dataset import build_dataset
from tests.samples import DATA, check_club

SHELF = load_shelf(DATA)
BASE = {path.name: path.read_bytes() for path in (DATA / "problems_base").iterdir()}


def built(changed: dict[str, bytes], as_of: date | None = None) -> Dataset:
    dataset, problems = build_dataset(read_club(BASE | changed), SHELF, as_of)
    assert dataset is not None, problems
    return dataset


def found(**files: str) -> list[tuple[str, str, int]]:
    """Code, file and line of every problem of the base club with some files changed."""
    problems = check_club({f"{name}.yaml": text.encode() for name, text in files.items()})
    return [(p.code, p.place.file, p.place.line) for p in problems]


CLUB = "name: Sample club\nid: sample\ninstruments:\n  caliper: {kind: digital-caliper}\n"


def test_a_day_asked_for_is_held_to_the_dates_like_the_clubs_own() -> None:
    """The base club was read on 2027-02-01; nobody can know that a day earlier."""
    early = date(2027, 1, 31)
    dataset, problems = build_dataset(read_club(BASE), SHELF, early)
    assert dataset is None
    assert {(p.code, p.level) for p in problems} == {("C481", "error")}
    assert "after 2027-01-31" in problems[0].message
    own = {"club.yaml": f"{CLUB}as_of: {early}\n".encode()}
    assert [p.place for p in build_dataset(read_club(BASE | own), SHELF)[1]] == [p.place for p in problems]
    assert built({}, date(2027, 2, 1)).as_of == date(2027, 2, 1)


SLIDING = (
    "tin-1:\n  size_code: 520\n  closure: rivet\n  plate_fit: slip\n  made_for: sealed\n  condition: new\n  seals: rings-1\n"
    "  pin_length: 16.9 mm\n  side_plate_thickness: 2.10 mm\n  pin_diameter: 5.24 mm\n"
)
SLID = (
    "first:\n  chain: red\n  link: tin-1\n  seals: fitted\n  on: 2027-02-03\n  measured_with: caliper\n"
    "  enters: yes\n  bends: yes\n  width_at_joint: 17.25 mm\n  tip_stand_out: 1.7 mm\n"
)


def test_not_even_a_dry_fit_says_where_a_sliding_plate_without_a_clip_rests() -> None:
    changed = {"links.yaml": SLIDING.encode()}
    problems = build_dataset(read_club(BASE | changed), SHELF)[1]
    assert [(p.code, p.level) for p in problems] == [("C438", "warning")]

    def stand_out(dataset: Dataset) -> tuple[PairFit, CheckFit]:
        fit, options = explain_pair(dataset, "red", "tin-1")
        option = next(each for each in options if each.seals == "fitted")
        return fit, next(check for check in option.checks if check.id == "flare-stand-out")

    fit, check = stand_out(built(changed))
    assert fit.word == "measure-first"
    assert (check.best, check.worst) == (0, 3)
    # no groove and no clip to measure: whether it slides at all is asked again
    assert [reading.field for reading in check.missing] == ["plate_fit"]
    tried = changed | {"trials.yaml": SLID.encode()}
    assert [p.code for p in build_dataset(read_club(BASE | tried), SHELF)[1]] == []
    # nothing holds the plate where it lay when the pin was read
    fit, check = stand_out(built(tried))
    assert (fit.word, check.best, check.worst) == ("measure-first", 0, 3)


@pytest.mark.parametrize(("table", "clearance"), [("joint", "t"), ("clip_link", "gw - ks"), ("tool", "t")])
def test_a_clearance_without_a_limit_is_refused_in_every_table(table: str, clearance: str) -> None:
    name = f"rules/{table}.yaml"
    shipped = (DATA / name).read_text("utf-8")
    rule = f"unlimited:\n  title: T\n  group: body\n  clearance: {clearance}\n  says: S.\n"
    known = "  source: common-practice[fit bands]\n  evidence: common-practice\n"
    every = {path: text.encode() for path, text in SHELF.texts.items()}
    shelf = read_shelf(every | {name: f"{shipped}{rule}{known}".encode()})
    dataset, problems = build_dataset(read_club(BASE), shelf)
    assert dataset is None
    assert [(p.code, p.place.file, p.path) for p in problems] == [("U606", name, ("unlimited", "clearance"))]


def test_the_day_is_the_one_asked_for_else_the_clubs_else_the_newest() -> None:
    undated = {"club.yaml": CLUB.encode()}
    assert (built({}).as_of, built({}).as_of_from) == (date(2027, 3, 1), "as_of in club.yaml")
    assert built({}, date(2028, 1, 2)).as_of == date(2028, 1, 2)
    assert built({}, date(2028, 1, 2)).as_of_from == "--as-of"
    assert built(undated).as_of == date(2027, 2, 1)
    ride = {"rides.yaml": b"r1:\n  on: 2027-05-02\n  bikes: [b01]\n"}
    assert built(undated | ride).as_of == date(2027, 5, 2)
    assert built(undated | ride).as_of_from == "newest date in the club folder"
    log = (
        b"date,chain,hours,pitches,inside,outside,place,new_chain\n"
        b"2027-06-03,red,4,20,307.41 mm,327.71 mm,a,no\n"
    )
    assert built(undated | {"wear_log.csv": log}).as_of == date(2027, 6, 3)


def test_the_version_follows_values_and_nothing_else() -> None:
    version = built({}).data_version
    assert len(version) == 12
    assert set(version) <= set("0123456789abcdef")
    seals = BASE["seals.yaml"]
    assert built({"seals.yaml": b"# a remark\n" + seals.replace(b"\n", b"\r\n")}).data_version == version
    turned = b"rings-1:\n  thickness: '1.28 \xc2\xb1 0.05 mm'\n  shape: O\n"
    assert built({"seals.yaml": turned}).data_version == version
    assert built({"seals.yaml": seals.replace(b"1.28", b"1.29")}).data_version != version


def test_the_version_follows_the_shipped_data_too() -> None:
    other, _ = build_dataset(read_club(BASE), load_shelf(DATA))
    assert other is not None
    fewer = {name: file for name, file in SHELF.files.items() if name != "glossary.yaml"}
    changed, _ = build_dataset(read_club(BASE), type(SHELF)(fewer))
    assert changed is not None
    assert other.data_version == built({}).data_version != changed.data_version


def test_records_are_sorted_and_know_where_they_stand() -> None:
    dataset = built({"seals.yaml": b"# kept dry\nz-1:\n  shape: O\nrings-1:\n  shape: O\n"})
    assert list(dataset.seals) == ["rings-1", "z-1"]
    assert dataset.places["seal", "rings-1"] == ("seals.yaml", 4)
    assert list(dataset.shelf.sizes) == sorted(dataset.shelf.sizes)
    # the order of joint rules decides which of two equal checks is named, so it is kept
    assert list(dataset.shelf.joint_rules) == list(SHELF.node("rules/joint.yaml").entries)


LINK = "tin-1:\n  size_code: 520\n  closure: clip\n  plate_fit: press\n  made_for: sealed\n"


@pytest.mark.parametrize(
    ("link", "expected"),
    [
        # one slip, and what would follow from it is not reported again
        ("  pin_reach: 0.598 mm\n  groove_width: 1.10 mm\n  pin_length: 17.30 mm\n", [("C485", 6)]),
        ("  pin_reach: 15.20 mm\n  groove_width: 1.10 mm\n  pin_length: 0.681 mm\n", [("C485", 8)]),
        ("  pin_diameter: 5.24 mm\n  groove_diameter: 5.60 mm\n  clip: spring-1\n", [("C423", 7)]),
        (
            "  pin_diameter: 5.24 mm\n  pin_reach: 15.20 mm\n  groove_width: 6.0 mm\n  pin_length: 17.30 mm\n",
            [("C423", 8)],
        ),
        # two slips are two problems
        ("  pin_diameter: 5,24 mm\n  pin_reach: 0 mm\n", [("L104", 6), ("L106", 7)]),
        # unknown keys that miss a required one by a letter
        ("  pin_reech: 15.20 mm\n", [("R201", 6)]),
    ],
)
def test_one_slip_is_one_problem(link: str, expected: list[tuple[str, int]]) -> None:
    assert found(links=LINK + link) == [(code, "links.yaml", line) for code, line in expected]


def test_a_misspelt_required_key_is_not_missing_too() -> None:
    assert found(links=LINK.replace("closure", "clousre")) == [("R201", "links.yaml", 3)]


def test_what_a_misspelt_key_holds_is_not_missed() -> None:
    """The rules that ask for a key that is not there wait until every key can be read."""
    shouldered = LINK.replace("press\n", "press-to-shoulder\n") + "  shulder_depth: 13.05 mm\n"
    assert found(links=shouldered) == [("R201", "links.yaml", 6)]
    worn = LINK + "  pin_step: 0.15 mm\n  codition: worn\n"
    assert found(links=worn) == [("R201", "links.yaml", 7)]
    keyless = "press-1:\n  does: press\n  kee: hex-6\nhex-6:\n  does: key\n"
    assert found(tools=keyless) == [("R201", "tools.yaml", 3)]


def test_references_into_a_file_that_was_not_read_are_not_doubted() -> None:
    assert found(clips="spring-1: [\n") == [("Y101", "clips.yaml", 1)]
    assert found(chains="red: @\n") == [("Y101", "chains.yaml", 1)]
    assert found(club="name: [\n") == [("Y101", "club.yaml", 1)]


def test_a_record_refused_by_form_still_counts_as_there() -> None:
    assert found(clips="spring-1:\n") == [("Y108", "clips.yaml", 1)]
    assert found(clips="spring-1: new\n") == [("R213", "clips.yaml", 1)]


@pytest.mark.parametrize(
    ("readings", "level"),
    [("5.24 ± 0.01 mm", "error"), ("5.58 ± 0.10 mm", "warning"), ("5.60 ± 0.01 mm", None)],
)
def test_readings_that_may_be_right_are_only_doubted(readings: str, level: str | None) -> None:
    """The groove is 5.60 ± 0.01 mm: surely, perhaps, or not at all wider than the pin."""
    text = LINK + f"  pin_diameter: {readings}\n  groove_diameter: 5.60 ± 0.01 mm\n"
    problems: tuple[Problem, ...] = check_club({"links.yaml": text.encode()})
    assert [p.level for p in problems] == ([] if level is None else [level])


@pytest.mark.parametrize(("look", "codes"), [("rub_marks: no", []), ("plates_level: yes", ["C415"])])
def test_rub_marks_are_looked_for_on_any_chain(look: str, codes: list[str]) -> None:
    """The other looks are at a joint in use."""
    chains = f"red:\n  size_code: 520\n  kind: sealed\n  {look}\n"
    assert [p.code for p in check_club({"chains.yaml": chains.encode()})] == codes


def test_the_club_need_not_name_every_file() -> None:
    dataset, problems = build_dataset(read_club({"club.yaml": BASE["club.yaml"]}), SHELF)
    assert problems == ()
    assert dataset is not None
    assert dataset.links == {}


@pytest.mark.parametrize(
    ("instruments", "code", "line"),
    [
        ("instruments: caliper\n", "R213", 4),
        ("instruments: [caliper]\n", "R213", 4),
        ("instruments:\n  caliper: digital-caliper\n", "R213", 5),
        ("instruments:\n  caliper: {kind: [digital-caliper]}\n", "R205", 5),
        ("instruments:\n  Caliper 1: {kind: digital-caliper}\n", "R206", 5),
        ("instruments:\n  caliper: {kind: digital-caliper, outsid: 0.02 mm}\n", "R201", 5),
        ("instruments:\n  caliper: {outside: 0.02 mm}\n", "R202", 5),
        ("instruments:\n  caliper: {kind: digital-caliper, outside: 0.02}\n", "L102", 5),
        ("units: inch\ninstruments:\n  caliper: {kind: digital-caliper}\n", "R203", 4),
    ],
)
def test_every_refusal_of_a_model_is_in_plain_words(instruments: str, code: str, line: int) -> None:
    text = f"name: Sample club\nid: sample\nas_of: 2027-03-01\n{instruments}"
    unread = dict.fromkeys(("chains.yaml", "links.yaml", "clips.yaml", "bikes.yaml"), b"{}\n")
    (problem,) = check_club({"club.yaml": text.encode(), **unread})
    assert (problem.code, problem.place.line) == (code, line)
    assert "pydantic" not in problem.message
    assert "Input should" not in problem.message


ODD = (
    "\n",
    "  ",
    "\t",
    "- ",
    "&a ",
    "!!x",
    "\u202e",
    "\r\n",
    "{is: 1 mm}",
    "x[y]",
    "14,92 mm",
    "0 mm",
    "unknown",
)
WORDS = st.sampled_from((*":[}#'\"*~|?%", *ODD, "no", "520", "99999999", "red", "tin-1", "is: "))


@given(
    st.lists(
        st.tuples(st.sampled_from(sorted(BASE)), st.integers(0, 600), st.integers(0, 9), WORDS), max_size=6
    )
)
@settings(max_examples=60, deadline=None)
def test_no_slip_of_the_keys_is_too_odd_to_be_reported(slips: list[tuple[str, int, int, str]]) -> None:
    files = {name: raw.decode() for name, raw in BASE.items()}
    for name, start, cut, word in slips:
        text = files[name]
        files[name] = text[: start % len(text)] + word + text[start % len(text) + cut :]
    folder = read_club({name: text.encode() for name, text in files.items()})
    for problem in build_dataset(folder, SHELF)[1]:
        lines = lines_of(folder.texts.get(problem.place.file, ""))
        assert 1 <= problem.place.line <= len(lines)
        assert 1 <= problem.place.column <= len(lines[problem.place.line - 1]) + 1
        assert problem.place.end_column >= problem.place.column


HALF = "first:\n  chain: red\n  link: tin-1\n  seals: fitted\n  on: 2027-02-03\n  enters: yes\n"
WHOLE = (
    "later:\n  chain: red\n  link: tin-1\n  seals: fitted\n  on: 2027-02-10\n  enters: yes\n"
    "  plate_on: pressed\n  plates_level: yes\n  clip_on: yes\n  bends: yes\n"
)


def test_a_dry_fit_in_part_is_no_worry_once_the_same_was_tried_whole() -> None:
    def codes(trials: str) -> list[str]:
        return [p.code for p in build_dataset(read_club(BASE | {"trials.yaml": trials.encode()}), SHELF)[1]]

    assert codes(HALF) == ["T509"]
    assert codes(HALF + WHOLE) == []
    assert codes(HALF + WHOLE.replace("seals: fitted", "seals: left-out")) == ["T509"]


def test_trials_that_disagree_do_so_whether_or_not_the_own_clip_is_named() -> None:
    own = "clip: spring-1\n"
    named = (
        WHOLE.replace("later", "named")
        .replace("  seals", f"  {own}  seals")
        .replace("bends: yes", "bends: no")
    )
    texts = {"trials.yaml": (WHOLE + named).encode()}
    found = [p.code for p in build_dataset(read_club(BASE | texts), SHELF)[1]]
    assert "T508" in found


@pytest.mark.parametrize(
    ("words", "disagree"), [(("none", "left-out"), True), (("fitted", "left-out"), False)]
)
def test_seals_left_out_and_no_seals_are_the_same_try(words: tuple[str, str], disagree: bool) -> None:
    first = WHOLE.replace("fitted", words[0])
    second = WHOLE.replace("later", "second").replace("fitted", words[1]).replace("bends: yes", "bends: no")
    texts = {"trials.yaml": (first + second).encode()}
    found = [p.code for p in build_dataset(read_club(BASE | texts), SHELF)[1]]
    assert ("T508" in found) is disagree
