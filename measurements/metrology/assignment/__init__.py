"""Selective assembly: which part goes where, so that the worst fit is as good as the parts on the shelf allow.

Everything is decided on whole numbers over one base: floating point never says which of two margins is the greater.
"""
