"""The workshop: its file, its logo, its colour."""
