"""The other way to search: lunr, from installed packages, over the same entries and with the same reading of what is typed."""

import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import mkdocs
from lunr import get_default_builder, lunr  # type: ignore[import-untyped]

from tests.search.typed import stem, typed

FIELDS = {"label": 10, "title": 8, "phrases": 6, "kind": 6, "says": 3, "words": 3, "lengths": 6}
LIBRARY = Path(mkdocs.__file__).with_name("contrib") / "search" / "templates" / "search" / "lunr.js"
# hundredths of a millimetre and thousandths of an inch are words of their own; one letter off and begun words count less
FIND = """
const index = lunr.Index.load(window.lunrIndex);
const stop = new Set(window.lunrRows.stop.split(" "));
const isWord = window.handbookWords.isWord;
const ask = (query, word) => {
  query.term(word, {boost: 10});
  if (isWord(word) && word.length > 1) { query.term(word, {boost: 2, wildcard: lunr.Query.wildcard.TRAILING}); }
  if (isWord(word) && word.length > 2) { query.term(word, {boost: 3, editDistance: 1}); }
};
window.lunrFind = (text) => {
  const read = window.handbookWords.read(text);
  const says = (word, i) => !stop.has(word) || (word.length === 1 && i > 0 && !isWord(read.words[i - 1]));
  const words = read.words.filter(says);
  const found = index.query((query) => {
    [...(words.length ? words : read.words), ...read.joined].forEach((word) => ask(query, window.handbookWords.stem(word)));
    read.lengths.forEach((length) => {
      query.term("m" + Math.round(length.mm * 100), {boost: 8});
      query.term("i" + Math.round(length.mm / 0.0254), {boost: 8});
    });
  });
  return found.map((one) => window.lunrRows.docs[one.ref][0]);
};
"""


def files(index: Mapping[str, Any]) -> dict[str, str]:
    """Library without its comments, index, and the rows that a list shows."""
    rows = [row[:4] for row in index["docs"]]
    return {
        "library": _without_comments(LIBRARY.read_text(encoding="utf-8")),
        "index": f"window.lunrIndex={_compact(_serialized(index))};",
        "rows": f"window.lunrRows={_compact({'docs': rows, 'stop': index['stop']})};",
    }


def _serialized(index: Mapping[str, Any]) -> Any:
    builder = get_default_builder()
    builder.pipeline.reset()  # stems and small words are seen to before, for both searches alike
    builder.search_pipeline.reset()
    fields = [{"field_name": name, "boost": boost} for name, boost in FIELDS.items()]
    rows = enumerate(index["docs"])
    documents = [
        ({"id": str(number), **dict(_fields(row, index))}, {"boost": row[4] / 100}) for number, row in rows
    ]
    return lunr(ref="id", fields=fields, documents=documents, builder=builder).serialize()


def _fields(row: list[Any], index: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    stop = index["stop"].split()
    texts = {
        "label": row[5],
        "title": [row[1]],
        "phrases": row[6],
        "kind": [index["kinds"][row[2]]],
        "says": [row[3]],
        "words": row[8:],
    }
    for name, parts in texts.items():
        read = [typed(part) for part in parts]
        yield (
            name,
            " ".join(stem(word) for each in read for word in (*each.words, *each.joined) if word not in stop),
        )
    numbers = (
        word
        for micrometres in row[7][1::2]
        for word in (f"m{round(micrometres / 10)}", f"i{round(micrometres / 25.4)}")
    )
    names = (stem(word) for field in row[7][::2] for word in typed(index["fields"][field]).words)
    yield "lengths", " ".join((*numbers, *names))


def _compact(value: Any) -> str:
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))


def _without_comments(script: str) -> str:
    bare = re.sub(r"/\*.*?\*/", "", script, flags=re.DOTALL)
    lines = (line.strip() for line in bare.splitlines())
    return "\n".join(line for line in lines if line and not line.startswith("//"))
