from django.db import models
from uuid_utils.compat import uuid7

from engines.catalogue.models import EngineModel
from shopfloor.people.models import Customer, Person


class Item(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    part_number = models.CharField(max_length=60)
    name = models.CharField(max_length=120)
    serial = models.CharField(max_length=60, blank=True)
    mark = models.CharField(max_length=60, blank=True)
    tracking = models.CharField(max_length=10)
    quantity = models.PositiveIntegerField(default=1)
    lot = models.ForeignKey("self", null=True, on_delete=models.PROTECT)
    customer = models.ForeignKey(Customer, null=True, on_delete=models.PROTECT)
    origin = models.CharField(max_length=60)
    known_at = models.DateTimeField()
    added_by = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="+")
    scrapped_at = models.DateTimeField(null=True)
    scrapped_by = models.ForeignKey(Person, null=True, on_delete=models.PROTECT, related_name="+")
    scrapped_reason = models.CharField(max_length=400, blank=True)

    def __str__(self):
        return f"{self.name} {self.serial or self.mark}"


class Engine(models.Model):
    item = models.OneToOneField(Item, primary_key=True, on_delete=models.PROTECT, related_name="engine")
    model = models.ForeignKey(EngineModel, on_delete=models.PROTECT)
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT)


class Fitment(models.Model):
    id = models.UUIDField(primary_key=True, default=uuid7, editable=False)
    item = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="fitments")
    root = models.ForeignKey(Item, on_delete=models.PROTECT, related_name="+")
    line = models.CharField(max_length=60)
    place = models.CharField(max_length=60)
    fitted_at = models.DateTimeField()
    removed_at = models.DateTimeField(null=True)
