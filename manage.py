#!/usr/bin/env python
import os
import sys

if __name__ == "__main__":
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "studio.settings")
    try:
        from django.conf import settings
        from django.core.exceptions import ImproperlyConfigured
        from django.core.management import execute_from_command_line
    except ImportError:
        sys.exit("Django is not here. Run “sh studio/setup.sh” and then .venv/bin/python manage.py …")
    try:
        settings.INSTALLED_APPS  # noqa: B018 (reads the settings: a bad one is answered by its sentence alone)
    except ImproperlyConfigured as error:
        sys.exit(str(error))
    execute_from_command_line(sys.argv)
