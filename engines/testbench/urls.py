from django.urls import path

from engines.testbench.views import acts, logs, pages

app_name = "testbench"
urlpatterns = [
    path("engines/<uuid:pk>/", pages.runs, name="runs"),
    path("engines/<uuid:pk>/begin/", acts.begin, name="begin"),
    path("runs/<uuid:pk>/", pages.run, name="run"),
    path("runs/<uuid:pk>/state/", pages.state, name="state"),
    path("runs/<uuid:pk>/steps/begin/", acts.step_on, name="begin-step"),
    path("runs/<uuid:pk>/steps/end/", acts.step_off, name="end-step"),
    path("runs/<uuid:pk>/read/", acts.read_at, name="read"),
    path("runs/<uuid:pk>/answer/", acts.answer_it, name="answer"),
    path("runs/<uuid:pk>/log/", logs.send, name="log"),
    path("runs/<uuid:pk>/end/", acts.end, name="end"),
    path("runs/<uuid:pk>/break-off/", acts.abort, name="break-off"),
    path("readings/<uuid:pk>/correct/", acts.correct_it, name="correct"),
]
