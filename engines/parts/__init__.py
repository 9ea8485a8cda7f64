"""Items, where each was fitted and when, and the evidence that it may be used; an engine is itself an item, the root of a tree.

An item is in one place at a time. Every fitment keeps two clocks: when it was so, and when we knew; a view of the past
takes both. Closing a fitment, once and as a whole, is its only change.
"""
