"""What ships as data, changed a little at a time: each change must make a test fail."""
