"""The building: wiring, persons, the ledger, jobs and documents. Knows no engine and no measurement."""
