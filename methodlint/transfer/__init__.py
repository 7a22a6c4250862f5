"""A method moved to another instrument or column: computed, limited, explained and checked.

The package is callable: ``methodlint.transfer("method.yaml", to="bench-b")``, see
`methodlint.transfer.open_transfer.transfer`.
"""

from __future__ import annotations

import sys
from types import ModuleType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from methodlint.transfer.result import Transfer


class _CallablePackage(ModuleType):
    """The public function has the name of this package, so calling the package calls it."""

    def __call__(self, *arguments: Any, **options: Any) -> Transfer:
        from methodlint.transfer.open_transfer import transfer

        return transfer(*arguments, **options)


sys.modules[__name__].__class__ = _CallablePackage
