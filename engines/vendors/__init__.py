"""Work that is done outside the shop: the register of vendors, and every order with what was asked and what came back.

A vendor does what its approval names, from the day it begins until the day it ends, and nothing while it is suspended; that is
asked when work is ordered, when the part is sent, and of the date on the vendor's certificate. Whoever is out is nowhere else:
the rooms that fit, tag and read parts ask here. An item has one open order at a time.
"""
