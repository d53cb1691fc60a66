import re
from pathlib import Path

import pytest
from django.contrib.staticfiles import finders

PROJECT = Path(__file__).resolve().parents[2]
SHEETS = sorted((PROJECT / "studio" / "static").rglob("*.css"))


def named_in_templates() -> set[str]:
    texts = (file.read_text(encoding="utf-8") for file in (PROJECT / "templates").rglob("*.html"))
    return {name for text in texts for name in re.findall(r"""{% static ['"]([^'"]+)['"]""", text)}


@pytest.mark.parametrize("name", sorted(named_in_templates()))
def test_static_file_of_a_template_is_there(name):
    assert finders.find(name)


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda sheet: sheet.name)
def test_style_sheet_takes_everything_from_the_shop(sheet):
    for address in re.findall(r"""url\(['"]?([^'")]+)""", sheet.read_text(encoding="utf-8")):
        assert finders.find((Path("studio") / address).as_posix().replace("studio/../", "")), address
