from django.urls import path

from shopfloor.people.views import customers, entrance, persons

app_name = "people"
urlpatterns = [
    path("sign-in/", entrance.sign_in, name="sign-in"),
    path("sign-out/", entrance.sign_out, name="sign-out"),
    path("password/", entrance.own_password, name="own-password"),
    path("", persons.persons, name="persons"),
    path("add/", persons.add, name="add"),
    path("<int:pk>/", persons.person, name="person"),
    path("<int:pk>/roles/", persons.grant_role, name="grant-role"),
    path("<int:pk>/roles/<int:grant_pk>/end/", persons.end_role, name="end-role"),
    path("<int:pk>/customer/", persons.link, name="link"),
    path("<int:pk>/certificate/", persons.set_certificate, name="set-certificate"),
    path("<int:pk>/deactivate/", persons.deactivate, name="deactivate"),
    path("<int:pk>/reactivate/", persons.reactivate, name="reactivate"),
    path("<int:pk>/reset-password/", persons.reset_password, name="reset-password"),
    path("<int:pk>/erase/", persons.erase, name="erase"),
    path("customers/", customers.customers, name="customers"),
    path("customers/add/", customers.add, name="add-customer"),
]
