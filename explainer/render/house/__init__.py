"""A workshop's own words: what it may write, what must stay of ours, and how its templates are run.

A house template is read as a syntax tree and held to a short list of means before it is run, and it is run in a
sandbox only. `words` and `means` say what may stand in it, `kept` what of ours must stand in it, `files` where it
may lie, `sections` which of our words it may take the place of, and `speaking` lets it speak.

In the folder that `house_wording` names, `sections/care.md` stands for the whole section, `sections/care.steps.md`
for its block `steps`, `sections/care.ending.md` adds words at its end. The words are Markdown with the names of
`means`, without `trans`. They are in the workshop's language and speak in no other; another language has its folder,
`sections/de/`. Everything of ours that rests on a claim must stand in theirs, visibly, under no condition that ours
has not. Nothing on the page tells who worded it: the letterhead does.
"""
