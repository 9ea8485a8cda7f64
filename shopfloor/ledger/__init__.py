"""The append-only record of every act, and its proofs. Knows no other room."""
