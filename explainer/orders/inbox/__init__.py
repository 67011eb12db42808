"""Paths → the orders in them as plain data, one after the other, each with its place."""
