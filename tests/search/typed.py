"""Words and lengths of a text, read as site_overrides/assets/search-words.js reads them."""

import re
import unicodedata
from dataclasses import dataclass
from itertools import pairwise

_VULGAR = re.compile("[¼½¾⅛⅜⅝⅞]")
_PLAIN = str.maketrans({"×": "x", "⁄": "/", "“": '"', "”": '"', "″": '"', "’": None, "'": None})
_LENGTH = re.compile(
    r"""(?:\b([0-9]{1,2})[ -])?\b([0-9]{1,2})/(2|4|8|16|32|64)(?![0-9])(?:[ -]?(?:inch(?:es)?\b|in\b|"))?"""
    r"""|(?:\b([0-9]+(?:[.,][0-9]+)?)|\B([.,][0-9]+))[ -]?(mm\b|inch(?:es)?\b|in\b|")"""
    r"""|\b([0-9]+[.,][0-9]+)\b|\B([.,][0-9]{2,})\b""",
    re.ASCII,  # as the word boundaries of scripts are
)
_LETTERS = r"[^\W\d_]+"
_MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class TypedLength:
    """`near` is how far it may be off by the digits that were typed."""

    mm: float
    near: float
    fraction: bool = False


@dataclass(frozen=True, slots=True)
class Typed:
    """`joined` are words that may as well be written as one."""

    words: tuple[str, ...]
    lengths: tuple[TypedLength, ...]
    joined: tuple[str, ...]


def is_word(text: str) -> bool:
    return text >= "a"


def typed(text: str) -> Typed:
    lengths: list[TypedLength] = []

    def take(match: re.Match[str]) -> str:
        lengths.append(_length(match))
        return " | "

    rest = _LENGTH.sub(take, _plain(text))
    words: list[str] = []
    before = "a"
    for found in re.findall(rf"{_LETTERS}|[0-9]+|\|", rest):
        if found == "|":
            before = "a"
            continue
        before = _heavy(re.sub("^0+(?=[0-9])", "", found), before)
        words.append(before)
    return Typed(tuple(words), tuple(lengths), (*_hyphened(rest), *_single_letters(words)))


def typed_label(label: str) -> Typed:
    """`tin-14-inch` is a label, not a length."""
    return typed(apart(label))


def apart(label: str) -> str:
    return label.replace("-", " _ ")


def _plain(text: str) -> str:
    spaced = unicodedata.normalize("NFKD", _VULGAR.sub(lambda match: f" {match[0]}", text)).lower()
    return re.sub("[\u0300-\u036f]", "", spaced).translate(_PLAIN)


def _length(match: re.Match[str]) -> TypedLength:
    whole, over, under, number, pointed, unit, bare, short = match.groups()
    if over:
        return TypedLength((int(whole or 0) + int(over) / int(under)) * _MM_PER_INCH, 0.05, True)
    digits = (number or pointed or bare or short).replace(",", ".")
    inches = unit != "mm" if unit else bool(re.match(r"0?\.[0-9]{3}", digits)) or digits.startswith(".")
    scale = _MM_PER_INCH if inches else 1.0
    places = len(digits.partition(".")[2])
    return TypedLength(float(digits) * scale, max(0.5 * 10.0**-places * scale, 0.006))


def _heavy(word: str, before: str) -> str:
    """`520MH` and `520 h` are the heavy series."""
    return "heavy" if word == "mh" or (word == "h" and not is_word(before)) else word


def _hyphened(text: str) -> list[str]:
    return [word.replace("-", "") for word in re.findall(f"{_LETTERS}(?:-{_LETTERS})+", text)]


def _single_letters(words: list[str]) -> list[str]:
    pairs = pairwise(words)
    return [a + b for a, b in pairs if len(a) == 1 and is_word(a) and a not in "ai" and is_word(b)]


def stem(word: str) -> str:
    if len(word) < 4 or not is_word(word):
        return word
    if word.endswith("s") and not word.endswith("ss"):
        word = word[:-1]
    if len(word) >= 7 and word.endswith("ing"):
        word = word[:-3]
    elif len(word) >= 6 and word.endswith("ed"):
        word = word[:-2]
    return word[:-1] if len(word) >= 5 and word.endswith("e") else word


def one_off(a: str, b: str) -> bool:
    """One letter too few, too many, another one, or two neighbours the wrong way round."""
    if a == b or abs(len(a) - len(b)) > 1:
        return False
    same = next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), min(len(a), len(b)))
    rest_a, rest_b = a[same:], b[same:]
    swapped = rest_a[:2] == rest_b[1::-1] and len(rest_b) > 1 and rest_a[2:] == rest_b[2:]
    return swapped or rest_a[1:] == rest_b[1:] or rest_a == rest_b[1:] or rest_a[1:] == rest_b
