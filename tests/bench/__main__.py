"""`python -m tests.bench`: measures the budgets and prints them; `--json` for machines, `--write` into DEVELOPERS.md.

`--only pairs|answers|spares|demo|cards|phone|pages` measures one of them; `--few` takes 30 and 300 pages for 300 and 3000.
"""

import argparse
import json
import platform
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from tests.bench.answers import answer_figures
from tests.bench.cards import card_figures
from tests.bench.pages import page_figures
from tests.bench.pairs import pair_figures
from tests.bench.phases import phase_figures
from tests.bench.phone import phone_figures
from tests.bench.spares import spares_figures

DEVELOPERS = Path(__file__).parents[2] / "DEVELOPERS.md"
OPEN, CLOSE = "<!-- figures -->", "<!-- /figures -->"
PARTS = ("pairs", "answers", "spares", "demo", "cards", "phone", "pages")


def measured(only: str | None, few: bool) -> dict[str, Any]:
    found: dict[str, Any] = {"python": platform.python_version()}
    if only in (None, "pairs"):
        found["pairs"] = pair_figures()
    if only in (None, "answers"):
        found["answers"] = answer_figures()
    if only in (None, "spares"):
        found["spares"] = spares_figures()
    if only in (None, "demo"):
        found["demo"] = phase_figures()
    if only in (None, "cards"):
        found["cards"] = card_figures()
    if only in (None, "phone"):
        found["phone"] = phone_figures()
    if only in (None, "pages"):
        found["pages"] = page_figures(30, 300) if few else page_figures(300, 3000)
    return found


def lines(found: dict[str, Any]) -> Iterator[str]:
    """A Markdown table: what, figure, budget."""
    yield "| what | figure | budget |"
    yield "|---|---|---|"
    if "pairs" in found:
        yield from _pair_lines(found["pairs"])
    if "answers" in found:
        yield from _answer_lines(found["answers"])
    if "spares" in found:
        yield from _spares_lines(found["spares"])
    if "demo" in found:
        yield from _demo_lines(found["demo"])
    if "cards" in found:
        yield from _card_lines(found["cards"])
    if "phone" in found:
        yield from _phone_lines(found["phone"])
    if "pages" in found:
        yield from _page_lines(found["pages"])


def _answer_lines(answers: dict[str, float]) -> Iterator[str]:
    for name, what, budget in (("explain", "of one pair", 0.6), ("check", "of the demo", 1.5)):
        times = answers[name] / answers["imports"]
        yield (
            f"| `handbook {name}` {what}, processor time | {answers[name]:.2f} s, {times:.1f} x the import of "
            f"numpy and pydantic ({answers['imports']:.2f} s) | <= {budget} s |"
        )


def _pair_lines(pairs: dict[str, Any]) -> Iterator[str]:
    rate = pairs["million_options_per_second"]
    yield (
        f"| all options of {pairs['chains']} chains x {pairs['links']} links ({pairs['options']}) "
        f"| {pairs['seconds'] * 1000:.0f} ms, {rate:.1f} M options/s; "
        f"{pairs['seconds_from_dataset'] * 1000:.0f} ms from the dataset | |"
    )
    yield (
        f"| against a bare loop of compares, both ends of {pairs['forms']} linear forms in int64 "
        f"| {pairs['of_bare_compares_per_limit']:.2f} x | >= 0.5 x |"
    )
    yield (
        f"| the same for the {pairs['dimensions']} dimensions the forms are made of "
        f"| {pairs['of_bare_compares_per_dimension']:.2f} x | |"
    )
    yield (
        f"| against plain Python | {pairs['times_plain_python']:.0f} x, "
        f"{pairs['differences_plain_python']} differences | >= 200 x |"
    )
    yield f"| against plain fractions | {pairs['differences_fractions']} differences | 0 |"


def _spares_lines(spares: dict[str, Any]) -> Iterator[str]:
    usual, starved = spares["usual"], spares["starved"]
    (middle, most), (cbc_middle, cbc_most) = usual["seconds"], usual["cbc_seconds"]
    first, last = usual["seeds"]
    yield (
        f"| spares list of {spares['bikes']} bikes x {spares['items']} items, {spares['failures']} failures, proven and "
        f"rechecked, seeds {first} to {last} | median {middle * 1000:.0f} ms, p95 {most * 1000:.0f} ms, "
        f"{usual['not_rechecked']} not rechecked; CBC, without a proof, {cbc_middle * 1000:.0f} and {cbc_most * 1000:.0f} "
        f"ms, {usual['cbc_differs']} differ | p95 <= 100 ms, 0 |"
    )
    (middle, most), (first, last) = starved["seconds"], starved["seeds"]
    yield (
        f"| the same where a rider carries {starved['rider_g']} g for {usual['rider_g']} g, seeds {first} to {last} "
        f"| median {middle:.0f} s, most {most:.0f} s, {starved['not_rechecked']} not rechecked | |"
    )


def _demo_lines(demo: dict[str, Any]) -> Iterator[str]:
    size = f"{demo['pages']} pages, {demo['megabytes']:.0f} MB"
    yield f"| whole build of the demo | {demo['seconds']:.1f} s, {size} | <= 20 s |"
    yield (
        f"| its processor time against the stock theme given the same words | {demo['processor_seconds']:.1f} s against "
        f"{demo['stock_processor_seconds']:.1f} s, {demo['of_stock']:.2f} x; without the cards, which take "
        f"{demo['cards_processor_seconds']:.1f} s, {demo['without_cards_of_stock']:.2f} x | < 1 x |"
    )
    shares = sorted(demo["share"].items(), key=lambda each: -each[1])
    text = ", ".join(f"{name} {share:.0%}" for name, share in shares)
    yield f"| its phases | {text} | none but mkdocs over 30 % |"


def _card_lines(cards: dict[str, Any]) -> Iterator[str]:
    by_html = cards["html_library_seconds"]
    beside = (
        f"the same words by an HTML-to-PDF library {by_html:.1f} s"
        if by_html
        else "no HTML-to-PDF library here"
    )
    yield f"| 200 two-sided pocket cards typeset | {cards['seconds']:.2f} s; {beside} | <= 0.5 s |"
    yield (
        f"| all cards of the demo, every format and sheet | {cards['demo_seconds']:.1f} s, {cards['demo_files']} files, "
        f"{cards['demo_megabytes']:.0f} MB | |"
    )


def _phone_lines(phone: dict[str, Any]) -> Iterator[str]:
    ours, stock, pair = phone["ours"], phone["stock"], phone["pair_page_bytes"]
    yield (
        f"| first page on a phone until the search answers, gzip | {ours['bytes'] / 1000:.0f} kB in {ours['requests']} "
        f"requests, {ours['to_other_hosts']} to other hosts (stock theme with the same words "
        f"{stock['bytes'] / 1000:.0f} kB) | <= 80 kB, 0 |"
    )
    yield (
        f"| own HTML of {phone['pair_pages']} pair pages, gzip | median {pair['median'] / 1000:.1f} kB, "
        f"most {pair['most'] / 1000:.1f} kB | <= 14 kB |"
    )
    yield (
        f"| search at a quarter of the processor's speed, laid out, p95 of {ours['answers']} letters typed "
        f"| {ours['p95_ms']:.0f} ms (stock theme {stock['p95_ms']:.0f} ms) | <= 50 ms |"
    )
    for page, took in phone["opened_ms"].items():
        yield f"| `{page}` until DOMContentLoaded at that speed on slow 4G | {took:.0f} ms | <= 2000 ms |"


def _page_lines(pages: dict[str, Any]) -> Iterator[str]:
    budgets = {"300": "<= 0.20 x", "3000": "<= 0.15 x"}
    for count, ratio in pages["of_stock"].items():
        seconds, stock = pages["seconds"][count], pages["stock_seconds"][count]
        yield (
            f"| {count} pages of {pages['rows']} rows against Markdown tables in the stock theme "
            f"| {seconds:.1f} s against {stock:.1f} s, {ratio:.2f} x | {budgets.get(count, '')} |"
        )
    growth, stock = pages["growth_exponent"], pages["stock_growth_exponent"]
    yield f"| growth exponent | {growth:.2f} (stock theme {stock:.2f}) | <= 1.1 |"


def write(found: dict[str, Any]) -> None:
    text = DEVELOPERS.read_text(encoding="utf-8")
    before, rest = text.split(OPEN, 1)
    _, after = rest.split(CLOSE, 1)
    table = "\n".join(lines(found))
    DEVELOPERS.write_text(f"{before}{OPEN}\n{table}\n{CLOSE}{after}", encoding="utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description="Measure the budgets.")
    parser.add_argument("--json", action="store_true", help="figures as JSON")
    parser.add_argument("--write", action="store_true", help="put the figures into DEVELOPERS.md")
    parser.add_argument("--only", choices=PARTS, help="measure one part")
    parser.add_argument("--few", action="store_true", help="a tenth of the pages")
    asked = parser.parse_args()
    if asked.write and (asked.only or asked.few):
        parser.error("--write puts in whole figures only")
    found = measured(asked.only, asked.few)
    if asked.write:
        write(found)
    print(json.dumps(found, indent=1, sort_keys=True) if asked.json else "\n".join(lines(found)))


if __name__ == "__main__":
    main()
