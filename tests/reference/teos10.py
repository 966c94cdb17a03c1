"""Density and oxygen saturation by TEOS-10 (python3-gsw) on a grid, as JSON on stdout.

Practical salinity 0 to 40, 15 to 32 degrees Celsius (ITS-90), one atmosphere.
"""
import json

import gsw

MOLAR_MASS_O2 = 31.998
rows = []
for salinity in range(0, 41, 2):
    for tenths in range(150, 321, 5):
        t = tenths / 10
        absolute = gsw.SR_from_SP(salinity)
        density = float(gsw.rho(absolute, gsw.CT_from_t(absolute, t, 0), 0))
        potential = gsw.pt0_from_t(absolute, t, 0)
        umol_per_kg = float(gsw.O2sol_SP_pt(salinity, potential))
        rows.append(
            {
                "salinityPpt": salinity,
                "temperatureC": t,
                "kgPerM3": density,
                "oxygenMgPerL": umol_per_kg * density * MOLAR_MASS_O2 / 1e6,
                "conductivityMSPerCm": float(gsw.C_from_SP(salinity, t, 0)),
            }
        )
print(json.dumps(rows))
