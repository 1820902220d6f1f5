"""The frame of the handbook: policy, addresses, escaping, menu, colours, and the same bytes whatever the machine."""

import base64
import gc
import hashlib
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from jinja2 import DictLoader, UndefinedError
from jinja2.runtime import Context

from generator.render.base.lengths import shown_length
from generator.render.base.page import Asset, Page, relative_address
from generator.render.base.verdicts import shown_verdict
from generator.render.environment import environment, page_body, prose
from generator.shipped import shipped_root
from generator.site import plugin
from generator.site.build import BuildFailed, build_site
from generator.site.collector import collector_resting
from generator.site.finish import PolicyFault, finished, inline_scripts
from generator.site.marker import MARKER
from generator.site.menu import menu_of
from generator.site.sitemap import sitemap
from tests.fake_site import HOSTILE, fake_site

HEAD = '<head><meta charset="utf-8"></head>'


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("shell") / "site"
    before = tree(shipped_root() / "handbook_src")
    build_site(fake_site(), folder)
    assert tree(shipped_root() / "handbook_src") == before, "nothing is written into handbook_src"
    yield folder


def other_machine() -> dict[str, str]:
    """Another time zone, hash seed, language and SOURCE_DATE_EPOCH."""
    return os.environ | {
        "TZ": "Pacific/Kiritimati",
        "PYTHONHASHSEED": "4711",
        "LC_ALL": "C",
        "SOURCE_DATE_EPOCH": "1",
        "PYTHONPATH": str(shipped_root()),
    }


def tree(folder: Path) -> dict[str, str]:
    """Every file by its path, as a digest."""
    files = sorted(file for file in folder.rglob("*") if file.is_file())
    return {
        file.relative_to(folder).as_posix(): hashlib.sha256(file.read_bytes()).hexdigest() for file in files
    }


def pages(folder: Path) -> list[Path]:
    return sorted(folder.rglob("*.html"))


# ---- what is published


def test_every_page_and_file_has_its_place(built: Path) -> None:
    site = fake_site()
    for page in site.pages:
        assert built.joinpath(page.path, "index.html").is_file()
    for asset in site.assets:
        content = asset.content.encode() if isinstance(asset.content, str) else asset.content
        assert built.joinpath(asset.path).read_bytes() == content


def test_only_our_own_files_are_published(built: Path) -> None:
    """No script or style sheet of the theme, no map of one, no search index, no dated archive."""
    pages_and_data = {".html", ".json", ".csv", ".xml"}
    others = {name for name in tree(built) if Path(name).suffix not in pages_and_data}
    assert others == {MARKER, *(f"assets/{name}" for name in tree(shipped_root() / "site_overrides/assets"))}
    assert not built.joinpath("sitemap.xml.gz").exists()


def test_a_hand_written_page_comes_before_the_generated_body(tmp_path: Path) -> None:
    site = fake_site()
    beside = replace(site.pages[1], path="safety/")
    build_site(replace(site, pages=(*site.pages, beside)), tmp_path / "site")
    html = tmp_path.joinpath("site/safety/index.html").read_text()
    assert html.index("A chain that comes apart") < html.index('id="fits-caption"')
    assert html.count("<h1") == 1


def test_what_printed_templates_leave_behind_is_freed_as_pages_go(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site, page = fake_site(), fake_site().pages[4]
    more = tuple(replace(page, path=f"pairs/blue-520/more-{at}/") for at in range(60))

    def left(swept_together: int) -> int:
        monkeypatch.setattr(plugin, "SWEPT_TOGETHER", swept_together)
        with collector_resting():
            build_site(replace(site, pages=(*site.pages, *more)), tmp_path / str(swept_together))
            found = sum(isinstance(each, Context) for each in gc.get_objects())
        gc.collect()
        return found

    assert left(10) < 20 + 60 < left(10_000)
    assert gc.get_freeze_count() == 0


def test_each_page_has_one_link_past_the_frame(built: Path) -> None:
    """The theme's own would come before ours, in other words, on pages written by hand."""
    for file in pages(built):
        html = file.read_text()
        assert "md-skip" not in html, file
        assert len(re.findall(r">\s*Skip to ", html)) == 1, file


def test_each_page_says_its_title_and_description(built: Path) -> None:
    html = built.joinpath("chains/blue-520/index.html").read_text()
    assert "<title>blue-520 - Larch Hollow Trail Riders</title>" in html
    assert '<meta name="description" content="Links on blue-520.">' in html
    for file in pages(built):
        assert re.search(r'<meta name="description" content="[^"]+">', file.read_text()), file


def test_no_page_points_to_another_host(built: Path) -> None:
    for file in pages(built):
        assert not re.search(r'(?:src|href)="(?:https?:)?//', file.read_text()), file


def test_links_to_folders_name_their_index_page(built: Path) -> None:
    """A folder on disk has no index page of its own, so file:// needs the name."""
    for file in pages(built):
        assert not re.search(r'href="[^"#]*/(?:#[^"]*)?"', file.read_text()), file


def test_the_sitemap_lists_every_page_without_a_date(built: Path) -> None:
    root = ElementTree.parse(built / "sitemap.xml").getroot()
    space = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
    listed = [element.text for element in root.iter(f"{space}loc")]
    own = [
        f"/{page.parent.relative_to(built).as_posix()}/" for page in pages(built) if page.name != "404.html"
    ]
    assert listed == sorted("/" if path == "/./" else path for path in own)
    assert list(root.iter(f"{space}lastmod")) == []


def test_the_published_address_is_used_where_it_is_known() -> None:
    assert "<loc>https://example.org/club/chains/</loc>" in sitemap("https://example.org/club/", ["chains/"])
    assert "<loc>https://example.org/a&amp;b/</loc>" in sitemap("https://example.org/a&b", [""])


# ---- policy


def test_every_page_carries_the_policy_before_anything_it_governs(built: Path) -> None:
    for file in pages(built):
        html = file.read_text()
        meta = html.index('http-equiv="Content-Security-Policy"')
        assert meta < min(html.index("<script"), html.index("<link"))
        content = re.search(r'Content-Security-Policy" content="([^"]*)"', html)
        assert content is not None
        rules = dict(rule.split(" ", 1) for rule in content[1].split("; "))
        assert rules["default-src"] == "'none'"
        assert (rules["base-uri"], rules["form-action"]) == ("'none'", "'self'")
        assert "unsafe" not in content[1]
        assert "data:" not in content[1]


def test_the_policy_names_the_digest_of_each_inline_script(built: Path) -> None:
    """CSP level 3, section 2.3.1: sha256 of the script's text, in base64."""
    for file in pages(built):
        html = file.read_text()
        found = re.findall(r"<script>(.*?)</script>", html, re.DOTALL)
        assert len(found) == 1
        for script in found:
            digest = base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()
            assert f"'sha256-{digest}'" in html


def test_data_blocks_and_script_files_need_no_digest() -> None:
    html = (
        '<script type="application/json">{"a": 1}</script><script src="a.js"></script>'
        '<script type="text/javascript">run()</script><script>go()</script>'
    )
    assert inline_scripts(html) == ("run()", "go()")


@pytest.mark.parametrize(
    "inside",
    [
        '<p style="color:red">x</p>',
        "<p style='color:red'>x</p>",
        '<svg STYLE="a"></svg>',
        "<style>p{}</style>",
        '<body onload="x()">',
        '<a href="javascript:x()">x</a>',
        '<a href=" JavaScript:x()">x</a>',
        "<p\nonclick=x>y</p>",
        "<svg/onload=x>",
    ],
)
def test_what_the_policy_would_block_stops_the_build(inside: str) -> None:
    with pytest.raises(PolicyFault):
        finished(f"{HEAD}{inside}")


@pytest.mark.parametrize(
    "inside",
    [
        '<p title="a style = b">write style="x" or onclick=</p>',
        "<p>there is one = two, javascript: is a word</p>",
        "<p>&lt;style&gt;</p>",
    ],
)
def test_text_that_only_speaks_of_styles_is_fine(inside: str) -> None:
    assert inside in finished(f"{HEAD}{inside}")


@pytest.mark.parametrize(
    "script",
    [
        "<script>own()</script>",
        "<SCRIPT>own()</SCRIPT >",
        '<script type="module">own()</script>',
        "<script>ours() </script>",
    ],
)
def test_a_script_that_is_not_ours_gets_no_digest_but_stops_the_build(script: str) -> None:
    with pytest.raises(PolicyFault, match=r"line 2: a script within the page that is not ours: ou?"):
        finished(f"{HEAD}\n{script}", ("ours()",))
    assert "sha256" in finished(f"{HEAD}<script>ours()</script>", ("ours()",))


def test_the_address_of_the_site_is_escaped(tmp_path: Path) -> None:
    build_site(fake_site(), tmp_path / "site", settings={"site_url": "https://x.org/a&copy=1/'b/"})
    html = tmp_path.joinpath("site", "chains", "blue-520", "index.html").read_text()
    canonical = re.search(r'<link rel="canonical" href="([^"]*)"', html)
    assert canonical is not None
    assert canonical[1] == "https://x.org/a&amp;copy=1/&#39;b/chains/blue-520/"
    assert not any("a&copy" in page.read_text() for page in pages(tmp_path / "site"))


def test_a_page_without_a_place_for_its_policy_is_refused() -> None:
    with pytest.raises(PolicyFault, match="once"):
        finished("<head></head>")


@pytest.mark.parametrize(
    ("link", "becomes"),
    [
        ('href="../chains/"', 'href="../chains/index.html"'),
        ('href="./"', 'href="./index.html"'),
        ('href="../pairs/a/#b-1"', 'href="../pairs/a/index.html#b-1"'),
        ('href="#here"', 'href="#here"'),
        ('href="a.csv"', 'href="a.csv"'),
        ('href="https://example.org/"', 'href="https://example.org/"'),
    ],
)
def test_links_that_end_in_a_folder(link: str, becomes: str) -> None:
    assert becomes in finished(f"{HEAD}<a {link}>x</a>")


@pytest.mark.parametrize(
    ("page", "asset", "names"),
    [
        (Page("broken/", "x", "x", "handbook/not-there.html", {}), None, "not-there.html"),
        (None, Asset("bad/page.html", f'{HEAD}<p style="a">x</p>'), r"bad/page.html: line 1: .* style"),
    ],
)
def test_a_page_that_fails_leaves_the_old_site(
    tmp_path: Path, page: Page | None, asset: Asset | None, names: str
) -> None:
    target = tmp_path / "site"
    build_site(fake_site(), target)
    before = tree(target)
    good = fake_site()
    bad = replace(
        good,
        pages=good.pages + ((page,) if page else ()),
        assets=good.assets + ((asset,) if asset else ()),
    )
    with pytest.raises(Exception, match=names):
        build_site(bad, target)
    assert tree(target) == before
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


def test_the_builder_is_strict(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A broken link in a hand-written page is a warning of the builder, and so a failed build."""
    monkeypatch.setattr(
        "generator.site.plugin.prose", lambda _env, text, _path, _values: f"{text}\n[gone](gone.md)\n"
    )
    with pytest.raises(BuildFailed, match="strict"):
        build_site(fake_site(), tmp_path / "site")
    assert not tmp_path.joinpath("site").exists()


# ---- escaping


def test_hostile_text_is_shown_as_typed(built: Path) -> None:
    html = built.joinpath("hostile/index.html").read_text()
    assert "<script>alert(1)" not in html
    assert html.count("&lt;script&gt;alert(1)&lt;/script&gt;") >= 6  # title, head, lead, caption, cells, menu
    assert "49" not in html.split('id="content"')[1], "braces in data are not run"


def test_a_name_that_is_not_there_stops_a_page() -> None:
    env = environment(DictLoader({"a.html": "{{ nmae }}"}))
    with pytest.raises(UndefinedError, match="nmae"):
        page_body(env, Page("", "t", "d", "a.html", {"name": "x"}))


def test_none_is_never_printed() -> None:
    env = environment(DictLoader({"a.html": "{{ name }}"}))
    with pytest.raises(TypeError, match="None"):
        page_body(env, Page("", "t", "d", "a.html", {"name": None}))


def test_addresses_count_from_the_page() -> None:
    env = environment(DictLoader({"a.html": "{{ href('links/x/#y') }} {{ href('') }}"}))
    assert page_body(env, Page("pairs/a/b/", "t", "d", "a.html", {})) == "../../../links/x/#y ../../../"
    assert relative_address("", "") == "./"
    assert relative_address("chains/", "chains/a/") == "a/"
    assert relative_address("pairs/a/b/", "pairs/a/c/") == "../c/"
    assert relative_address("pairs/a/", "pairs/a/#b") == "#b"
    assert relative_address("pairs/a/", "pairs/ab/") == "../ab/"
    assert relative_address("data/", "data/v1/x.csv") == "v1/x.csv"


def test_values_in_hand_written_pages_are_not_markup() -> None:
    import markdown

    env = environment(DictLoader({}))
    text = prose(env, "# {{ v }}\n\nSay {{ v }}.\n\n{{ dash }}\n", "a/", {"v": HOSTILE, "dash": "- item"})
    html = markdown.markdown(text, extensions=["attr_list", "tables"])
    assert [element.tag for element in ElementTree.fromstring(f"<x>{html}</x>").iter()] == [
        "x",
        "h1",
        "p",
        "p",
    ]
    shown = "".join(ElementTree.fromstring(f"<x>{html}</x>").itertext()).split("\n")
    assert shown == [HOSTILE, f"Say {HOSTILE}.", "- item"]


def test_hand_written_pages_are_strict_and_keep_heading_ids() -> None:
    env = environment(DictLoader({}))
    assert prose(env, "## A {#a}\n", "", {}) == "## A {#a}"
    with pytest.raises(UndefinedError, match="nmae"):
        prose(env, "{{ nmae }}", "", {"name": "x"})


# ---- menu, lengths, verdicts


def test_the_menu_lists_what_there_is_and_loses_nothing() -> None:
    titles = {"": "Start", "b/": "B", "new/": "New"}
    groups = menu_of({"One": ["", "gone/"], "Empty": ["gone/"], "Two": ["b/"]}, titles)
    assert [(group.title, [entry.path for entry in group.entries]) for group in groups] == [
        ("One", [""]),
        ("Two", ["b/"]),
        ("More", ["new/"]),
    ]


@pytest.mark.parametrize(
    ("nm", "mm", "inch"),
    [
        (14_920_000, "14.92 mm", "0.5874 in"),
        (15_875_000, "15.88 mm", "0.6250 in"),  # 5/8 in is 15.875 mm exactly: 1 in is 25.4 mm by definition
        (-30_000, "−0.03 mm", "−0.0012 in"),
        (0, "0.00 mm", "0.0000 in"),
        (-3_000, "−0.003 mm", "−0.0001 in"),  # a clash of three microns must not read as none
        (1, "0.000001 mm", "0.00000004 in"),
        (-1, "−0.000001 mm", "−0.00000004 in"),
    ],
)
def test_lengths_are_shown_in_both_units(nm: int, mm: str, inch: str) -> None:
    shown = shown_length(nm)
    assert (shown.mm, shown.inch) == (mm, inch)


def test_a_page_keeps_the_shapes_it_uses_and_no_indentation_outside_pre() -> None:
    shapes = '<svg>\n  <symbol id="a"><path/></symbol>\n  <symbol id="b"><path/></symbol>\n</svg>'
    html = finished(f'{HEAD}{shapes}\n\n    <p>x\n\n  y</p><pre>x\n\n  y</pre><use href="#b"/>')
    assert '<symbol id="b">' in html and '<symbol id="a">' not in html
    assert "<p>x\ny</p><pre>x\n\n  y</pre>" in html


def test_a_range_is_named_in_words() -> None:
    shown = shown_verdict("measure-first", 1, 3)
    assert (shown.word, shown.label, shown.span) == ("measure-first", "measure first", "get-home to no-go")


# ---- colours


def luminance(colour: str) -> Fraction:
    """Relative luminance, WCAG 2.2, 'relative luminance'."""
    digits = colour.removeprefix("#")
    digits = "".join(d * 2 for d in digits) if len(digits) == 3 else digits
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
    return Fraction(0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2])


def contrast(one: str, other: str) -> float:
    """WCAG 2.2, 'contrast ratio'."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return float((light + Fraction(5, 100)) / (dark + Fraction(5, 100)))


# what is written on what; the plates and hazards each carry their own ink
TEXT_ON = [
    *((ink, ground) for ink in ("ink", "soft", "accent") for ground in ("ground", "leaf")),
    ("accent", "accent-wash"),
    ("accent-ink", "accent"),
    ("bar-ink", "bar"),
    ("soft", "far"),
    ("ink", "leaf"),
    ("hazard-ink", "hazard-ground"),
    *((f"{plate}-ink", plate) for plate in ("proper", "home", "last", "stop", "open")),
]
VERDICTS = ("proper", "home", "last", "stop")


def palettes() -> dict[str, dict[str, str]]:
    css = shipped_root().joinpath("site_overrides/assets/face.css").read_text()
    blocks = re.findall(r"([^{}]*)\{([^{}]*--ink:[^{}]*)\}", css)
    found = [dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{3,6});", body)) for _selector, body in blocks]
    light, dark_by_device, dark_by_choice, paper = found
    assert dark_by_device == dark_by_choice, "dark is one palette, written twice"
    return {"light": light, "dark": {**light, **dark_by_device}, "print": {**light, **paper}}


@pytest.mark.parametrize("palette", ["light", "dark", "print"])
@pytest.mark.parametrize(("text", "ground"), TEXT_ON)
def test_text_has_a_contrast_of_seven_to_one(palette: str, text: str, ground: str) -> None:
    colours = palettes()[palette]
    assert contrast(colours[text], colours[ground]) >= 7, (colours[text], colours[ground])


@pytest.mark.parametrize("palette", ["light", "dark"])
def test_the_worse_the_verdict_the_further_its_plate_is_from_the_ground(palette: str) -> None:
    """In lightness alone, so that the order survives grey and any colour blindness; no-go stands out most of all."""
    colours = palettes()[palette]
    away = [contrast(colours[plate], colours["ground"]) for plate in VERDICTS]
    assert away == sorted(away) and away[-1] >= 15, away
    for one, other in pairwise(VERDICTS):
        assert contrast(colours[one], colours[other]) >= 1.5, (one, other)


def test_no_go_is_white_on_black_on_paper() -> None:
    colours = palettes()["print"]
    assert (colours["stop"], colours["stop-ink"]) == ("#000", "#fff")
    assert {colours[plate] for plate in VERDICTS[:3]} == {"#fff"}


@pytest.mark.parametrize("palette", ["light", "dark"])
def test_verdicts_are_cold_hazards_and_controls_are_warm(palette: str) -> None:
    """No plate has a hue of a control or of a hazard: more blue than red in each that has any colour."""
    colours = palettes()[palette]
    for plate in VERDICTS[:3]:
        red, _green, blue = (int(colours[plate][at : at + 2], 16) for at in (1, 3, 5))
        assert blue > red, plate
    for warm in ("accent", "hazard"):
        red, _green, blue = (int(colours[warm][at : at + 2], 16) for at in (1, 3, 5))
        assert red > blue, warm


# ---- the same bytes


SCRIPT = """
import os, sys
from pathlib import Path
os.umask(int(sys.argv[2], 8))
from generator.site.build import build_site
from tests.fake_site import fake_site
build_site(fake_site(), Path(sys.argv[1]))
"""


def test_the_same_data_gives_the_same_bytes(built: Path, tmp_path: Path) -> None:
    """Another folder, time zone, hash seed, umask, language and SOURCE_DATE_EPOCH."""
    target = tmp_path / "elsewhere" / "deep" / "other-name"
    command = [sys.executable, "-c", SCRIPT, str(target), "077"]
    subprocess.run(command, env=other_machine(), cwd=tmp_path, check=True)
    assert tree(target) == tree(built)


def test_two_builds_in_one_process_do_not_mix(built: Path, tmp_path: Path) -> None:
    whole = fake_site()
    build_site(replace(whole, pages=whole.pages[:1], assets=()), tmp_path / "small")
    assert not tmp_path.joinpath("small/hostile").exists()
    build_site(fake_site(), tmp_path / "again")
    assert tree(tmp_path / "again") == tree(built)


def test_progress_is_told_page_by_page(tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    build_site(fake_site(), tmp_path / "site", lambda done, total: told.append((done, total)))
    assert told == [(number, len(told)) for number in range(1, len(told) + 1)]
