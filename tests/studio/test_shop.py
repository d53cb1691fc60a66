import zoneinfo

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError
from django.urls import reverse

from studio.models import Shop

pytestmark = pytest.mark.django_db


def test_nothing_saved_yet_gives_the_defaults_and_saves_nothing():
    shop = Shop.objects.current()
    assert (shop.pk, shop.units, shop.time_zone, shop.is_demo) == (1, "in", "UTC", False)
    assert not Shop.objects.exists()


def test_current_is_the_saved_row(django_assert_num_queries):
    Shop(pk=1, name="Reed Lane Patterns").save()
    with django_assert_num_queries(1):
        assert Shop.objects.current().name == "Reed Lane Patterns"


def test_unsaved_shop_can_be_saved():
    shop = Shop.objects.current()
    shop.name = "Reed Lane Patterns"
    shop.save()
    assert str(Shop.objects.get()) == "Reed Lane Patterns"


def test_second_row_is_refused():
    with pytest.raises(IntegrityError):
        Shop(pk=2).save()


@pytest.mark.parametrize("name", ["Mars/Olympus", "", "../etc/passwd", "/UTC", "a\0b"])
def test_time_zone_must_be_known(name):
    with pytest.raises(ValidationError) as refused:
        Shop(pk=1, time_zone=name).full_clean()
    assert list(refused.value.message_dict) == ["time_zone"]


@pytest.mark.parametrize("code", ["gbp", "GB", "GBP\n", "£"])
def test_currency_is_three_capital_letters(code):
    with pytest.raises(ValidationError) as refused:
        Shop(pk=1, currency=code).full_clean()
    assert list(refused.value.message_dict) == ["currency"]


def test_zone():
    assert Shop(time_zone="Europe/London").zone == zoneinfo.ZoneInfo("Europe/London")


def test_caution_lines_are_without_blanks():
    assert Shop(cautions=" Hot iron.\n\n Sharp needle.\n").caution_lines == ("Hot iron.", "Sharp needle.")


def test_admin_makes_the_one_row_and_goes_straight_to_it(admin_client):
    listed, added = reverse("admin:studio_shop_changelist"), reverse("admin:studio_shop_add")
    assert admin_client.get(listed).url == added
    typed = {"name": "Reed Lane Patterns", "currency": "EUR", "units": "cm", "time_zone": "UTC"}
    admin_client.post(added, {**typed, "email": "", "terms": "", "cautions": ""})
    assert Shop.objects.current().name == "Reed Lane Patterns"
    changed = reverse("admin:studio_shop_change", args=[1])
    assert admin_client.get(listed).url == changed
    assert admin_client.get(changed).status_code == 200
    assert admin_client.get(added).status_code == 403
    assert admin_client.post(reverse("admin:studio_shop_delete", args=[1])).status_code == 403
