"""Gates: what holds an area back, each one function that lists its reasons; and the moves that they guard.

`services.advance` alone moves an area on. It asks every gate of the stage within the transaction that moves, so nothing can
slip in between. `services.release` lets the engine go: by an inspector of the roster with a certificate on record, who typed
the password again and signs the very text that was shown; it closes the visit. What is wrong in a release is corrected by
another one that takes its place, and the customer is told. Serious defects are kept with the hour until which they are reported.
"""
