"""What is kept elsewhere and named by a code alone: the drawing, and photos. A name or a path of a file is refused."""

from typing import Annotated

from pydantic import Field

from generator.records.fields import Count, Pattern
from generator.records.kind import Example
from generator.records.record import Record

_FORM = r"[A-Z]{1,3}-\d{2,6}(-[A-Za-z0-9]{1,4}){0,2}"
_SAYS = "a code of capitals, a hyphen and digits; a name, a day or a file belongs where the {} kept"

PhotoCode = Annotated[str, Pattern(_FORM, _SAYS.format("photos are"), Example("F-0100-1"))]


class Drawing(Record):
    """The drawing that the parts were measured on."""

    code: Annotated[str, Pattern(_FORM, _SAYS.format("drawing is"), Example("D-0100"))]
    """the code under which it is kept"""
    version: Annotated[int, Count(1, 99)] = Field(description="which version of it; another one is measured again")
