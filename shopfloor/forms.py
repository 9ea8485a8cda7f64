"""How every form is drawn: our templates for the form and each field, Django's for the widgets."""

from pathlib import Path

import django.forms
from django.conf import settings
from django.forms.renderers import DjangoTemplates
from django.template.backends.django import DjangoTemplates as TemplateEngine
from django.utils.functional import cached_property


class BenchForms(DjangoTemplates):
    """Label above, help below it, large control, errors in words."""

    form_template_name = "forms/form.html"
    field_template_name = "forms/field.html"

    @cached_property
    def engine(self) -> TemplateEngine:
        """Our templates first, then the widgets that come with Django."""
        folders = [settings.BASE_DIR / "templates", Path(django.forms.__file__).parent / "templates"]
        return self.backend({"APP_DIRS": False, "DIRS": folders, "NAME": "bench-forms", "OPTIONS": {}})
