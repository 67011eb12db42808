"""A workshop's own words: what it may write, what must stay of ours, and how its templates are run.

A house template is read as a syntax tree and held to a short list of means before it is run, and it is run in a sandbox
only. `words` and `means` say what may stand in it, `kept` what of ours must stand in it, `files` where it may lie,
`sections` which of our sections it may take the place of, and `speaking` lets it speak.
"""
