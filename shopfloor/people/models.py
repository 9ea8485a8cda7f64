"""Persons, the customers that some of them act for, and the roles that they hold."""

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.db import models
from django.db.models import F, Q


class Role(models.TextChoices):
    MANAGER = "manager", "shop manager"
    MECHANIC = "mechanic", "mechanic"
    INSPECTOR = "inspector", "inspector"
    STOREKEEPER = "storekeeper", "storekeeper"
    CUSTOMER = "customer", "customer"
    AUDITOR = "auditor", "auditor"


class Customer(models.Model):
    name = models.CharField(max_length=120, unique=True)

    def __str__(self) -> str:
        return self.name


class Person(AbstractBaseUser):
    """One human being with one password. Rights come from open role grants, nothing else."""

    username = models.CharField(max_length=60, unique=True)
    name = models.CharField(max_length=120)
    certificate_number = models.CharField(max_length=60, blank=True)
    certificate_kind = models.CharField(max_length=60, blank=True)
    customer = models.ForeignKey(Customer, null=True, blank=True, on_delete=models.PROTECT, related_name="persons")
    is_active = models.BooleanField(default=True)
    must_change_password = models.BooleanField(default=False)
    erased_at = models.DateTimeField(null=True, blank=True)

    USERNAME_FIELD = "username"
    objects = BaseUserManager()

    class Meta:
        constraints = [
            models.CheckConstraint(condition=Q(erased_at__isnull=True) | Q(is_active=False), name="nobody_erased_is_active"),
        ]

    def __str__(self) -> str:
        return self.name


class RoleGrant(models.Model):
    """A role held by a person for a span of time. Ending it, once, is the only change."""

    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="grants")
    role = models.CharField(max_length=20, choices=Role.choices)
    granted_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    granted_at = models.DateTimeField()
    ended_by = models.ForeignKey(Person, null=True, blank=True, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints = [
            models.UniqueConstraint(
                fields=["person", "role"], condition=Q(ended_at__isnull=True), name="one_open_grant_per_role"
            ),
            models.CheckConstraint(
                condition=Q(granted_by__isnull=True) | ~Q(granted_by=F("person")), name="nobody_grants_to_self"
            ),
            models.CheckConstraint(condition=Q(ended_by__isnull=True) | ~Q(ended_by=F("person")), name="nobody_ends_own_grant"),
            models.CheckConstraint(
                condition=Q(ended_at__isnull=True, ended_by__isnull=True) | Q(ended_at__isnull=False, ended_by__isnull=False),
                name="an_ended_grant_names_who_ended_it",
            ),
        ]


class SignInCount(models.Model):
    """How often a typed name met a wrong password. The name itself, existing or not, is kept only as a keyed hash."""

    name_hash = models.CharField(max_length=64, unique=True)
    wrong = models.PositiveIntegerField(default=0)
    asked_at = models.DateTimeField()
    refused_until = models.DateTimeField(null=True, blank=True)
