"""How a number came about: its formula, its inputs, its answer, its origin."""
