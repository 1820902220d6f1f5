"""What the handbook talks about: quantities, the records people write, the parts they mean."""
