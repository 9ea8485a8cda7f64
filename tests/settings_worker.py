"""The product's settings with the slow paper of the tests; everything else comes from the environment."""

from shopfloor.settings import *  # noqa: F403
from shopfloor.settings import INSTALLED_APPS

INSTALLED_APPS = [*INSTALLED_APPS, "tests.slow_jobs"]
