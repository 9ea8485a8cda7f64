from django.urls import path

from shopfloor.auditing import views

app_name = "auditing"
urlpatterns = [
    path("", views.events, name="events"),
    path("<str:chain>/<int:sequence>/", views.event, name="event"),
]
