"""Random persons at a small engine: what they do, who watches, and what may never be so. Used by `test_walks.py`."""
