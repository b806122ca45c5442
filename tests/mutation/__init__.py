"""Single faults planted in the product, one at a time, and which tests notice: `python -m tests.mutation`.

A mutant that no test notices says that what it changes is not tested. Mutants are drawn evenly, by a seed,
over all that the operators can make (`operators.py`); each meets only the tests that reach its statement
(`reach.py`), nearest and fastest first, until one fails or 10 s of processor time are used (`trial.py`).
"""
