"""Formulas of the motor, its supply and its cable, and of how fast the load then rises.

The motor has a straight line between no load and stall, T = 0 … T_stall. Fed with V_m instead of its stated voltage V_0, its speeds, torques
and currents all scale with V_m / V_0. So the slopes of current and of speed over torque stay as they are, and only the no-load current
and the no-load speed scale.
"""

from rigcheck.formula import Sign, formula

DRUM_TORQUE = Sign("M", "torque on the drum", "N·m")
TRAIN_RATIO = Sign("i_total", "ratio from motor to drum", "", above=0)
TRAIN_EFFICIENCY = Sign("η_total", "efficiency from motor to drum", "", above=0, high=1)
TORQUE = Sign("M_motor", "torque on the motor's shaft", "N·m", low=0)
STALL_TORQUE = Sign("M_stall", "stall torque of the motor at its stated voltage", "N·m", above=0)
STALL_CURRENT = Sign("I_stall", "stall current of the motor at its stated voltage", "A", above=0)
FREE_CURRENT = Sign("I_free", "no-load current of the motor at its stated voltage", "A", low=0)
FREE_SPEED = Sign("ω_free", "no-load speed of the motor at its stated voltage", "rpm", above=0)
STATED_VOLTAGE = Sign("V_0", "voltage at which the motor's figures are stated", "V", above=0)
SUPPLY_VOLTAGE = Sign("V", "voltage of the supply, unloaded", "V", above=0)
SUPPLY_RESISTANCE = Sign("R_supply", "inner resistance of the supply", "ohm", low=0)
CABLE_LENGTH = Sign("l", "length of the cable, one way", "m", low=0)
COLD = Sign("R'_20", "resistance of the conductor per length, at the temperature of the table", "ohm/km", above=0)
GROWTH = Sign("α", "growth of copper's resistance with its temperature, as a share", "1/K", low=0)
TEMPERATURE = Sign("t", "temperature of the conductor", "°C", low=293.15, high=363.15)
BASE_TEMPERATURE = Sign("t_20", "temperature of the table of resistances", "°C")
WARM = Sign("R'", "resistance of the conductor per length, warm", "ohm/km", low=0)
CABLE_RESISTANCE = Sign("R_cable", "resistance of the cable, out and back", "ohm", low=0)
LOOP = Sign("R_loop", "resistance of supply and cable together", "ohm", low=0)
VOLTAGE = Sign("V_m", "voltage at the motor", "V")
CURRENT = Sign("I", "current", "A")
SPEED = Sign("ω", "speed of the motor", "rpm")
STALL_VOLTAGE = Sign("V_stall", "voltage at the motor while it stands under full current", "V")
STARTING_TORQUE = Sign("M_start", "torque the motor can start with on this supply and cable", "N·m")
DROP = Sign("u", "share of the supply's voltage lost in the cable", "%")
POWER = Sign("P_shaft", "power on the motor's shaft", "W")
SUPPLY_POWER = Sign("P_el", "power drawn", "W")
MOTOR_EFFICIENCY = Sign("η_motor", "efficiency of the motor", "")
RADIUS = Sign("r", "radius of the layer", "mm", above=0)
TAKE_IN = Sign("c", "rope wound in over rise of the load", "", above=0)
LOAD_SPEED = Sign("v", "speed of the load", "m/s")
TAKE_IN_OF_SWING = Sign("c", "rope wound in over the angle of the swing", "m", above=0)
SWING_SPEED = Sign("ω_s", "speed at which the load swings", "rpm")


@formula
def motor_torque(torque: DRUM_TORQUE, ratio: TRAIN_RATIO, efficiency: TRAIN_EFFICIENCY) -> TORQUE:
    """Torque on the motor's shaft while it raises.

    Source: power in = power out / efficiency.

    >>> motor_torque(torque=60.0, ratio=30.0, efficiency=0.5)
    4.0
    """
    return torque / (ratio * efficiency)


@formula
def warm_resistance(cold: COLD, growth: GROWTH, temperature: TEMPERATURE, base: BASE_TEMPERATURE) -> WARM:
    """Resistance per length of a copper conductor at its temperature.

    Range: 20 to 90 °C, as far as the table of temperature factors goes.

    Source: temperature factors of a cable maker's table of IEC 60228 resistances.

    >>> round(warm_resistance(cold=0.00798, growth=0.004, temperature=333.15, base=293.15), 6)
    0.009257
    """
    return cold * (1 + growth * (temperature - base))


@formula
def cable_resistance(length: CABLE_LENGTH, per_length: WARM) -> CABLE_RESISTANCE:
    """Resistance of the loop of cable: out and back.

    Source: wiring practice in 12 and 24 V boats: length counts out and back.

    >>> round(cable_resistance(length=10.0, per_length=0.00798), 4)
    0.1596
    """
    return 2 * length * per_length


@formula
def loop_resistance(supply: SUPPLY_RESISTANCE, cable: CABLE_RESISTANCE) -> LOOP:
    """Resistance of supply and cable in a row.

    Source: OpenStax University Physics, m58453: resistances in a row add.

    >>> loop_resistance(supply=0.25, cable=0.5)
    0.75
    """
    return supply + cable


@formula
def voltage_at_motor(supply: SUPPLY_VOLTAGE, loop: LOOP, torque: TORQUE, stall_torque: STALL_TORQUE, stall_current: STALL_CURRENT,
                     free_current: FREE_CURRENT, stated: STATED_VOLTAGE) -> VOLTAGE:  # fmt: skip
    """Voltage at the running motor, from V_m = V - R I and the motor's line solved together.

    On the line I = I_free V_m / V_0 + T (I_stall - I_free) / T_stall; put into V_m = V - R I it is linear in V_m.

    Source: OpenStax University Physics, m58453 (terminal voltage), with the straight motor line of Guru and Hiziroglu, Ex. 12.1.

    >>> round(voltage_at_motor(supply=24.0, loop=0.1, torque=2.0, stall_torque=10.0, stall_current=50.0, free_current=2.0, stated=24.0), 3)
    22.85
    """
    return (supply - loop * torque * (stall_current - free_current) / stall_torque) / (1 + loop * free_current / stated)


@formula
def motor_current(torque: TORQUE, stall_torque: STALL_TORQUE, stall_current: STALL_CURRENT, free_current: FREE_CURRENT, voltage: VOLTAGE,
                  stated: STATED_VOLTAGE) -> CURRENT:  # fmt: skip
    """Current of the motor on its straight line, at the voltage it gets.

    Source: Guru and Hiziroglu, Ex. 12.1 (I = T / k); a school robotics page gives the line with the no-load current and its scaling.

    >>> round(motor_current(torque=2.0, stall_torque=10.0, stall_current=50.0, free_current=2.0, voltage=24.0, stated=24.0), 6)
    11.6
    """
    return free_current * voltage / stated + torque * (stall_current - free_current) / stall_torque


@formula
def motor_speed(torque: TORQUE, stall_torque: STALL_TORQUE, free_speed: FREE_SPEED, voltage: VOLTAGE, stated: STATED_VOLTAGE) -> SPEED:
    """Speed of the motor on its straight line, at the voltage it gets; zero or less means that it stands.

    Source: Guru and Hiziroglu, Ex. 12.1 (ω = V / k - R T / k²), scaled with the voltage.

    >>> round(motor_speed(torque=0.8, stall_torque=1.6, free_speed=92.0, voltage=24.0, stated=24.0), 6)
    46.0
    """
    return free_speed * (voltage / stated - torque / stall_torque)


@formula
def stall_voltage(supply: SUPPLY_VOLTAGE, loop: LOOP, stall_current: STALL_CURRENT, stated: STATED_VOLTAGE) -> STALL_VOLTAGE:
    """Voltage at the motor before it begins to turn, from V_m = V - R I_stall V_m / V_0.

    Source: OpenStax University Physics, m58453: stall current = E / (R of motor, battery and cable).

    >>> stall_voltage(supply=24.0, loop=0.12, stall_current=50.0, stated=24.0)
    19.2
    """
    return supply / (1 + loop * stall_current / stated)


@formula
def starting_torque(stall_torque: STALL_TORQUE, voltage: STALL_VOLTAGE, stated: STATED_VOLTAGE) -> STARTING_TORQUE:
    """Torque with which the motor can start at the voltage that is left to it.

    Source: stall torque = V k / R, Guru and Hiziroglu, Ex. 12.1: proportional to the voltage.

    >>> starting_torque(stall_torque=10.0, voltage=18.0, stated=24.0)
    7.5
    """
    return stall_torque * voltage / stated


@formula
def drop_in_cable(current: CURRENT, cable: CABLE_RESISTANCE, supply: SUPPLY_VOLTAGE) -> DROP:
    """Share of the supply's voltage that is lost in the cable.

    Source: area formula CM = K I L / E of a marine supplier's technical page, with K L / CM the resistance of the loop.

    >>> round(drop_in_cable(current=10.0, cable=0.036, supply=12.0), 4)
    0.03
    """
    return current * cable / supply


@formula
def shaft_power(torque: TORQUE, speed: SPEED) -> POWER:
    """Power on a turning shaft.

    Source: MIT 2.007, pages on motors: P = T ω.

    >>> shaft_power(torque=2.0, speed=50.0)
    100.0
    """
    return torque * speed


@formula
def power_drawn(voltage: SUPPLY_VOLTAGE, current: CURRENT) -> SUPPLY_POWER:
    """Electrical power.

    Source: OpenStax University Physics, m58734: P = V I.

    >>> power_drawn(voltage=115.0, current=20.0)
    2300.0
    """
    return voltage * current


@formula
def motor_efficiency(torque: TORQUE, speed: SPEED, voltage: VOLTAGE, current: CURRENT) -> MOTOR_EFFICIENCY:
    """Shaft power over electrical power at the motor.

    Source: definition.

    >>> motor_efficiency(torque=2.0, speed=50.0, voltage=25.0, current=8.0)
    0.5
    """
    return torque * speed / (voltage * current)


@formula
def load_speed(speed: SPEED, radius: RADIUS, ratio: TRAIN_RATIO, take_in: TAKE_IN) -> LOAD_SPEED:
    """Speed at which the load rises.

    Source: geometry: rope wound in per second over rope wound in for each length of rise.

    >>> load_speed(speed=120.0, radius=0.1, ratio=30.0, take_in=2.0)
    0.2
    """
    return speed * radius / (ratio * take_in)


@formula
def swing_speed(speed: SPEED, radius: RADIUS, ratio: TRAIN_RATIO, take_in: TAKE_IN_OF_SWING) -> SWING_SPEED:
    """Speed at which the load turns about its hinge.

    Source: geometry: rope wound in per second over rope wound in per radian of the swing.

    >>> swing_speed(speed=120.0, radius=0.1, ratio=30.0, take_in=2.0)
    0.2
    """
    return speed * radius / (ratio * take_in)
