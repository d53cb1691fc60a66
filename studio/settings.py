"""Every setting of the shop. What differs between machines is read from the environment: see the README."""

from urllib.parse import urlsplit

from csp.constants import NONE, SELF

from studio.env import (
    PROJECT,
    env_bool,
    env_choice,
    env_int,
    env_mailbox,
    env_origin,
    env_password,
    env_secret,
    env_text,
    env_words,
    shop_data,
)

DEBUG = env_bool("DEBUG", False)
SHOP_DATA = shop_data()
SECRET_KEY = env_secret("SECRET_KEY", SHOP_DATA / "secret-key")
# Earlier keys, while links and logins made with them should still open.
SECRET_KEY_FALLBACKS = env_words("SECRET_KEY_FALLBACKS")

# The address that people type decides which hosts are answered and whether cookies need https. Unset, only
# this machine is answered, over plain http: the demo, and a shop that nobody has put on the internet yet.
SITE_URL = env_origin("SITE_URL", "http://127.0.0.1:8000")
IS_HTTPS = SITE_URL.startswith("https://")
SITE_HOST = urlsplit(SITE_URL).hostname or ""
LOOPBACK_HOSTS = ["127.0.0.1", "localhost", "[::1]"]
ALLOWED_HOSTS = [f"[{SITE_HOST}]" if ":" in SITE_HOST else SITE_HOST, *LOOPBACK_HOSTS]
CSRF_TRUSTED_ORIGINS = [SITE_URL] if IS_HTTPS else []
# Addresses whose X-Forwarded-For and X-Forwarded-Proto are believed (studio/wsgi.py).
TRUSTED_PROXIES = env_words("TRUSTED_PROXIES")

# How the built-in server runs (the command “serve”).
WEB_WORKERS = env_int("WEB_WORKERS", 2, least=1, most=64)
WEB_THREADS = env_int("WEB_THREADS", 4, least=1, most=256)

# How many free orders one e-mail address and one network address may place in so many hours.
FREE_ORDERS_HOURS = env_int("FREE_ORDERS_HOURS", 24, least=1, most=8760)
FREE_ORDERS_PER_EMAIL = env_int("FREE_ORDERS_PER_EMAIL", 10, least=1, most=100_000)
FREE_ORDERS_PER_SOURCE = env_int("FREE_ORDERS_PER_SOURCE", 30, least=1, most=100_000)
# How often links are sent again to one e-mail address, and for one network address, in so many hours.
LINKS_AGAIN_HOURS = env_int("LINKS_AGAIN_HOURS", 24, least=1, most=8760)
LINKS_AGAIN_PER_EMAIL = env_int("LINKS_AGAIN_PER_EMAIL", 3, least=1, most=100_000)
LINKS_AGAIN_PER_SOURCE = env_int("LINKS_AGAIN_PER_SOURCE", 20, least=1, most=100_000)

# The mail server that takes the shop's letters. Without one they are kept as files in the shop's own folder.
EMAIL_HOST = env_text("EMAIL_HOST", "")
EMAIL_SECURITY = env_choice("EMAIL_SECURITY", "starttls", ("starttls", "tls", "none"))
EMAIL_USE_TLS, EMAIL_USE_SSL = EMAIL_SECURITY == "starttls", EMAIL_SECURITY == "tls"
USUAL_PORT = {"starttls": 587, "tls": 465, "none": 25}[EMAIL_SECURITY]
EMAIL_PORT = env_int("EMAIL_PORT", USUAL_PORT, least=1, most=65535)
EMAIL_HOST_USER = env_text("EMAIL_USER", "")
EMAIL_HOST_PASSWORD = env_password("EMAIL_PASSWORD")
EMAIL_FROM = env_mailbox("EMAIL_FROM")
EMAIL_BACKEND = f"django.core.mail.backends.{'smtp' if EMAIL_HOST else 'filebased'}.EmailBackend"
EMAIL_FILE_PATH = SHOP_DATA / "letters"
# Seconds for each step of a talk with the mail server.
EMAIL_TIMEOUT = 20

# How long the links of an order's files open and how many downloads they are good for, until renewed.
PASS_DAYS = env_int("PASS_DAYS", 90, least=1, most=3650)
PASS_DOWNLOADS = env_int("PASS_DOWNLOADS", 25, least=1, most=100_000)

# Card payments: none without the key. Two secrets of messages are good at once while one is being changed.
STRIPE_SECRET_KEY = env_password("STRIPE_SECRET_KEY")
STRIPE_WEBHOOK_SECRETS = env_password("STRIPE_WEBHOOK_SECRETS").replace(",", " ").split()
# Where a browser that has sent a form to us may be led on to.
CHECKOUT_HOSTS = ["https://checkout.stripe.com"] if STRIPE_SECRET_KEY else []

INSTALLED_APPS = [
    "studio.apps.StudioConfig",
    "patterns.apps.PatternsConfig",
    "orders.apps.OrdersConfig",
    "django.contrib.admin",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.sitemaps",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "allauth",
    "allauth.account",
    "allauth.mfa",
    "django_htmx",
    "csp",
]
MIDDLEWARE = [
    "django.middleware.security.SecurityMiddleware",
    "csp.middleware.CSPMiddleware",
    "django_permissions_policy.PermissionsPolicyMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "studio.second_factor.SecondFactorMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "studio.middleware.ShopMiddleware",
]
ROOT_URLCONF = "studio.urls"
WSGI_APPLICATION = "studio.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [PROJECT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "studio.context.shop",
                "orders.context.basket",
            ],
        },
    }
]

# Immediate transactions take the write lock at their start, so that two writers wait for each other and
# neither fails; FULL keeps an order that was answered even when the power goes.
DATABASES = {
    "default": {
        "ENGINE": "django.db.backends.sqlite3",
        "NAME": SHOP_DATA / "shop.sqlite3",
        "OPTIONS": {
            "transaction_mode": "IMMEDIATE",
            "timeout": 20,
            "init_command": "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;",
        },
        # A file in tests too: shared memory knows no waiting, and threads must meet as they do in the shop.
        "TEST": {"NAME": SHOP_DATA / "test.sqlite3"},
    }
}
# The default one counts failed logins, for all processes together; so large that flooding does not flush it.
# The other: layouts that a longer search has found, so that no process of the shop searches for them again.
CACHES = {
    "default": {
        "BACKEND": "django.core.cache.backends.db.DatabaseCache",
        "LOCATION": "studio_counted",
        "OPTIONS": {"MAX_ENTRIES": 100_000},
    },
    "layouts": {
        "BACKEND": "django.core.cache.backends.filebased.FileBasedCache",
        "LOCATION": SHOP_DATA / "layouts",
        "TIMEOUT": 7 * 24 * 60 * 60,
        "OPTIONS": {"MAX_ENTRIES": 2000},
    },
}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

# Files that the shop makes. Nothing under MEDIA_ROOT has an address of its own: views hand it out.
MEDIA_ROOT = SHOP_DATA / "files"
# What is sent to the shop: the first of them drops what is far too large before anything is kept of it.
FILE_UPLOAD_HANDLERS = [
    "studio.uploads.DroppedUploadHandler",
    "django.core.files.uploadhandler.MemoryFileUploadHandler",
    "django.core.files.uploadhandler.TemporaryFileUploadHandler",
]
STATIC_URL = "static/"
STATIC_ROOT = SHOP_DATA / "static"
FONTS_DIR = SHOP_DATA / "fonts"
# The fonts that setup.sh builds: `fonts/web/workroom-text-400.woff2` in a style sheet.
STATICFILES_DIRS = [("fonts/web", FONTS_DIR / "web")] if FONTS_DIR.is_dir() else []
STORAGES = {
    "default": {"BACKEND": "django.core.files.storage.FileSystemStorage"},
    "staticfiles": {
        "BACKEND": (
            "django.contrib.staticfiles.storage.StaticFilesStorage"
            if DEBUG
            else "whitenoise.storage.CompressedManifestStaticFilesStorage"
        )
    },
}
WHITENOISE_USE_FINDERS = DEBUG

PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 12}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]
AUTHENTICATION_BACKENDS = ["django.contrib.auth.backends.ModelBackend"]
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "orders:workroom"
# The owner's login: a name and a password, then a code. Nobody signs up; addresses and words are in
# studio/login_urls.py and studio/second_factor.py.
ACCOUNT_ADAPTER = "studio.second_factor.AccountAdapter"
ACCOUNT_LOGIN_METHODS = {"username"}
ACCOUNT_SIGNUP_FIELDS = ["username*", "password1*"]
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_LOGOUT_REDIRECT_URL = "patterns:pattern-list"
ACCOUNT_SESSION_REMEMBER = True
ACCOUNT_FORMS = {"login": "studio.login_forms.OwnerLoginForm"}
# Wrong passwords and wrong codes: for each network address, and for each login whoever tries it.
ACCOUNT_RATE_LIMITS = {"login": "30/m/ip", "login_failed": "10/m/ip,5/5m/key", "reauthenticate": "10/m/user"}
MFA_ADAPTER = "studio.second_factor.SecondFactorAdapter"
MFA_FORMS = {
    "activate_totp": "studio.login_forms.SetUpForm",
    "authenticate": "studio.login_forms.CodeForm",
    "reauthenticate": "studio.login_forms.CodeAgainForm",
}
MFA_SUPPORTED_TYPES = ["totp", "recovery_codes"]

LANGUAGE_CODE = "en"
USE_I18N = False
TIME_ZONE = "UTC"
USE_TZ = True

SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = IS_HTTPS
SESSION_COOKIE_HTTPONLY = CSRF_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = CSRF_COOKIE_SAMESITE = "Lax"
# “__Host-” makes a browser refuse the cookie unless this very host set it over https.
SESSION_COOKIE_NAME = "__Host-session" if IS_HTTPS else "session"
CSRF_COOKIE_NAME = "__Host-csrf" if IS_HTTPS else "csrf"
MESSAGE_STORAGE = "django.contrib.messages.storage.session.SessionStorage"

SECURE_SSL_REDIRECT = IS_HTTPS
SECURE_HSTS_SECONDS = 365 * 24 * 3600 if IS_HTTPS else 0
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
# Whether the owner's other hosts under the same name speak https is not for this shop to promise.
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]
CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [NONE],
        "script-src": [SELF],
        "style-src": [SELF],
        "img-src": [SELF, "data:"],
        "font-src": [SELF],
        "connect-src": [SELF],
        "form-action": [SELF, *CHECKOUT_HOSTS],
        "frame-ancestors": [NONE],
        "base-uri": [NONE],
        "object-src": [NONE],
    }
}
PERMISSIONS_POLICY: dict[str, list[str]] = {
    feature: []
    for feature in (
        "accelerometer",
        "camera",
        "display-capture",
        "geolocation",
        "gyroscope",
        "magnetometer",
        "microphone",
        "midi",
        "payment",
        "usb",
    )
}
# Whoever follows the steps beside the machine has no hand free to wake the screen.
PERMISSIONS_POLICY["screen-wake-lock"] = ["self"]

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"line": {"format": "%(asctime)s %(levelname)s %(name)s: %(message)s"}},
    "handlers": {"console": {"class": "logging.StreamHandler", "formatter": "line"}},
    "root": {"handlers": ["console"], "level": "WARNING"},
    "loggers": {
        "django": {"handlers": ["console"], "level": "WARNING", "propagate": False},
        "django.server": {"handlers": ["console"], "level": "INFO", "propagate": False},
    },
}
