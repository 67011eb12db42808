"""What customers ask about: the topics a reply can take up, and which of them a message seems to be about.

Words and weights are data (TOML beside this file), so that a support desk can read why a topic was proposed.
"""
