"""What customers ask about: the topics a reply can take up, and which of them a message seems to be about.

Words and weights are data (TOML beside this file), so that a support desk can read why a topic was proposed:
`catalogue.toml` holds the topics, `terms_*.toml` words and weights by language, `urgent_*.toml` the signs that must
not wait. Nothing is learnt, and every proposal names its terms. A denied sign ("no flashes") counts as named. The
words decide how well messages are read, so send misread ones into the seen test data and add terms.
"""
