"""Commands that need neither worker nor printer start without their libraries."""

import subprocess
import sys


def test_starting_django_loads_neither_the_queue_nor_the_renderer():
    heavy = "import django, sys; django.setup(); print(sorted({'celery', 'kombu', 'weasyprint'} & set(sys.modules)))"
    started = subprocess.run([sys.executable, "-c", heavy], capture_output=True, text=True, check=True)
    assert started.stdout.strip() == "[]"
