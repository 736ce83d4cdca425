"""The rows of the published tables under tests/trade/tables, and what is allowed of each.

A row's `how` says whether its source was opened, its value computed from a published formula,
or recalled. Quantities that have no rule are listed in `NOT_A_RULE`, with the reason.
"""

import csv
import re
from pathlib import Path

TABLES = Path(__file__).parent / "tables"
Row = dict[str, str]


def n(text: str) -> float:
    return float(re.match(r"-?[\d.]+", text.strip())[0])


def numbers(row: Row) -> list[float]:
    return [n(row[k]) for k in ("input1", "input2", "input3") if re.match(r"-?[\d.]", row[k])]


IS_THE_TABLE = {
    "pK_T_of_SO2",
    "sorbic_acid_dose_by_alcohol_peynaud",
    "refractometer_temperature_correction_to_20C",
    "refractometer_temperature_correction_to_20C_GOST",
    "grape_must_density_20C_from_refractometric_brix",
    "grape_must_sugar_from_refractometric_brix",
}
"""Rules that hold the published table itself: their rows guard the copy, and check nothing else."""

NOT_A_RULE = {
    "law for wine on sale; a home maker is not bound by it": {
        "US_amelioration_volume_share_max",
        "US_amelioration_acid_floor",
        "US_amelioration_acid_drop_per_20_gal_in_1000",
        "US_natural_fruit_wine_alcohol_max_after_sugar",
        "US_natural_fruit_wine_total_solids_max",
        "US_chaptalised_juice_brix_max",
        "US_acid_basis_other_fruit",
    },
    "the index of sucrose alone is what a refractometer's scale is made of": {
        "refractive_index_20C_fructose_solution",
        "refractive_index_20C_glucose_solution",
        "refractive_index_20C_ethanol_water",
    },
    "must is reckoned as sucrose; the tables show how far glucose and fructose differ": {
        "density_20C_fructose_solution",
        "density_20C_glucose_solution",
    },
    "checked in a test of its own, in test_tables or test_spoons": {
        "hydrometer_glass_term_alone",
        "abv_envelope_low",
        "abv_envelope_high",
        "US_legal_rule_volume_gain",
        "grams_per_US_teaspoon",
        "grams_per_measure",
    },
    "another convention, named for comparison": {
        "abv_duncan_acton_simple",
        "potential_alcohol_worked_example",
        "pKa_of_SO2_usseglio_tomasset_bosia",
        "potassium_bicarbonate_practice_figure",
        "crushed_tablet_mass_common_practice",
    },
    "guidance, not a value": {
        "YAN_juice_range_published",
        "YAN_minimum_research",
        "limit_ammonium_salts_EU_must",
    },
}


def rows() -> list[tuple[str, Row]]:
    found = []
    for path in sorted(TABLES.glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as lines:
            found += [(path.stem, row) for row in csv.DictReader(lines)]
    return found


def tolerance(row: Row) -> float:
    text = row["tolerance"]
    if row["quantity"] == "volume_gain_on_dissolving_sucrose":
        return 0.01 * n(row["input1"]) + 1e-4
    given = n(text) if re.match(r"[\d.]", text) else 0.0
    if row["quantity"] == "hydrometer_true_sg_at_calibration" and n(row["input1"]) < 1.0:
        # These rows carry sucrose on below water; a wine that thin holds alcohol, which swells
        # more. It parts from them by 0.0004 at 5 °C.
        return 0.00045
    if row["quantity"].endswith("_cubic"):
        # The two cubics fit one table and part from each other by 0.1 at 39 °Brix.
        given = 0.02 if n(row["input1"]) < 1.1 else 0.1
    return max(given, 1e-9 + 1e-6 * abs(n(row["expected"])))
