from django.urls import path

from measurements.readings import views

app_name = "readings"
urlpatterns = [
    path("", views.sheets, name="sheets"),
    path("judge/", views.judge, name="judge"),
    path("<uuid:pk>/", views.sheet, name="sheet"),
    path("<uuid:pk>/verdicts.csv", views.verdicts, name="verdicts"),
    path("<uuid:pk>/paper/", views.paper, name="paper"),
]
