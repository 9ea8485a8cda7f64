"""The run on the stand: the schedule of the engine data held step by step, what was read and answered, and how it ended.

Runs, steps, readings, answers and logs never change; closing a run or a step, once, is the only update. How a run stands is
computed from them each time (`standing`, pure, exact); when it ends, what was found is kept with it. A run that fails opens
again the areas that the data name. The gate that asks for a passed run is above, in `release`.
"""
