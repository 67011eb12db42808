"""The pair from in front, as someone facing the wearer sees it: the wearer's right lens is on the left."""
