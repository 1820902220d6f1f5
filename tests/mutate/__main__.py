"""Changes the shipped data one thing at a time and prints what no test notices: `python -m tests.mutate`."""

import sys
from collections import Counter

from tests.mutate.explained import why_rule_survives, why_size_survives
from tests.mutate.others import other_killed, other_mutants
from tests.mutate.rules import joint_killed, joint_mutants
from tests.mutate.sizes import size_killed, size_mutants


def main() -> int:
    """1 if a change survives that nobody has explained."""
    joint = [(str(m), joint_killed(m), why_rule_survives(m)) for m in joint_mutants()]
    others = [(str(m), other_killed(m), why_rule_survives(m)) for m in other_mutants()]
    sizes = [(str(m), size_killed(m), why_size_survives(m)) for m in size_mutants()]
    unexplained = 0
    tables = {
        "rules, limits and words of a joint": joint,
        "rules for clips, seals, side plates, strips, tools, keys, lost clips": others,
        "size codes": sizes,
    }
    for name, found in tables.items():
        print(f"{name}: {sum(dead for _, dead, _ in found)} of {len(found)} killed")
        reasons = Counter(reason for _, dead, reason in found if not dead and reason)
        for why, count in reasons.most_common():
            print(f"  {count} survive: {why}")
        for change, dead, reason in found:
            if not dead and reason is None:
                unexplained += 1
                print(f"  SURVIVES WITHOUT A REASON: {change}")
    return 1 if unexplained else 0


if __name__ == "__main__":
    sys.exit(main())
