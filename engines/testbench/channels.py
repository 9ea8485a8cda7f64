"""The channels of a stand: what is read, what it is read in where nothing else is said, and what is worked out from it."""

from collections.abc import Mapping

OIL_PUT_IN, OIL_LEFT = "oil put in", "oil left"
SPEED, POWER = "speed", "power"
BOTH, LEFT, RIGHT = "speed on both magnetos", "speed on left magneto", "speed on right magneto"
AIR_TEMPERATURE, AIR_PRESSURE, HUMIDITY = "air temperature", "air pressure", "humidity"
MAGNETOS = (BOTH, LEFT, RIGHT)
AIR = (AIR_TEMPERATURE, AIR_PRESSURE, HUMIDITY)
OF_THE_RUN = (OIL_PUT_IN, OIL_LEFT)  # noted for the run as a whole, at no step

READ: Mapping[str, str] = {
    "oil temperature": "°F",
    "oil pressure": "psi",
    "cylinder temperature": "°F",
    "exhaust temperature": "°F",
    "manifold pressure": "inHg",
    "fuel pressure": "psi",
    "fuel flow": "gal/h",
    SPEED: "rpm",
    **dict.fromkeys(MAGNETOS, "rpm"),
    POWER: "hp",
    AIR_TEMPERATURE: "°F",
    AIR_PRESSURE: "inHg",
    HUMIDITY: "%",
    **dict.fromkeys(OF_THE_RUN, "qt"),
}
DROP_LEFT, DROP_RIGHT, DROP_DIFFERENCE = "ignition drop left", "ignition drop right", "ignition drop difference"
OIL_CONSUMPTION, CORRECTED_POWER = "oil consumption", "corrected power"
INPUTS: Mapping[str, tuple[str, ...]] = {
    **dict.fromkeys((DROP_LEFT, DROP_RIGHT, DROP_DIFFERENCE), MAGNETOS),
    CORRECTED_POWER: (POWER, *AIR),
    OIL_CONSUMPTION: OF_THE_RUN,
}


def of_each_cylinder(channel: str) -> bool:
    """Whether it is read at every cylinder: its name says so."""
    return channel.partition(" ")[0] in ("cylinder", "exhaust")
