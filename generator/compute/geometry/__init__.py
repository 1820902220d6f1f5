"""The loop of a chain over two sprockets: length, centre distance, what a shorter loop does to the axle."""
