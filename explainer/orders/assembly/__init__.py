"""One order: its fields, its eyes, its job or FHIR file put together, looked over and numbered."""
