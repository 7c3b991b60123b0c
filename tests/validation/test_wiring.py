"""Wire size and the resistance of warm copper.

A marine supplier's technical page: 10 A over a loop of 21 ft at 12 V needs 6271 circular mils for a drop of 3 %, 1881 for 10 %
(CM = K I L / E, K = 10.75).
A cable maker's table of temperature factors for IEC 60228 resistances, 30 to 90 °C.
"""

import pytest

from rigcheck.checks.motor_formulas import cable_resistance, drop_in_cable, warm_resistance
from rigcheck.parts.conductor import copper_temperature_coefficient


@pytest.mark.parametrize(("circular_mils", "share"), [(6271, 0.03), (1881, 0.10)])
def test_the_printed_area_gives_the_printed_drop(circular_mils, share):
    # lengths in feet, resistance in ohm per foot; 21 ft is the loop, out and back
    loop = cable_resistance(length=21 / 2, per_length=10.75 / circular_mils)
    assert drop_in_cable(current=10.0, cable=loop, supply=12.0) == pytest.approx(share, rel=0.0005)


@pytest.mark.parametrize(("celsius", "factor"), [(30, 0.962), (40, 0.926), (50, 0.893), (60, 0.862), (70, 0.833), (80, 0.806), (90, 0.781)])
def test_warm_resistance_gives_the_printed_factor(celsius, factor):
    warm = warm_resistance(cold=1.0, growth=copper_temperature_coefficient().per_k, temperature=273.15 + celsius, base=293.15)
    assert 1 / warm == pytest.approx(factor, abs=0.0005)
