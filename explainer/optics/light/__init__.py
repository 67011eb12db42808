"""The model of light: places, dyes, glass, and what reaches the eye. It issues no claim; `claims.tint` does."""
