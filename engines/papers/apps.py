from django.apps import AppConfig


class PapersConfig(AppConfig):
    name = "engines.papers"

    def ready(self) -> None:
        from engines.papers import build_record, logbook, parts_trace, run_sheet, traveler
        from shopfloor.documents.kinds import register_document_kind

        for paper in (traveler, build_record, parts_trace, logbook, run_sheet):
            register_document_kind(paper.kind)
