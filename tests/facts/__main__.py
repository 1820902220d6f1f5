"""Writes data/how_sure.yaml anew; run from the top of the checkout."""

from tests.facts.moved import TARGET, text

if __name__ == "__main__":
    TARGET.write_text(text(), encoding="utf-8")
    print(f"{TARGET.name} written")
