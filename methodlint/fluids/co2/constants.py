"""Fixed points of CO2 [SI units].

Source: R. Span, W. Wagner, J. Phys. Chem. Ref. Data 25, 1509 (1996).  Secondary texts misprint the
critical pressure; 7.3773 MPa is the paper's.
"""

from __future__ import annotations

from typing import Final

CRITICAL_TEMPERATURE: Final = 304.1282
CRITICAL_PRESSURE: Final = 7.3773e6
CRITICAL_DENSITY: Final = 467.6
TRIPLE_TEMPERATURE: Final = 216.592
TRIPLE_PRESSURE: Final = 0.51795e6
#: [kg/mol]
MOLAR_MASS: Final = 0.0440098
