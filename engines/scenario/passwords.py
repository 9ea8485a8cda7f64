"""The one password of the invented shop, known to everybody and therefore good nowhere else."""

from django.core.exceptions import ValidationError

DEMO_PASSWORD = "saltmarsh-demo-only"  # noqa: S105 - known on purpose


class NotTheDemoPassword:
    """A rule for passwords, named in the settings."""

    def validate(self, password: str, user: object = None) -> None:
        if password.casefold() == DEMO_PASSWORD:
            raise ValidationError("This password is printed in the product. Choose another one.", code="demo_password")

    def get_help_text(self) -> str:
        return "Not the password of the demo."
