"""The forms of the owner's login, in our words."""

from typing import Any

from allauth.account.forms import LoginForm
from allauth.mfa.base.forms import AuthenticateForm, ReauthenticateForm
from allauth.mfa.totp.forms import ActivateTOTPForm


class OwnerLoginForm(LoginForm):
    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        name, password = self.fields["login"], self.fields["password"]
        name.label = "Name"
        name.widget.attrs["id"] = "id_username"
        name.error_messages["required"] = "There is no name. Write the one of your login."
        password.error_messages["required"] = "There is no password. Write yours."


class CodeWords:
    """What a form for a code calls it."""

    fields: dict[str, Any]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["code"].label = "Code"
        self.fields["code"].error_messages["required"] = (
            "There is no code. Write the one that your app shows."
        )


class SetUpForm(CodeWords, ActivateTOTPForm):
    @property
    def letters(self) -> str:
        """The secret as a person types it off the screen: in fours."""
        return " ".join(self.secret[at : at + 4] for at in range(0, len(self.secret), 4))


class CodeForm(CodeWords, AuthenticateForm):
    pass


class CodeAgainForm(CodeWords, ReauthenticateForm):
    pass
