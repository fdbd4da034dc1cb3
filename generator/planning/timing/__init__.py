"""How long it takes: breaks, timetable, sittings, the day by the clock, learned pace."""
