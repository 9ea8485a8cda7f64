"""docker-compose.yml and the image, read and held against the settings and the commands that exist.

`.ci/shop.py` runs the same roles, commands and health checks without containers.
"""

import re
from pathlib import Path

import pytest
import yaml
from django.core.management import get_commands, load_command_class

from tests.shopfloor.test_settings_shop import NEEDED

ROOT = Path(__file__).resolve().parents[2]
TEXT = (ROOT / "docker-compose.yml").read_text()
COMPOSE = yaml.safe_load(TEXT)
SERVICES = COMPOSE["services"]
OURS = {name: service for name, service in SERVICES.items() if service["image"] == "main-journal"}
DOCKERFILE = (ROOT / "shopfloor/Dockerfile").read_text()
# Read by the image's own tools, not by our settings.
ELSEWHERE = {"XDG_CACHE_HOME", "MAIN_JOURNAL_MODE"}


def names_read():
    """Every variable that the settings read."""
    return set(re.findall(r'environment\.\w+\(\s*"([A-Z_]+)"', (ROOT / "shopfloor/settings.py").read_text()))


def test_every_part_of_the_shop_is_there():
    assert set(SERVICES) == {"database", "broker", "migrate", "web", "worker", "scheduler", "proxy"}


def test_every_service_that_stays_has_a_health_check():
    assert [name for name, service in SERVICES.items() if "healthcheck" not in service] == ["migrate"]
    assert SERVICES["migrate"]["restart"] == "no"


def test_no_secret_has_a_default():
    defaulted = re.findall(r"(?<!\$)\$\{(\w+):?-", TEXT)
    assert defaulted == ["CERTIFICATES"]
    for name in ("SECRET_KEY", "POSTGRES_PASSWORD", "OWNER_PASSWORD", "APP_PASSWORD", "BROKER_PASSWORD"):
        uses = re.findall(rf"(?<!\$)\$\{{{name}([^}}]*)\}}", TEXT)
        assert uses, name
        assert all(use.startswith(":?") for use in uses), name


def test_the_owner_migrates_and_the_others_are_not_the_owner():
    users = {name: re.match(r"postgresql://(\w+):", service["environment"]["DATABASE_URL"])[1] for name, service in OURS.items()}
    assert users == {"migrate": "journal_owner", "web": "journal_app", "worker": "journal_app", "scheduler": "journal_app"}
    assert OURS["migrate"]["environment"]["DATABASE_APP_ROLE"] == "journal_app"
    assert all("DATABASE_APP_ROLE" not in OURS[name]["environment"] for name in ("web", "worker", "scheduler"))
    made = re.findall(r"CREATE ROLE (\w+) LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE", COMPOSE["configs"]["roles"]["content"])
    assert made == ["journal_owner", "journal_app"]


def test_only_the_proxy_is_reached_from_outside():
    assert [name for name, service in SERVICES.items() if "ports" in service] == ["proxy"]


@pytest.mark.parametrize("name", OURS)
def test_the_settings_are_those_that_are_read(name):
    given = set(OURS[name]["environment"])
    assert given - ELSEWHERE <= names_read()
    assert set(NEEDED) | {"STORAGE_URL"} <= given
    assert OURS[name]["environment"]["MAIN_JOURNAL_MODE"] == "shop"


@pytest.mark.parametrize("name", OURS)
def test_the_command_exists(name):
    program, script, command, *arguments = OURS[name]["command"]
    assert (program, script) == ("python", "manage.py")
    parser = load_command_class(get_commands()[command], command).create_parser("manage.py", command)
    parser.parse_args(arguments)


@pytest.mark.parametrize("name", OURS)
def test_the_processes_run_with_few_rights(name):
    service = OURS[name]
    assert service["read_only"] is True
    assert service["cap_drop"] == ["ALL"]
    assert "privileged" not in service


def test_no_server_of_ours_stays_root():
    """The image of Redis steps down from root only where its command is `redis-server` itself."""
    assert SERVICES["broker"]["user"] == "redis"


def test_what_is_written_at_run_time_lies_where_the_account_may_write():
    """A folder in memory takes the mode of the image's folder and belongs to root (github.com/moby/moby/issues/39466).

    So only /tmp will do, which is everybody's in the image.
    """
    assert {tuple(service["tmpfs"]) for service in OURS.values()} == {("/tmp",)}
    assert "MAIN_JOURNAL_DATA=/tmp\n" in DOCKERFILE
    assert "find /tmp -name" in OURS["scheduler"]["healthcheck"]["test"][1]
    assert OURS["scheduler"]["environment"].get("MAIN_JOURNAL_DATA") is None


def test_each_waits_for_what_it_needs():
    for name in ("web", "worker", "scheduler"):
        assert OURS[name]["depends_on"]["migrate"] == {"condition": "service_completed_successfully"}
    assert SERVICES["proxy"]["depends_on"]["web"] == {"condition": "service_healthy"}


def test_every_volume_and_config_is_declared():
    configs = {entry["source"] for service in SERVICES.values() for entry in service.get("configs", [])}
    assert configs == set(COMPOSE["configs"])
    mounts = [mount.split(":")[0] for service in SERVICES.values() for mount in service.get("volumes", [])]
    assert {mount for mount in mounts if mount.isidentifier()} == set(COMPOSE["volumes"])


def test_the_proxy_says_that_the_way_was_https_and_nobody_else_can():
    assert "proxy_set_header X-Forwarded-Proto https;" in COMPOSE["configs"]["proxy"]["content"]
    assert "ssl_certificate /certificates/server.crt;" in COMPOSE["configs"]["proxy"]["content"]


def test_the_image_holds_what_it_copies_and_runs_as_nobody_special():
    copied = re.findall(r"^COPY (?!--from)(.+) \S+$", DOCKERFILE, re.MULTILINE)
    assert copied
    for source in " ".join(copied).split():
        assert (ROOT / source).exists(), source
    kept = (ROOT / "shopfloor/Dockerfile.dockerignore").read_text().split()
    assert {f"!{source}" for source in " ".join(copied).split()} <= set(kept)
    assert re.search(r"^USER journal$", DOCKERFILE, re.MULTILINE)
    assert "--require-hashes --only-binary :all:" in DOCKERFILE


def test_the_image_has_every_library_that_setup_looks_for():
    from shopfloor.setup.missing import LIBRARIES

    assert [package for package in LIBRARIES.values() if package not in DOCKERFILE] == []


def test_the_files_of_the_volume_belong_to_the_account_of_the_image():
    (folder,) = {mount.split(":")[1] for service in OURS.values() for mount in service["volumes"]}
    assert f"install --directory --owner journal {folder}" in DOCKERFILE
    assert {service["environment"]["STORAGE_URL"] for service in OURS.values()} == {f"file://{folder}"}
