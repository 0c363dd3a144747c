"""A data folder with the tables in it, so that each command need not build them."""

from __future__ import annotations

from pathlib import Path

import pytest

from game.folders import folders
from game.search.cache import load_tables


@pytest.fixture(scope="session")
def data_dir(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder for `--data-dir` that holds tables and nothing else."""
    folder = tmp_path_factory.mktemp("data")
    load_tables(folders(folder).cache)
    return folder
