"""How records are written: the reference of fields, the schema, examples, new files."""
