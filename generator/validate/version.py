"""The version of the data: a short digest that changes when a value changes, and not when a club's comment does."""

import json
from hashlib import sha256

from generator.model.node import LoadedFolder, to_plain


def data_version(club: LoadedFolder, shelf: LoadedFolder) -> str:
    """First 12 digits of SHA-256 over the club's values, order of keys and layout aside, and over the text of what
    ships, which one quick answer does not read the whole of."""
    shipped = {name: "\n".join(file.text.splitlines()) for name, file in shelf.files.items()}
    normal = {"club": _plain(club), "shelf": shipped}
    text = json.dumps(normal, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:12]


def _plain(folder: LoadedFolder) -> dict[str, object]:
    files: dict[str, object] = {name: to_plain(file.node) for name, file in folder.files.items() if file.node}
    log = [{name: cell.text for name, cell in row.cells.items()} for row in folder.log]
    return files | {"wear_log": log}
