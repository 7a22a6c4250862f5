from tests.rehearsed_once import rehearsed_once  # noqa: F401
