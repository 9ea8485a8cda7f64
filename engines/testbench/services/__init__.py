"""Acts on the stand. Each is one transaction that ends in its event on the engine's chain."""

from engines.testbench.services.answering import answer
from engines.testbench.services.beginning import begin_run
from engines.testbench.services.ending import break_off, end_run
from engines.testbench.services.keeping_logs import keep_log
from engines.testbench.services.reading import Typed, correct, read
from engines.testbench.services.stepping import begin_step, end_step

__all__ = ["Typed", "answer", "begin_run", "begin_step", "break_off", "correct", "end_run", "end_step", "keep_log", "read"]
