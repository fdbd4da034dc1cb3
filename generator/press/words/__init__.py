"""Words: markup, addresses, formatted values, citations, templates."""
