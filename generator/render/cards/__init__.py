"""What stands on the printed cards, as data."""
