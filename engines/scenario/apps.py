from django.apps import AppConfig
from django.core import checks


class ScenarioConfig(AppConfig):
    name = "engines.scenario"

    def ready(self) -> None:
        from engines.scenario.chapters import BEGUN, CHAPTERS
        from engines.scenario.checks import check_no_scenario
        from shopfloor.ledger.kinds import register_kind

        checks.register(check_no_scenario, checks.Tags.database)
        register_kind(BEGUN, sentence=lambda event: "loading the demo was begun")
        for chapter in CHAPTERS:
            register_kind(chapter.kind, sentence=lambda event: f"the chapter {event.kind.split('.')[1]} of the demo was loaded")
