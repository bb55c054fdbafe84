"""/v1/weather"""

from service.paving.sheets import Sheet
from service.paving.weather import Air, Binder, ColdWork, cold_work
from service.routes.resources import resource
from service.schemas.weather import WeatherAnswer, WeatherQuestion


@resource(
    "weather",
    WeatherQuestion(),
    WeatherAnswer(),
    example={"temperature": "3 degC", "trend": "falling"},
)
def weather(sheet: Sheet, air: Air, binder: Binder) -> ColdWork:
    """Whether to lay or point in the cold, by each published rule.

    What every rule says of the temperature now and to come; they differ at exactly 3 °C and falling, and
    the answer gives each.
    """
    return cold_work(sheet, air, binder)
