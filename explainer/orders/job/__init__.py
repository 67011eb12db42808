"""Job files of the spectacle trade's Data Communication Standard, and the rims traced in them."""
