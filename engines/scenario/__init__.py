"""The invented shop for trying the product out: Saltmarsh Engine Works, told in chapters that each load once.

On top of everything, because it acts through every room's services, as people would. Never loaded into a real shop.
"""
