"""The rules of the data, read: their forms, their limits as whole rows, and the names that they speak of."""
