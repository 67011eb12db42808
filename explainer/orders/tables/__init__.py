"""Tables of orders: rows, columns, cells."""
