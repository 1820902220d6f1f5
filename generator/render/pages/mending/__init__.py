"""Pages of repairs, of the spares list and of rides."""
