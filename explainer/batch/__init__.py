"""Many orders in one run: worker processes, the report, and going on where an earlier run stopped. Prints nothing."""
