"""Who carries what: the smallest load that mends the most, proven and rechecked."""
