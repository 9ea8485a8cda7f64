"""All settings, from typed environment variables, in two modes: `try` (everything defaulted) and `shop` (nothing is)."""

import os
from pathlib import Path

from django.utils.log import CallbackFilter

from shopfloor import env
from shopfloor.try_mode import kept_secret

BASE_DIR = Path(__file__).resolve().parent.parent
environment = env.from_process()
MODE = environment.mode
TRY_MODE = MODE == env.TRY
DATA_DIR = Path(environment.optional("MAIN_JOURNAL_DATA") or BASE_DIR / "var")
if TRY_MODE:
    DATA_DIR.mkdir(parents=True, exist_ok=True)

DEBUG = False
SECRET_KEY = environment.text("SECRET_KEY", lambda: kept_secret(DATA_DIR / "secret-key"))
ALLOWED_HOSTS = environment.words("ALLOWED_HOSTS", "localhost,127.0.0.1,[::1]")
CSRF_TRUSTED_ORIGINS = [] if TRY_MODE else [f"https://{host}" for host in ALLOWED_HOSTS]

INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django_htmx",
    "rest_framework",
    "shopfloor.ledger",
    "shopfloor.people",
    "shopfloor.receipts",
    "shopfloor.auditing",
    "shopfloor.jobs",
    "shopfloor.documents",
    "shopfloor.serving",
    "measurements.limits",
    "measurements.gauges",
    "measurements.readings",
    "engines.catalogue",
    "engines.parts",
    "engines.vendors",
    "engines.visits",
    "engines.inspection",
    "engines.traveler",
    "engines.testbench",
    "engines.packs",
    "engines.release",
    "engines.papers",
    "engines.benches",
    "engines.scenario",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "shopfloor.headers.ContentSecurityPolicy",
]
ROOT_URLCONF = "shopfloor.urls"
WSGI_APPLICATION = "shopfloor.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": False,
        "OPTIONS": {
            "loaders": [("django.template.loaders.cached.Loader", ["django.template.loaders.filesystem.Loader"])],
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "shopfloor.people.context.person",
            ],
        },
    }
]

DATABASES = {"default": env.database(environment.text("DATABASE_URL", f"sqlite:///{DATA_DIR / 'main-journal.sqlite3'}"))}
DATABASE_APP_ROLE = environment.optional("DATABASE_APP_ROLE")
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

AUTH_USER_MODEL = "people.Person"
AUTHENTICATION_BACKENDS = ["shopfloor.people.authentication.PersonBackend"]
LOGIN_URL = "people:sign-in"
LOGIN_REDIRECT_URL = "benches:home"
AUTH_PASSWORD_VALIDATORS = [
    {
        "NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator",
        "OPTIONS": {"user_attributes": ["username", "name"]},
    },
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "engines.scenario.passwords.NotTheDemoPassword"},
]
PASSWORD_HASHERS = ["django.contrib.auth.hashers.Argon2PasswordHasher"]

LANGUAGE_CODE = "en"
TIME_ZONE = environment.text("TIME_ZONE", "UTC")
USE_I18N = False
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = None if TRY_MODE else BASE_DIR / "collected"
STATICFILES_DIRS = [BASE_DIR / "static"]
STATICFILES_FINDERS = [
    "django.contrib.staticfiles.finders.FileSystemFinder",
    "django.contrib.staticfiles.finders.AppDirectoriesFinder",
    "shopfloor.fonts.FontFinder",
]
WHITENOISE_USE_FINDERS = TRY_MODE
FORM_RENDERER = "shopfloor.forms.BenchForms"
PLAIN_STATIC = "django.contrib.staticfiles.storage.StaticFilesStorage"
HASHED_STATIC = "whitenoise.storage.CompressedManifestStaticFilesStorage"
STORAGE_DIR = env.storage_folder(environment.text("STORAGE_URL", f"file://{DATA_DIR / 'files'}"))
STORAGES = {
    "default": {"BACKEND": "shopfloor.documents.storage.SealedFolder", "OPTIONS": {"location": STORAGE_DIR}},
    "staticfiles": {"BACKEND": PLAIN_STATIC if TRY_MODE else HASHED_STATIC},
}
DATA_UPLOAD_MAX_MEMORY_SIZE = 12 * 1024 * 1024
FILE_UPLOAD_MAX_MEMORY_SIZE = 6 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 2_000
DATA_UPLOAD_MAX_NUMBER_FILES = 20

CELERY_BROKER_URL = environment.text("CELERY_BROKER_URL", f"filesystem://{DATA_DIR / 'broker'}")
WORKER_PROCESSES = environment.tuned("WORKER_PROCESSES", 1)
JOB_LEASE_SECONDS = environment.tuned("JOB_LEASE_SECONDS", 60)
JOB_SWEEP_SECONDS = environment.tuned("JOB_SWEEP_SECONDS", 5)
JOB_RESEND_SECONDS = environment.tuned("JOB_RESEND_SECONDS", 30)

WEB_HOST = "127.0.0.1" if TRY_MODE else environment.text("WEB_HOST")
WEB_PORT = environment.tuned("PORT", 8000)
WEB_PROCESSES = environment.tuned("WEB_PROCESSES", max(2, min(4, os.cpu_count() or 1)))
SCHEDULE_FILE = DATA_DIR / "schedule"

# Nothing is cached: a verdict, a role or a page that was right a minute ago may be wrong now.
CACHES = {"default": {"BACKEND": "django.core.cache.backends.dummy.DummyCache"}}

SESSION_ENGINE = "django.contrib.sessions.backends.db"
SESSION_COOKIE_AGE = 12 * 60 * 60
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_HTTPONLY = True
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
if not TRY_MODE:
    SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = True
    SECURE_SSL_REDIRECT = True
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    SECURE_HSTS_SECONDS = 365 * 24 * 60 * 60
    SECURE_HSTS_INCLUDE_SUBDOMAINS = True
    SECURE_HSTS_PRELOAD = True
    SECURE_REDIRECT_EXEMPT = [r"^health/$"]

REST_FRAMEWORK = {
    "DEFAULT_PERMISSION_CLASSES": ["shopfloor.people.permissions.Deny"],
    "DEFAULT_AUTHENTICATION_CLASSES": ["shopfloor.people.authentication.ShopSession"],
    "DEFAULT_RENDERER_CLASSES": ["rest_framework.renderers.JSONRenderer"],
    "DEFAULT_PARSER_CLASSES": ["rest_framework.parsers.JSONParser", "rest_framework.parsers.MultiPartParser"],
    "UNAUTHENTICATED_USER": "django.contrib.auth.models.AnonymousUser",
}

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "{asctime} {levelname} {name}: {message}", "style": "{"}},
    # An unwell shop answers 503 to every look at /health/: what is wrong is logged where it is found, once.
    "filters": {"no_503": {"()": CallbackFilter, "callback": lambda record: getattr(record, "status_code", None) != 503}},
    "handlers": {
        "console": {"class": "logging.StreamHandler", "formatter": "line", "filters": ["no_503"]},
        "nowhere": {"class": "logging.NullHandler"},
    },
    "loggers": {
        "django.security.DisallowedHost": {"handlers": ["nowhere"], "propagate": False},  # anybody's typing error
        "kombu.connection": {"level": "ERROR"},  # warns that a folder has no host name
    },
    "root": {"handlers": ["console"], "level": "WARNING"},
}
