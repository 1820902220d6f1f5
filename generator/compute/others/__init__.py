"""Parts other than a link on a chain: clips, seals, side plates, strips and tools, by the same rules and evaluator."""
