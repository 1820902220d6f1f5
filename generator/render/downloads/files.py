"""Every file to take away that is not a table: fits, records, the catalogue, and the schemas beside them."""

from collections.abc import Iterable

from generator.compute.all_fits import AllFits
from generator.model.dataset import Dataset
from generator.problems.catalogue import Catalogue
from generator.render.base.page import Asset, Page, table_file
from generator.render.contract.envelope import Plain, document, json_text
from generator.render.contract.fits_json import fits_document
from generator.render.contract.others_json import other_documents
from generator.render.contract.plan_json import plan_document
from generator.render.contract.wear_json import wear_document
from generator.render.downloads.csv_text import csv_text
from generator.render.downloads.data_table import data_table
from generator.render.downloads.record_files import record_documents, record_schemas
from generator.render.schema.club import club_schemas
from generator.render.schema.contract import contract_schemas
from generator.render.schema.others import other_schemas

FOLDER = "data/v1"


def data_files(dataset: Dataset, fits: AllFits, catalogue: Catalogue) -> tuple[Asset, ...]:
    """Sorted by address; each document has its schema under the same name in schema/, a club's own files in schema/club/."""
    documents = {
        **record_documents(dataset),
        "fits.json": fits_document(dataset, fits.pairs, fits.apart),
        "problems.json": problems_document(dataset, catalogue),
        "wear.json": wear_document(dataset, fits.wear),
        "plan.json": plan_document(dataset, fits.plans.club),
    }
    documents |= {f"{name}.json": found for name, found in other_documents(dataset, fits.others).items()}
    contract = contract_schemas() | other_schemas()
    schemas = record_schemas() | {f"{name}.json": schema for name, schema in contract.items()}
    files = documents | {f"schema/{name}": schema for name, schema in schemas.items()}
    files |= {f"schema/club/{name}": schema for name, schema in club_schemas().items()}
    return tuple(Asset(f"{FOLDER}/{name}", json_text(files[name])) for name in sorted(files))


def files_of_tables(pages: Iterable[Page]) -> tuple[Asset, ...]:
    """The tables of all pages as CSV, sorted by address; a table on two pages is written once."""
    assets = {table_file(table): table for page in pages for table in page.tables}
    return tuple(Asset(path, csv_text(data_table(assets[path]))) for path in sorted(assets))


def problems_document(dataset: Dataset, catalogue: Catalogue) -> Plain:
    entries = [
        {
            "code": entry.code,
            "title": entry.title,
            "level": entry.level,
            "why": entry.why,
            "fix": entry.fix,
            "good": dict(entry.good),
            "bad": dict(entry.bad),
            "at": entry.at,
        }
        for entry in catalogue.values()
    ]
    return document("problems/1", dataset, {"problems": entries})
