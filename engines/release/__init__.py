"""Gates: what holds an area back, each one function that lists its reasons; and the moves that they guard.

`services.advance` alone moves an area on. It asks every gate of the stage within the transaction that moves, so nothing can
slip in between.
"""
