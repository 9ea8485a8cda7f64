from django.urls import path

from engines.packs.views import drafts, packs

app_name = "packs"
urlpatterns = [
    path("", packs.packs, name="packs"),
    path("load/", packs.load, name="load"),
    path("<uuid:pk>/", packs.pack, name="pack"),
    path("<uuid:pk>/check/", packs.check, name="check"),
    path("<uuid:pk>/approve/", packs.approve, name="approve"),
    path("<uuid:pk>/against/<uuid:older_pk>/", packs.compare, name="compare"),
    path("<uuid:pk>/draft/", drafts.open_it, name="open-draft"),
    path("drafts/<uuid:pk>/", drafts.draft, name="draft"),
    path("drafts/<uuid:pk>/route.yaml", drafts.download, name="draft-download"),
    path("drafts/<uuid:pk>/text/", drafts.text, name="draft-text"),
    path("drafts/<uuid:pk>/beside/", drafts.beside, name="draft-beside"),
    path("drafts/<uuid:pk>/send/", drafts.send, name="draft-send"),
    path("drafts/<uuid:pk>/<int:place>/", drafts.operation, name="draft-operation"),
    path("drafts/<uuid:pk>/<int:place>/more/", drafts.more, name="draft-more"),
    path("drafts/<uuid:pk>/<int:place>/move/", drafts.move, name="draft-move"),
    path("drafts/<uuid:pk>/<int:place>/remove/", drafts.remove, name="draft-remove"),
]
