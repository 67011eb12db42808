"""What sets pages: HTML in, PDF out. It knows no order and no word."""
