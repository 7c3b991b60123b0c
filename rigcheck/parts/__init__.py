"""Catalogue tables with their sources, and one small lookup module for each subject.

Every table is a CSV file beside its module, read and checked by `tables.py` on first use:

    wire_rope       wire_ropes.csv, wire_rope_grades.csv, wire_rope_sizes.csv
    fibre_rope      fibre_ropes.csv (US table), fibre_ropes_federal.csv (older manila), fibre_ropes_dual.csv (two-fibre rope),
                    fibre_ropes_iso.csv (from memory, never answered from), fibre_rope_rules.csv (strength from circumference)
    rope_heat       rope_heat_limits.csv, rope_heat_limits_us.csv
    end_fitting     end_fittings.csv
    sheave_rule     sheave_rules.csv
    tackle_table    line_parts_table.csv, overhaul_factors.csv, measured_tackles.csv
    bend_strength   bend_strength.csv, bending_life.csv
    diameter_ratio  diameter_ratios.csv
    basis           bases.csv
    drum_rule       drum_rules.csv
    gear_stage      gear_stages.csv, worm_friction.csv
    conductor       conductors.csv, conductor_temperature.csv, copper.csv

What a lookup returns is in SI and carries its source and its mark: read, from memory, common practice without a
source, or estimate. A value from memory is given with that mark, so that no limit is decided by it alone.
"""
