"""What a single value, text or file from outside may hold. Knows no order."""
