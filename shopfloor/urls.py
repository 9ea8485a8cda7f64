"""Where each room's pages and API are mounted, by name."""

from django.urls import include, path

from shopfloor.health import health

urlpatterns = [
    path("health/", health, name="health"),
    path("people/", include("shopfloor.people.urls")),
    path("ledger/", include("shopfloor.auditing.urls")),
    path("jobs/", include("shopfloor.jobs.urls")),
    path("papers/", include("shopfloor.documents.urls")),
    path("gauges/", include("measurements.gauges.urls")),
    path("sheets/", include("measurements.readings.urls")),
    path("data/", include("engines.packs.urls")),
    path("parts/", include("engines.parts.urls")),
    path("vendors/", include("engines.vendors.urls")),
    path("stand/", include("engines.testbench.urls")),
    path("", include("engines.benches.urls")),
    path("api/v1/people/", include("shopfloor.people.api")),
    path("api/v1/ledger/", include("shopfloor.auditing.api")),
    path("api/v1/jobs/", include("shopfloor.jobs.api")),
    path("api/v1/documents/", include("shopfloor.documents.api")),
    path("api/v1/readings/", include("measurements.readings.api")),
    path("api/v1/testbench/", include("engines.testbench.api")),
    path("api/v1/benches/", include("engines.benches.api")),
]
