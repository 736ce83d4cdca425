"""What a person types, read without guessing: amounts, lines, readings, times."""
