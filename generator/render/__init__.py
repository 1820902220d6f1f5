"""Results in, text out; nothing is computed and nothing is written here."""
