"""The work on site: materials, tools, lifting, order, work order."""
