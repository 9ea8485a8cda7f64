"""The hidden field that gives a form its key."""

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString
from uuid_utils.compat import uuid7

from shopfloor.receipts.posts import FIELD

register = template.Library()


@register.simple_tag
def receipt_key() -> SafeString:
    return format_html('<input type="hidden" name="{}" value="{}">', FIELD, uuid7())
