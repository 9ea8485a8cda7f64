from django.apps import AppConfig
from django.core import checks


class ScenarioConfig(AppConfig):
    name = "engines.scenario"

    def ready(self) -> None:
        from engines.scenario.checks import check_no_scenario
        from engines.scenario.names import BEGUN, NAMES, kind_of
        from shopfloor.ledger.kinds import register_kind

        checks.register(check_no_scenario, checks.Tags.database)
        register_kind(BEGUN, sentence=lambda event: "loading the demo was begun")
        for name in NAMES:
            register_kind(kind_of(name), sentence=lambda event: f"the chapter {event.kind.split('.')[1]} of the demo was loaded")
