from django.urls import path

from shopfloor.documents import views

app_name = "documents"
urlpatterns = [
    path("", views.documents, name="documents"),
    path("<uuid:pk>/", views.document, name="document"),
    path("<uuid:pk>/progress/", views.progress, name="progress"),
    path("<uuid:pk>/again/", views.again, name="again"),
    path("<uuid:pk>/download/", views.download, name="download"),
]
