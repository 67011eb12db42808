"""Paths → the orders in them as plain data, one after the other, each with its place.

`entries.py` turns a file into orders: TOML, JSON, a FHIR Bundle, JSON lines, a table or workbook. What breaks the
file is raised and refuses it whole; what is wrong with one row, line or entry comes in its place and stops no other.
`doubles.py` walks through all files once before the first order is used: for broken files, and for numbers that
stand twice. Of each number a hash is kept, so a million rows need little room; nothing here keeps orders, and
callers should not either.
"""
