"""What mode `try` makes for itself, once."""

import os
import secrets
from pathlib import Path


def kept_secret(path: Path) -> str:
    """The secret in `path`; made on first use. Two processes that start together agree on one."""
    path.parent.mkdir(parents=True, exist_ok=True)
    draft = path.with_name(f"{path.name}.{os.getpid()}")
    if not path.exists():
        draft.touch(mode=0o600)
        draft.write_text(secrets.token_urlsafe(50))
        try:
            os.link(draft, path)
        except FileExistsError:
            pass
        finally:
            draft.unlink()
    return path.read_text()
