# SPDX-License-Identifier: GPL-3.0-or-later
"""Numbers of materials/*.toml in SI, and what the handbook's rules make of them.

Rules and their sources: the comments of the tables. The order of six directions is that of the
tables: LL, RR, TT, RT, LT, LR.
"""

import math
import tomllib

import numpy as np

from quantity import FACTOR

REFERENCE_TEMPERATURE = 293.15  # K, of the table values
REFERENCE_MOISTURE = 0.12
GAS_CONSTANT = 8.314462618  # J/(mol K)


def in_si(entry):
    factor = FACTOR[entry["unit"]]
    value = entry["value"]
    if entry["unit"] == "degC":
        return value + 273.15
    return [v * factor for v in value] if isinstance(value, list) else value * factor


class Tables:
    """Entries of the folder of tables by kind and name (or alias)."""

    def __init__(self, folder):
        self.file = {}
        for name in ("woods", "glues", "bars", "strings"):
            with open(f"{folder}/{name}.toml", "rb") as file:
                self.file[name] = tomllib.load(file)

    def entry(self, name, kind, word):
        entries = self.file[name][kind]
        for key, entry in entries.items():
            if word == key or word in entry.get("aliases", []):
                merged = {**self.file[name].get("common", {}), **entry}
                return {k: self.number(v) for k, v in merged.items() if isinstance(v, dict)}
        raise KeyError(f"no {kind} {word} in {name}.toml")

    @staticmethod
    def number(entry):
        if entry.get("unit") == "degC":
            return entry["value"] + 273.15
        return in_si(entry) if "value" in entry else None

    def wood(self, word):
        return Wood(self.entry("woods", "wood", word))

    def glue(self, word):
        return self.entry("glues", "glue", word)

    def bar(self, word):
        return self.entry("bars", "bar", word)

    def strings(self, word):
        return self.entry("strings", "set", word)


def equilibrium_moisture(temperature, humidity):
    """Moisture content (kg/kg) at rest with air: Hailwood and Horrobin, Wood Handbook Eq. 4-5."""
    t = temperature - 273.15
    w = 349 + 1.29 * t + 0.0135 * t * t
    k = 0.805 + 7.36e-4 * t - 2.73e-6 * t * t
    k1 = 6.27 - 9.38e-3 * t - 3.03e-4 * t * t
    k2 = 1.91 + 0.0407 * t - 2.93e-4 * t * t
    x = k * humidity
    hydrates = (k1 * x + 2 * k1 * k2 * x * x) / (1 + k1 * x + k1 * k2 * x * x)
    return 18 / w * (x / (1 - x) + hydrates)


def rest_humidity(temperature, moisture):
    """Humidity of the air that keeps a moisture content at a temperature (bisection)."""
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        if equilibrium_moisture(temperature, middle) < moisture:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def congruent(compliance, roots):
    """S_ab sqrt(f_a f_b): positive definite whatever the factors (materials.md 2.2)."""
    return compliance * np.outer(roots, roots)


class Wood:
    """One wood: stiffness, creep, expansion, heat. Compliances are 6 x 6 in wood axes, 1/Pa."""

    def __init__(self, numbers):
        self.n = numbers

    def reference_compliance(self):
        n = self.n
        e_l = n["bending_modulus"] * n["true_modulus_factor"]  # bending contains shear: 10 %
        e_r, e_t = e_l * n["E_R_ratio"], e_l * n["E_T_ratio"]
        s = np.diag([1 / e_l, 1 / e_r, 1 / e_t, 1 / (e_l * n["G_RT_ratio"]),
                     1 / (e_l * n["G_LT_ratio"]), 1 / (e_l * n["G_LR_ratio"])])
        s[0, 1] = s[1, 0] = -n["nu_LR"] / e_l
        s[0, 2] = s[2, 0] = -n["nu_LT"] / e_l
        s[1, 2] = s[2, 1] = -n["nu_RT"] / e_r
        return s

    def softening(self, temperature, moisture):
        """Factors on the six moduli. Eq. 5-3 in moisture; Tables 5-15 and 5-16 in temperature."""
        n, kelvin = self.n, temperature - REFERENCE_TEMPERATURE
        green = n["bending_modulus_green"] / n["bending_modulus"]
        wet = green ** ((moisture - 0.12) / (n["moisture_intersection"] - 0.12))
        share = [n["modulus_70F_constant"] - n["modulus_70F_slope"] * (68 / 1.8 + k)
                 for k in (0.0, kelvin)]
        along = (1 + share[1]) / (1 + share[0])
        lost = np.interp(moisture, [0.06, 0.12, 0.20], n["drop_across_50C"])
        across, shear = (1 - lost) ** (kelvin / 30), (1 - n["drop_shear_50C"]) ** (kelvin / 30)
        hot = np.array([along, across, across, shear, shear, shear])
        return hot * wet ** np.array(n["moisture_exponent"])

    def compliance(self, temperature, moisture):
        """Without creep."""
        return congruent(self.reference_compliance(), self.softening(temperature, moisture) ** -0.5)

    def creep_compliance(self, temperature, moisture):
        """J/g: what a creep share of 1 adds."""
        s = self.compliance(temperature, moisture)
        return self.n["creep_factor"] * congruent(s, np.sqrt(self.n["creep_ratio"]))

    def compliance_at_once(self, temperature, moisture):
        instant = self.n["creep_instant"] * self.creep_compliance(temperature, moisture)
        return self.compliance(temperature, moisture) + instant

    def creep_shift(self, temperature, moisture):
        """Reduced time per time; logistic in moisture, Arrhenius in temperature."""
        n = self.n

        def damp(m):
            return n["creep_moisture_gain"] / (
                1 + math.exp((n["creep_moisture_middle"] - m) / n["creep_moisture_width"]))
        hot = -n["activation_energy"] / GAS_CONSTANT * (
            1 / temperature - 1 / REFERENCE_TEMPERATURE)
        return math.exp(hot + damp(moisture) - damp(REFERENCE_MOISTURE))

    def expansion(self):
        """L, R, T, 1/K; across from the oven-dry gravity (Eq. 4-19, 4-20)."""
        n = self.n
        slope = n["expansion_slope"] * n["gravity_green"] / (1 - n["shrinkage_volume"])
        return np.array([n["expansion_L"], slope + n["expansion_R_constant"],
                         slope + n["expansion_T_constant"]])

    def gravity(self, moisture):
        return self.n["gravity_green"] / (1 - self.n["shrinkage_volume"] * (1 - moisture / 0.30))

    def conductivity(self, moisture):
        """(along, across) the grain, W/(m K); Eq. 4-17 across."""
        across = self.gravity(moisture) * (0.1941 + 0.4064 * moisture) + 0.01864
        return self.n["conduction_ratio"] * across, across

    def heat_capacity(self, temperature, moisture):
        """Of a volume, J/(m^3 K); Eq. 4-14 and 4-16 to 4-18."""
        percent = 100 * moisture
        dry = 0.1031 + 0.003867 * temperature
        bound = percent * (-0.06191 + 2.36e-4 * temperature - 1.33e-4 * percent)
        capacity = 1000 * ((dry + 0.0418 * percent) / (1 + moisture) + bound)
        return 1000 * self.gravity(moisture) * (1 + moisture) * capacity
