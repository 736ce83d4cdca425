"""The program's rule for each quantity of the published tables, called with what a row gives it."""

import re
from collections.abc import Callable

from tests.trade.published import Row, n, numbers
from winebench.trade import (
    acid,
    alcohol,
    bottling,
    ethanol,
    gravity,
    hydrometer,
    kitchen,
    must,
    nutrient,
    refractometer,
    scales,
    sorbate,
    sugar,
    sulfite,
    sulfite_running,
    sweetening,
    wine,
)
from winebench.units import Amount


def celsius(text: str) -> float:
    return n(text)


def from_calibration(row: Row) -> float:
    return hydrometer.true_sg(*numbers(row)[:3])


def remover(agent: str, settles: str) -> Callable[[Row], float]:
    return lambda row: acid.remover_g(1.0, n(row["input1"]), agent, settles)


def litres_and_brix(row: Row) -> list[float]:
    pairs = [re.match(r"([\d.]+) L at ([\d.]+) Brix", row[k]) for k in ("input1", "input2")]
    return [float(number) for pair in pairs for number in pair.groups()]


def oiv_molecular(row: Row) -> float:
    free, ph, abv = (n(row[k]) for k in ("input1", "input2", "input3"))
    warmth = n(row["input3"].split(",")[1])
    return sulfite.molecular_so2(free, ph, sulfite.pk_so2_oiv(abv, warmth))


def one(function: Callable[..., float], *more: object) -> Callable[[Row], float]:
    return lambda row: function(*numbers(row), *more)


def measure(text: str, to: str) -> Callable[[Row], float]:
    return lambda row: Amount(text).grams() if to == "g" else Amount(text).litres(None) * 1000


RULES: dict[str, Callable[[Row], float]] = {
    "sg20_20_true_from_brix": one(gravity.sg_from_brix),
    "density_20C_from_brix": one(gravity.density_from_brix),
    "sugar_concentration_from_brix": lambda row: gravity.solids_g_per_l_from_sg(
        gravity.sg_from_brix(n(row["input1"]))
    ),
    "brix_from_sg20_20_true": one(gravity.brix_from_sg),
    "sucrose_g_per_L_from_sg20_20": one(gravity.solids_g_per_l_from_sg),
    "oechsle_from_sg20_20": one(scales.oechsle_from_sg),
    "baume_modulus_145_from_sg": one(scales.baume_from_sg, 145.0),
    "baume_modulus_144_3_from_sg": one(scales.baume_from_sg, 144.3),
    # SG in air is higher by 0.0012 (SG - 1): the table's own README says so.
    "brix_from_apparent_sg_nbs_cubic": lambda row: gravity.brix_from_sg(in_vacuum(row)),
    "plato_from_apparent_sg_asbc_cubic": lambda row: gravity.brix_from_sg(in_vacuum(row)),
    "density_from_brix_and_temperature": one(gravity.density_from_brix),
    "density_20C_sucrose_solution": lambda row: (
        gravity.density_from_brix(n(row["input1"])) / 1000.0
    ),
    "ethanol_water_density": one(ethanol.ethanol_water_density),
    "sg20_20_of_ethanol_water_from_abv": one(ethanol.sg_of_alcohol),
    "mass_percent_from_abv": one(ethanol.mass_percent_from_abv),
    "ethanol_g_per_L_from_abv": one(ethanol.ethanol_g_per_l),
    "abv_from_distillate_density_20C": one(ethanol.abv_from_distillate_density),
    "ethanol_water_density_20C": lambda row: (
        ethanol.ethanol_water_density(n(row["input1"]) / 100.0) / 1000.0
    ),
    "water_density_101325_Pa": one(gravity.water_density),
    "hydrometer_true_sg_at_calibration": from_calibration,
    "abv_131.25": one(alcohol.abv_131),
    "abv_duncan_acton": one(alcohol.abv_duncan_acton),
    "abv_balling": one(alcohol.abv_balling),
    "tabarie_sg_of_alcohol_free_wine": one(alcohol.sg_without_alcohol),
    "tabarie_total_dry_extract": one(alcohol.tabarie_extract),
    "potential_alcohol_16.83": one(alcohol.potential_alcohol, 16.83),
    "potential_alcohol_17.5_old_convention": one(alcohol.potential_alcohol, 17.5),
    "potential_alcohol_at_16.83_g_per_percent": one(alcohol.potential_alcohol, 16.83),
    "co2_released_maximum_hexose": one(bottling.gas_g),
    "invert_sugar_from_sucrose": one(sugar.hexose_from_sucrose),
    "molecular_so2_percent_of_free": one(sulfite.molecular_so2_percent),
    "free_so2_for_molecular_target": lambda row: sulfite.free_so2_for_molecular(
        n(row["input2"]), n(row["input1"]), n(row["input3"])
    ),
    "pK_T_of_SO2": one(sulfite.pk_so2_oiv),
    "molecular_so2_with_OIV_pKT_interpolated": oiv_molecular,
    "so2_mass_fraction_of_potassium_metabisulfite": lambda row: sulfite.SO2_SHARE["potassium"],
    "so2_mass_fraction_of_sodium_metabisulfite": lambda row: sulfite.SO2_SHARE["sodium"],
    "potassium_metabisulfite_for_added_so2": lambda row: sulfite.metabisulfite_g(
        n(row["input2"]), n(row["input1"])
    ),
    "sodium_metabisulfite_for_added_so2": lambda row: sulfite.metabisulfite_g(
        n(row["input2"]), n(row["input1"]), "sodium"
    ),
    "so2_from_one_0.44_g_potassium_tablet": lambda row: sulfite.so2_mg_per_l_from_metabisulfite(
        0.44, n(row["input1"])
    ),
    "equivalent_mass": lambda row: acid.GRAMS_PER_EQUIVALENT[row["input1"].split()[0]],
    "acid_expressed_as": lambda row: acid.from_tartaric(
        acid.as_tartaric(n(row["input1"]), row["input1_unit"].split()[-1]), row["input2"]
    ),
    **{
        f"meq_per_L_to_g_L_{name}": one(acid.from_milliequivalents, name)
        for name in ("sulfuric", "tartaric", "acetic")
    },
    "g_L_sulfuric_to_g_L_tartaric": lambda row: acid.as_tartaric(1.0, "sulfuric"),
    "g_L_tartaric_to_meq_per_L": lambda row: 1000.0 / acid.GRAMS_PER_EQUIVALENT["tartaric"],
    "g_L_sulfuric_to_g_L_acetic": lambda row: acid.from_tartaric(
        acid.as_tartaric(1.0, "sulfuric"), "acetic"
    ),
    **{
        f"ta_by_naoh_titration_as_{name}": one(acid.titrated_acid_g_per_l, name)
        for name in ("tartaric", "malic", "citric", "sulfuric")
    },
    **{
        f"{name}_acid_to_raise_TA": lambda row, name=name: acid.acid_to_raise_g(
            n(row["input2"]), n(row["input1"]), name
        )
        for name in ("tartaric", "malic", "citric")
    },
    "calcium_carbonate_per_1_g_L_TA": remover("calcium-carbonate", "yes"),
    "potassium_bicarbonate_per_1_g_L_TA_with_bitartrate_lost": remover(
        "potassium-bicarbonate", "yes"
    ),
    "potassium_bicarbonate_per_1_g_L_TA_neutralisation_only": remover(
        "potassium-bicarbonate", "no"
    ),
    "potassium_carbonate_per_1_g_L_TA_with_bitartrate_lost": remover("potassium-carbonate", "yes"),
    "potassium_carbonate_per_1_g_L_TA_neutralisation_only": remover("potassium-carbonate", "no"),
    "sorbic_acid_in_potassium_sorbate": lambda row: sorbate.SORBIC_SHARE,
    "sorbic_acid_dose_by_alcohol_peynaud": one(sorbate.sorbic_acid_dose_mg_per_l),
    "potassium_sorbate_for_peynaud_dose": lambda row: sorbate.potassium_sorbate_g(
        sorbate.sorbic_acid_dose_mg_per_l(n(row["input1"])), n(row["input2"])
    ),
    "limit_sorbic_acid_OIV": lambda row: sorbate.LIMITS_MG_PER_L["OIV"],
    "limit_sorbic_acid_EU": lambda row: sorbate.LIMITS_MG_PER_L["EU"],
    "limit_sorbic_acid_US": lambda row: sorbate.LIMITS_MG_PER_L["US"],
    "nitrogen_in_diammonium_phosphate": lambda row: nutrient.DAP_NITROGEN,
    "diammonium_phosphate_for_yan": lambda row: nutrient.dap_g(n(row["input2"]), n(row["input1"])),
    "recommended_YAN_by_brix": one(nutrient.nitrogen_need_mg_per_l),
    "abv_from_apparent_brix_and_baume": lambda row: (
        refractometer.abv_from_two_instruments(*numbers(row)).figure
    ),
    "apparent_brix_of_plain_ethanol_water": lambda row: refractometer.brix_shown_by_alcohol(
        n(row["input2"])
    ),
    "refractometer_temperature_correction_to_20C": one(refractometer.correction_to_20c),
    "refractometer_temperature_correction_to_20C_GOST": one(refractometer.correction_to_20c),
    "volume_gain_on_dissolving_sucrose": one(sugar.volume_gained_l),
    "US_legal_rule_volume_gain_metric": lambda row: sweetening.LITRES_PER_KG,
    "blend_brix": lambda row: sugar.mixed_brix(*litres_and_brix(row)),
    "blend_volume": lambda row: sugar.mixed_volume_l(*litres_and_brix(row)),
    "US_gallon": measure("1 gal US", "mL"),
    "US_fluid_ounce": measure("1 fl oz US", "mL"),
    "US_cup": measure("1 cup US", "mL"),
    "US_pint": measure("1 pt US", "mL"),
    "US_quart": measure("1 qt US", "mL"),
    "US_tablespoon": measure("1 tbsp", "mL"),
    "US_teaspoon": measure("1 tsp", "mL"),
    "imperial_gallon": measure("1 gal imperial", "mL"),
    "imperial_pint": measure("1 pt imp", "mL"),
    "imperial_fluid_ounce": measure("1 fl oz imperial", "mL"),
    "pound": measure("1 lb", "g"),
    "ounce": measure("1 oz", "g"),
    "metric_teaspoon": measure("5 mL", "mL"),
    "grape_must_density_20C_from_refractometric_brix": lambda row: (
        must.grape_must_density(n(row["input1"])) / 1000.0
    ),
    "grape_must_sugar_from_refractometric_brix": one(must.grape_must_sugar_g_per_l),
    "grape_must_sugar_per_kg_from_refractometric_brix": one(must.grape_must_sugar_g_per_kg),
    "refractive_index_20C_sucrose_solution": one(refractometer.refractive_index_from_brix),
    "refractive_index_20C_from_brix": one(refractometer.refractive_index_from_brix),
    "brix_from_refractive_index_20C": one(refractometer.brix_from_refractive_index),
    "mass_percent_from_volume_percent_15.56C": one(wine.mass_percent_from_abv_60f),
    "sg_in_air_15.56_15.56C_from_volume_percent": one(wine.sg_of_alcohol_60f),
    "density_corrected_for_so2": lambda row: (
        wine.density_without_so2(n(row["input1"]) * 1000.0, n(row["input2"]) * 1000.0) / 1000.0
    ),
    "potential_alcohol_theoretical_maximum_hexose": one(alcohol.most_alcohol),
    "hydrometer_true_sg_of_ethanol_water": lambda row: hydrometer.true_sg(
        n(row["input1"]), n(row["input2"]), 20.0
    ),
    **{
        quantity: lambda row, limit=limit: sulfite_running.so2_left_mg_per_l(0.0, limit)
        for quantity, limit in {
            "EU_total_SO2_fruit_wine": "EU-fruit-wine",
            "EU_total_SO2_made_wine": "EU-made-wine",
            "EU_total_SO2_red_under_5_g_L_sugar": "EU-grape-wine-red-dry",
            "EU_total_SO2_white_rose_under_5_g_L_sugar": "EU-grape-wine-white-dry",
            "EU_total_SO2_red_5_g_L_sugar_or_more": "EU-grape-wine-red-sweet",
            "EU_total_SO2_white_rose_5_g_L_sugar_or_more": "EU-grape-wine-white-sweet",
            "US_total_SO2_max": "US",
        }.items()
    },
    "fahrenheit_to_celsius": one(kitchen.celsius_from_fahrenheit),
}


def in_vacuum(row: Row) -> float:
    apparent = n(row["input1"])
    return apparent - 0.0012 * (apparent - 1.0)
