from django.urls import path

from engines.vendors.views import orders, register

app_name = "vendors"
urlpatterns = [
    path("", register.vendors, name="vendors"),
    path("add/", register.add, name="add"),
    path("<uuid:pk>/", register.vendor, name="vendor"),
    path("<uuid:pk>/approve/", register.approve, name="approve"),
    path("<uuid:pk>/suspend/", register.suspend, name="suspend"),
    path("<uuid:pk>/lift/", register.lift, name="lift"),
    path("orders/", orders.orders, name="orders"),
    path("orders/<uuid:pk>/", orders.order, name="order"),
    path("orders/<uuid:pk>/send/", orders.send, name="send"),
    path("orders/<uuid:pk>/withdraw/", orders.withdraw, name="withdraw"),
    path("orders/<uuid:pk>/back/", orders.back, name="back"),
    path("orders/<uuid:pk>/without/", orders.without, name="without"),
]
