"""Checks a plan again without any of the generator: `handbook plan --json | python tests/recheck_plan.py`.

Reads the plan on standard input, the club's own YAML files (--club, default data/demo), the failures that ship, and the
fits as published (--fits, default site/data/v1/fits.json; where that is missing or of other data, `handbook explain --json`
is asked about each pair the plan names).  Exit 0 where everything agrees, 1 where not; imports nothing of `generator`.
"""

import argparse
import json
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).parents[1]
FILES = {
    "link": "links",
    "clip": "clips",
    "seal": "seals",
    "plate": "plates",
    "strip": "strips",
    "tool": "tools",
}
RUNGS = ["proper", "get-home", "last-resort", "no-go"]
GRAMS = {"g": Fraction(1), "kg": Fraction(1000), "oz": Fraction("28.349523125")}
# grams where nobody weighed it, as DEVELOPERS.md says
USUAL = {"link": 15, "clip": 1, "seal": 1, "plate": 4, "strip": 13, "tool": 200}
Plan = dict[str, Any]


class Club:
    """The club's files as plain YAML."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.parts = {kind: self._file(stem) for kind, stem in FILES.items()}
        self.bikes, self.chains, self.rides = (self._file(stem) for stem in ("bikes", "chains", "rides"))
        self.club = self._file("club")
        self.failures = yaml.load(
            (ROOT / "data" / "failures.yaml").read_text(encoding="utf-8"), yaml.BaseLoader
        )

    def _file(self, stem: str) -> dict[str, Any]:
        path = self.folder / f"{stem}.yaml"
        return yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader) or {} if path.is_file() else {}

    def count(self, kind: str, id_: str) -> int:
        return int(self.parts[kind][id_].get("count", 1))

    def grams(self, kind: str, id_: str) -> Fraction:
        """At the heaviest, as a load is planned."""
        record = self.parts[kind][id_]
        written = record.get("mass")
        if written in (None, "unknown"):
            return Fraction(USUAL[kind] * int(record.get("pitches", 1)))
        number, unit = written.split(" ")[0], written.split(" ")[-1]
        spread = Fraction(written.split("±")[1].split()[0]) if "±" in written else Fraction(0)
        return (Fraction(number) + spread) * GRAMS[unit]


def faults(plan: Plan, club: Club, fits: dict[str, Plan]) -> Iterator[str]:
    yield from stock_faults(plan, club)
    yield from load_faults(plan, club)
    yield from demand_faults(plan, club)
    yield from verdict_faults(plan, club, fits)
    yield from goal_faults(plan, club)
    yield from needless(plan, club)


def carried(plan: Plan, bearers: set[str] | None = None) -> Counter[tuple[str, str]]:
    """(kind, id) -> count over the bearers."""
    total: Counter[tuple[str, str]] = Counter()
    for bearer in plan["bearers"]:
        if bearers is None or bearer["id"] in bearers:
            for item in bearer["items"]:
                total[item["kind"], item["id"]] += item["count"]
    return total


def stock_faults(plan: Plan, club: Club) -> Iterator[str]:
    """No more is carried than there is and is bought."""
    bought = Counter({(each["kind"], each["id"]): each["count"] for each in plan["buy"]})
    for (kind, id_), count in carried(plan).items():
        if id_ not in club.parts[kind]:
            yield f"{id_} is no {kind} of the club"
        elif count > club.count(kind, id_) + bought[kind, id_]:
            yield f"{count} of {id_} are carried, {club.count(kind, id_)} are there"
    for (kind, id_), count in bought.items():
        if carried(plan)[kind, id_] != club.count(kind, id_) + count:
            yield f"{count} of {id_} are bought for nothing"


def load_faults(plan: Plan, club: Club) -> Iterator[str]:
    """Masses add up and stay within the limits; every key lies with its tool."""
    for bearer in plan["bearers"]:
        mass = sum(
            (club.grams(item["kind"], item["id"]) * item["count"] for item in bearer["items"]), Fraction(0)
        )
        if mass != Fraction(str(bearer["mass_g"])) or mass > Fraction(str(bearer["limit_g"])):
            yield f"{bearer['id']} carries {float(mass)} g, not {bearer['mass_g']} of {bearer['limit_g']}"
        tools = {item["id"] for item in bearer["items"] if item["kind"] == "tool"}
        for tool in sorted(tools):
            key = club.parts["tool"][tool].get("key")
            if key is not None and key not in tools:
                yield f"{bearer['id']} carries {tool} without {key}"


def vans(plan: Plan) -> set[str]:
    return {bearer["id"] for bearer in plan["bearers"] if bearer["kind"] == "van"}


def reached(plan: Plan, club: Club, bike: str) -> set[str]:
    """The bearers whose load a bike can have."""
    everyone = {bearer["id"] for bearer in plan["bearers"]}
    ride = club.rides.get(plan["ride"] or "", {})
    meets = bike in ride.get("van_reaches", ride.get("bikes", []))
    return everyone if meets else everyone - vans(plan)


def demand_faults(plan: Plan, club: Club) -> Iterator[str]:
    """What a repair takes is carried where it can be had, and the largest failures at once share nothing used up."""
    for demand in plan["demands"]:
        name = f"{demand['bike']} {demand['failure']}"
        there = carried(plan, reached(plan, club, demand["bike"]))
        for item in demand["items"]:
            if there[item["kind"], item["id"]] < item["count"]:
                yield f"{name} takes {item['count']} of {item['id']}, which nobody near carries"
        if demand["served"] != (demand["rung"] < 3) or (not demand["served"] and not demand["reason"]):
            yield f"{name} is neither served nor has a reason"
        if demand["pitches_change"] % 2:
            yield f"{name} leaves an odd loop"
        weights = club.failures[demand["failure"]]
        if demand["weight"] != int(weights["often"]) * int(weights["strands"]):
            yield f"{name} has the weight {demand['weight']}"
    for (kind, id_), count in carried(plan).items():
        uses = sorted((uses_of(demand, kind, id_) for demand in plan["demands"]), reverse=True)
        if kind != "tool" and sum(uses[: plan["depth"]]) > count:
            yield f"{plan['depth']} failures at once use more of {id_} than is carried"


def uses_of(demand: Plan, kind: str, id_: str) -> int:
    return sum(item["count"] for item in demand["items"] if (item["kind"], item["id"]) == (kind, id_))


def verdict_faults(plan: Plan, club: Club, fits: dict[str, Plan]) -> Iterator[str]:
    """No demand is printed better than its joints: at the worst end, by numbers only as get-home, two clips get-home."""
    untried = RUNGS.index(club.club.get("untried_counts_as", "get-home"))
    for demand in plan["demands"]:
        least = 0
        for name in demand["pairs"]:
            pair = fits[name]
            on_bike = next((each for each in pair["by_bike"] if each["bike"] == demand["bike"]), pair)
            if on_bike["worst"] is None:
                yield f"{demand['bike']} {demand['failure']} counts on {name}, which cannot be judged"
                continue
            least = max(least, on_bike["worst"], untried if pair["strength"] != "dry-fitted" else 0)
        least = max(least, clip_joints(club, demand))
        if demand["served"] and demand["rung"] < least:
            yield f"{demand['bike']} {demand['failure']} is printed {demand['word']}, its joints are {RUNGS[least]}"


def clip_joints(club: Club, demand: Plan) -> int:
    """1 where the loop ends with more than one clip joint."""
    links = club.parts["link"]
    new = sum(
        item["count"]
        for item in demand["items"]
        if item["kind"] == "link" and links[item["id"]]["closure"] == "clip"
    )
    chain = club.chains[club.bikes[demand["bike"]]["chain"]]
    own = links.get(chain.get("own_link", ""), {}).get("closure") == "clip"
    stays = own and "joint" not in club.failures[demand["failure"]]
    return int(new > 0 and new + stays > 1)


def goal_faults(plan: Plan, club: Club) -> Iterator[str]:
    """The goals recomputed from demands, loads and costs; every bound meets its value."""
    goals = {goal["id"]: goal for goal in plan["proof"]["goals"]}
    weight = Counter(dict.fromkeys(range(4), 0))
    for demand in plan["demands"]:
        weight[demand["rung"]] += demand["weight"]
    mass = Counter({"mass_g": 0.0, "van_mass_g": 0.0})
    for bearer in plan["bearers"]:
        mass["van_mass_g" if bearer["kind"] == "van" else "mass_g"] += bearer["mass_g"]
    cost = sum(Fraction(club.parts[each["kind"]][each["id"]]["cost"]) * each["count"] for each in plan["buy"])
    found = {
        "worse-than-last-resort": weight[3],
        "last-resort": weight[2],
        "get-home": weight[1],
        "cost": float(cost),
        **mass,
    }
    for id_, value in found.items():
        if abs(goals[id_]["value"] - value) > 1e-9:
            yield f"goal {id_} is {value}, not {goals[id_]['value']}"
    for id_, goal in goals.items():
        if goal["bound"] != goal["value"]:
            yield f"goal {id_} reached {goal['value']}, bound {goal['bound']}"
    if not plan["proof"]["rechecked"] or plan["status"] != "optimal":
        yield "the plan says itself that it is not proven"


def needless(plan: Plan, club: Club) -> Iterator[str]:
    """Every piece serves a demand, or turns a tool that does."""
    keys = {club.parts["tool"][id_].get("key") for kind, id_ in carried(plan) if kind == "tool"}
    for (kind, id_), count in carried(plan).items():
        most = max((uses_of(demand, kind, id_) for demand in plan["demands"]), default=0)
        if most == 0 and not (kind == "tool" and id_ in keys):
            yield f"{id_} is carried for nothing"
        # one failure at a time never needs more than its own; links of several chains may share a clip
        if kind in ("plate", "strip") and plan["depth"] == 1 and count > max(most, 1):
            yield f"{count} of {id_} are carried, {most} are used at most"


def published_fits(path: Path, plan: Plan, club: Path) -> dict[str, Plan]:
    """By chain/link: from the file where it is of the same data, else asked pair by pair."""
    if path.is_file():
        document = json.loads(path.read_text(encoding="utf-8"))
        if document["data_version"] == plan["data_version"]:
            return {f"{pair['chain']}/{pair['link']}": pair for pair in document["pairs"]}
    named = sorted({name for demand in plan["demands"] for name in demand["pairs"]})
    print(f"{path} is not of this data: asking about {len(named)} pairs", file=sys.stderr)
    return {name: _explained(name, club) for name in named}


def _explained(name: str, club: Path) -> Plan:
    command = [
        str(Path(sys.executable).parent / "handbook"),
        "explain",
        *name.split("/"),
        "--club",
        str(club),
        "--json",
    ]
    found: Plan = json.loads(subprocess.run(command, capture_output=True, check=True, text=True).stdout)[
        "pair"
    ]
    return found


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--club", type=Path, default=ROOT / "data" / "demo")
    parser.add_argument("--fits", type=Path, default=Path("site/data/v1/fits.json"))
    asked = parser.parse_args()
    plan = json.load(sys.stdin)
    found = list(faults(plan, Club(asked.club), published_fits(asked.fits, plan, asked.club)))
    print("\n".join(found) if found else _agreed(plan))
    return 1 if found else 0


def _agreed(plan: Plan) -> str:
    served = sum(demand["served"] for demand in plan["demands"])
    pieces = sum(carried(plan).values())
    return f"agrees: {served} of {len(plan['demands'])} failures served with {pieces} pieces, every goal at its bound"


if __name__ == "__main__":
    sys.exit(main())
