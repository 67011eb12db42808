"""FHIR VisionPrescription of R4, R4B and R5."""
