from engines.parts.models import Fitment


def fitted_now(root):
    return {(f.line, f.place): f for f in Fitment.objects.filter(root=root, removed_at__isnull=True)}
