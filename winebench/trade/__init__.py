"""The arithmetic of the trade: pure functions of floats or numpy arrays, one stated unit each.

Outside the range that its source covers, a rule does not extrapolate: a single number raises
`NotKnown` with a sentence, an element of an array becomes nan.
"""
