"""The owner's login. Only these pages of the library have an address: nobody signs up or resets a password.

The names are the library's own, which looks them up.
"""

from allauth.account import views as account
from allauth.mfa.base import views as mfa
from allauth.mfa.recovery_codes import views as recovery
from allauth.mfa.totp import views as totp
from django.urls import path
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_POST

from studio.login_views import second_factor_later

urlpatterns = [
    path("", account.login, name="account_login"),
    path("out/", require_POST(account.logout), name="account_logout"),
    path("password/", never_cache(account.reauthenticate), name="account_reauthenticate"),
    path("code/", mfa.authenticate, name="mfa_authenticate"),
    path("code/again/", never_cache(mfa.reauthenticate), name="mfa_reauthenticate"),
    path("yours/", never_cache(mfa.index), name="mfa_index"),
    path("second-factor/", never_cache(totp.activate_totp), name="mfa_activate_totp"),
    path("second-factor/off/", never_cache(totp.deactivate_totp), name="mfa_deactivate_totp"),
    path("second-factor/later/", second_factor_later, name="second_factor_later"),
    path("recovery-codes/", never_cache(recovery.view_recovery_codes), name="mfa_view_recovery_codes"),
    path(
        "recovery-codes/new/",
        never_cache(recovery.generate_recovery_codes),
        name="mfa_generate_recovery_codes",
    ),
    path(
        "recovery-codes/recovery-codes.txt",
        recovery.download_recovery_codes,
        name="mfa_download_recovery_codes",
    ),
]
