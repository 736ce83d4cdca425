"""A few straight equations in as many unknowns."""

from __future__ import annotations

_HARDLY_ANY = 1e-5
"""Where two equations say so nearly the same that no amount can be told from them."""


def solved(matrix: list[list[float]], wanted: list[float]) -> list[float] | None:
    """Return the solution, or None where rows or columns nearly say the same."""
    count = len(wanted)
    columns = [max(abs(row[place]) for row in matrix) for place in range(count)]
    if not all(columns):
        return None
    rows = []
    for row, right in zip(matrix, wanted, strict=True):
        scaled = [value / most for value, most in zip(row, columns, strict=True)]
        most = max(map(abs, scaled))
        if not most:
            return None
        rows.append([value / most for value in (*scaled, right)])
    for place in range(count):  # Gauss, by the largest of each column
        best = max(range(place, count), key=lambda row: abs(rows[row][place]))
        rows[place], rows[best] = rows[best], rows[place]
        pivot = rows[place]
        if abs(pivot[place]) < _HARDLY_ANY:
            return None
        for number, row in enumerate(rows):
            if number != place:
                share = row[place] / pivot[place]
                rows[number] = [a - share * b for a, b in zip(row, pivot, strict=True)]
    return [row[count] / row[n] / columns[n] for n, row in enumerate(rows)]
