"""The gauge register: what a gauge can read, how well, and until when its calibration stands.

Nothing of a gauge changes but its end: it is retired once, with the reason. A calibration is never altered either; a wrong
one is corrected by another that names it. `standing_on` answers the only question that a reading asks: may this gauge
decide this value on that day, and with which expanded uncertainty. Where it may not, the reason goes beside `not judged`.
"""
