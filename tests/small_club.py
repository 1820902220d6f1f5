"""A club of four bikes and seven connecting links with one caliper, as entered in twenty minutes (invented)."""

from typing import Any

LOOKS = {
    "in_use": "yes", "in_use_since": "2027-01-10", "looked_on": "2027-02-20", "plates_level": "yes", "plate_loose": "no",
    "plates_no_higher": "yes", "clip_seated": "yes", "bends_freely": "yes", "rub_marks": "no", "state": "as-made",
}  # fmt: skip


def _bike(chain: str, joint: str = "clip") -> dict[str, str]:
    return {
        "chain": chain,
        "front_teeth": "13",
        "rear_teeth": "48",
        "pitches": "112",
        "joint_in_manual": joint,
    }


def _link(code: str, fit: str, kind: str, **more: str) -> dict[str, str]:
    known = {
        "size_code": code,
        "closure": "clip",
        "plate_fit": fit,
        "made_for": kind,
        "condition": "new",
        "half_link": "no",
    }
    return {**known, **more}


def dry_fit(chain: str, link: str, **more: str) -> dict[str, str]:
    seen = {
        "seals": "none", "on": "2027-02-20", "measured_with": "caliper", "enters": "yes", "play": "no-more",
        "plate_on": "by-hand", "bends": "yes", "clip_on": "yes", "clip_with": "pliers", "plate_moves": "no",
        "plates_no_higher": "yes", "left_in_use": "no",
    }  # fmt: skip
    return {"chain": chain, "link": link, **seen, **more}


SMALL_CLUB: dict[str, Any] = {
    "club": {
        "name": "Four bikes", "id": "four-bikes", "invented": "yes", "as_of": "2027-03-01",
        "instruments": {"caliper": {"kind": "digital-caliper"}},
    },
    "chains": {
        "ann": {"size_code": "520", "kind": "sealed", "seal": "O", "own_joint": "clip-press", "own_link": "ann-link",
                "own_seals": "fitted", "seals_whole": "yes", "elongation": "0.3", **LOOKS},
        "bob": {"size_code": "520", "kind": "plain", "seal": "none", "own_joint": "clip-slip", "own_link": "bob-link",
                "own_seals": "none", "elongation": "0.8", **LOOKS},
        "cas": {"size_code": "428", "kind": "plain", "seal": "none", "own_joint": "clip-slip", "own_link": "cas-link",
                "own_seals": "none", "elongation": "1.0", **LOOKS},
        "dot": {"size_code": "520", "kind": "sealed", "seal": "X", "own_joint": "rivet", "own_link": "dot-link",
                "own_seals": "fitted", "seals_whole": "yes", "elongation": "0.2", **LOOKS},
    },
    "links": {
        "ann-link": _link("520", "press", "sealed", came_with="ann"),
        "bob-link": _link("520", "slip", "plain", came_with="bob", seals="none"),
        "cas-link": _link("428", "slip", "plain", came_with="cas", seals="none"),
        "dot-link": _link("520", "press", "sealed", came_with="dot", closure="rivet", flared="no"),
        "spare-ann": _link("520", "press", "sealed", came_with="ann"),
        "spare-bob": _link("520", "slip", "plain", came_with="bob", seals="none"),
        "spare-cas": _link("428", "slip", "plain", came_with="cas", seals="none"),
    },
    "bikes": {"b1": _bike("ann"), "b2": _bike("bob"), "b3": _bike("cas"), "b4": _bike("dot", "rivet")},
    "trials": {
        "try-bob": dry_fit("bob", "spare-bob", width_at_joint="15.02 mm", width_at_neighbour="15.00 mm"),
        "try-cas": dry_fit("cas", "spare-cas", width_at_joint="14.41 mm", width_at_neighbour="14.40 mm"),
        "try-ann": dry_fit("ann", "spare-ann", seals="fitted", plate_on="trial-plate"),
    },
}  # fmt: skip
