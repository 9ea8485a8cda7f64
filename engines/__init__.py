"""What stands on the bench.

Its rooms, from the top: papers and benches; release; stores and testbench; packs and traveler; steps; inspection;
visits; parts; catalogue.
"""
