from django.urls import path

from measurements.gauges import views

app_name = "gauges"
urlpatterns = [
    path("", views.gauges, name="gauges"),
    path("add/", views.add, name="add"),
    path("<uuid:pk>/", views.gauge, name="gauge"),
    path("<uuid:pk>/calibrate/", views.calibrate, name="calibrate"),
    path("<uuid:pk>/retire/", views.retire, name="retire"),
]
