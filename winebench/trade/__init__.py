"""The arithmetic of the trade: pure functions in one stated unit each.

An argument annotated `Numbers` takes one number or a numpy array, and the result has the same
shape; other arguments are single. Outside the range that its source covers, a rule does not
extrapolate: a single number raises `NotKnown` with a sentence, an element of an array becomes nan.

A rule is declared beside its function (`rules.rule`) and runs by name with its workings
(`rules.work`), in the window and on the command line alike. It knows nothing of uncertainty:
`measured.run` tries it at the ends of what was measured and between.
"""
