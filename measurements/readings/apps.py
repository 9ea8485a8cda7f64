from django.apps import AppConfig


class ReadingsConfig(AppConfig):
    name = "measurements.readings"

    def ready(self) -> None:
        from measurements.readings import ledger, paper, records
        from measurements.readings.models import Sheet
        from shopfloor.documents.kinds import register_document_kind
        from shopfloor.ledger.append_only import protect
        from shopfloor.ledger.kinds import register_kind
        from shopfloor.ledger.records import register_record

        protect(Sheet)
        register_record(Sheet, content=records.content, private=("title",))
        register_kind("sheet.judged", sentence=records.sentence, link=records.link)
        register_document_kind(paper.kind)
        ledger.register()
