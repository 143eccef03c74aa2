from django.apps.registry import Apps
from django.db import migrations
from django.db.backends.base.schema import BaseDatabaseSchemaEditor

from helmwright.records import append_only


def put(_apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    append_only.put(schema_editor.connection)


def lift(_apps: Apps, schema_editor: BaseDatabaseSchemaEditor) -> None:
    append_only.lift(schema_editor.connection)


class Migration(migrations.Migration):
    dependencies = [("records", "0001_initial")]

    operations = [migrations.RunPython(put, lift)]
