"""Files to take away: every table as CSV and JSON, every record as JSON, each with its schema."""
