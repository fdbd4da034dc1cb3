"""What a formula answers when it cannot answer."""


class Refusal(ValueError):
    """A formula cannot answer for these inputs; planning turns it into a diagnostic at the record's line.

    argument: the parameter that is in the way, found: what it was, expected: what would do,
    remedy: what a person should measure, write or choose instead.
    """

    def __init__(self, argument: str, found: str, expected: str, remedy: str) -> None:
        super().__init__(f"{argument}: found {found}, expected {expected}")
        self.argument = argument
        self.found = found
        self.expected = expected
        self.remedy = remedy
