"""Writes by-fluids.json: what two libraries for Python, fluids and chemicals, reckon, to compare with. No test runs this.

    python3 -m venv venv && venv/bin/pip install fluids chemicals && venv/bin/python tests/analysis/flow/by-fluids.py > tests/analysis/flow/by-fluids.json
"""
import json

import chemicals
import fluids
from chemicals import iapws95_rho, mu_IAPWS, sigma_IAPWS
from chemicals.iapws import iapws95_Psat
from fluids.friction import friction_factor

ATMOSPHERE = 101325.0


def water(celsius):
    kelvin = celsius + 273.15
    # At 100 degC a little more than the pressure of the vapour, so that it is liquid.
    density = iapws95_rho(kelvin, max(ATMOSPHERE, iapws95_Psat(kelvin) * 1.001))
    return {
        "celsius": celsius, "density": round(density, 4), "viscosity": float("%.6g" % (mu_IAPWS(kelvin, density) / density)),
        "tension": float("%.6g" % sigma_IAPWS(kelvin)),
    }


def friction(reynolds, roughness):
    return {
        "reynolds": reynolds, "roughness": roughness, "colebrook": float("%.8g" % friction_factor(reynolds, roughness, Method="Clamond")),
        "swameeJain": float("%.8g" % friction_factor(reynolds, roughness, Method="Swamee_Jain_1976")),
    }


print(json.dumps({
    "by": "fluids %s, chemicals %s" % (fluids.__version__, chemicals.__version__),
    "water": [water(celsius) for celsius in (1, 5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 80, 90, 99)],
    "friction": [friction(reynolds, roughness) for reynolds in (4000, 5000, 7000, 1e4, 2e4, 5e4, 1e5, 1e6) for roughness in (0, 1e-5, 1e-4, 1.875e-4, 1e-3, 5e-3, 1e-2)],
}, indent=1))
