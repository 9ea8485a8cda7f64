"""The append-only record of every act, and its proofs. Knows no other room.

`services.record` appends one act: an event in each chain it touches, in the transaction of the change itself. The body of
an event (`canonical`) holds the full record (`records`), with names and free texts as salted hashes (`texts`) that outlive
their erasure (`erasure`); its hash (`hashing`) covers the event before. On PostgreSQL one function does it in one round
trip (`postgresql`), with its owner's rights, so that the application's role (`app_role`) needs none on the ledger.
`append_only` puts triggers on protected tables after every migrate. `queries.verify` checks the chains (`chains`), then the
events against the records (`replay`) and the private texts (`veiled`); without a signed root it finds accidents and partial
edits, not a database owner who rewrites everything. Rooms register what they write in `AppConfig.ready()`.
"""
