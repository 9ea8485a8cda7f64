from django.urls import path

from engines.benches.views import areas, board, discrepancies, home, measuring, operations, receiving, tracing, visits

app_name = "benches"
urlpatterns = [
    path("", home.home, name="home"),
    path("gallery/", home.gallery, name="gallery"),
    path("board/", board.board, name="board"),
    path("board/lines/", board.lines, name="board-lines"),
    path("trace/", tracing.search, name="search"),
    path("trace/<uuid:pk>/", tracing.trace, name="trace"),
    path("receive/", receiving.choose_model, name="choose-model"),
    path("receive/<uuid:pk>/", receiving.receive, name="receive"),
    path("engines/<uuid:pk>/", visits.visit, name="visit"),
    path("engines/<uuid:pk>/parts/", visits.parts_list, name="parts-list"),
    path("engines/<uuid:pk>/papers/", visits.make_paper, name="make-paper"),
    path("engines/<uuid:pk>/photograph/", visits.photograph, name="photograph"),
    path("engines/<uuid:pk>/photos/<uuid:photo_pk>/", visits.photo, name="photo"),
    path("engines/<uuid:pk>/changes/<uuid:line_pk>/", visits.settle, name="settle"),
    path("engines/<uuid:pk>/readings/<uuid:reading_pk>/raise/", discrepancies.raise_from, name="raise-from"),
    path("areas/<uuid:pk>/", areas.area, name="area"),
    path("areas/<uuid:pk>/on/", areas.move_on, name="move-on"),
    path("areas/<uuid:pk>/back/", areas.move_back, name="move-back"),
    path("areas/<uuid:pk>/bench/", areas.rebench, name="rebench"),
    path("areas/<uuid:pk>/raise/", discrepancies.raise_on, name="raise"),
    path("operations/<uuid:pk>/", operations.operation, name="operation"),
    path("operations/<uuid:pk>/enter/", operations.enter_at, name="enter"),
    path("operations/<uuid:pk>/read/", measuring.take, name="take"),
    path("operations/<uuid:pk>/sign/", operations.sign_it, name="sign"),
    path("operations/<uuid:pk>/accept/", operations.accept_it, name="accept"),
    path("operations/<uuid:pk>/open-again/", operations.open_again, name="open-again"),
    path("operations/<uuid:pk>/photos/<str:sha256>/", operations.evidence, name="evidence"),
    path("discrepancies/<uuid:pk>/", discrepancies.discrepancy, name="discrepancy"),
    path("discrepancies/<uuid:pk>/decide/", discrepancies.decide_on, name="decide"),
    path("discrepancies/<uuid:pk>/<uuid:disposition_pk>/second/", discrepancies.second, name="second"),
    path("discrepancies/<uuid:pk>/<uuid:disposition_pk>/done/", discrepancies.done, name="done"),
    path("discrepancies/<uuid:pk>/<uuid:disposition_pk>/replace/", discrepancies.replace, name="replace"),
]
