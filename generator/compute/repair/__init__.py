"""What can be mended with what: which links come out, which parts and tools put the loop together again."""
