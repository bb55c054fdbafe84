"""The command, and a service that is started with a catalogue of its own."""

import subprocess
import sys
from pathlib import Path

import pytest

from service import create_app
from service.__main__ import main
from service.catalogue import FILES, SETTINGS, FaultyCatalogue, faults
from service.catalogue.readers import _GENERIC
from service.settings import Settings

GOODS = "sku,name,item,unit\nSAND,Sharp sand,sharp_sand,t\n"
PACKS = "good,name,content\nSAND,bulk bag,0.85\n"


def written(folder: Path, goods: str = GOODS, packs: str = PACKS) -> Path:
    (folder / "goods.csv").write_text(goods, "utf-8")
    (folder / "packs.csv").write_text(packs, "utf-8")
    return folder


def test_a_sound_catalogue_is_said_to_be_sound(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-catalogue", str(written(tmp_path))]) == 0
    assert capsys.readouterr().out == "Nothing to mend: 1 goods in 1 packs.\n"


def test_every_fault_is_reported_on_a_line_of_its_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    written(tmp_path, GOODS.replace("sharp_sand", "sharp_snad"), PACKS.replace("0.85", "0"))
    assert main(["check-catalogue", str(tmp_path)]) == 1
    printed = capsys.readouterr()
    lines = printed.out.splitlines()
    assert [line.split(":")[0] for line in lines] == ["goods.csv row 2 column item", "packs.csv row 2 column content"]
    assert lines == [str(fault) for fault in faults(tmp_path)]
    assert printed.err == "2 to mend.\n"


def test_a_folder_that_is_not_there_is_reported(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-catalogue", str(tmp_path / "nowhere")]) == 1
    assert "isn't a folder" in capsys.readouterr().out


def test_every_column_and_setting_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["catalogue-columns"]) == 0
    printed = capsys.readouterr().out
    for file in FILES:
        assert f"## {file.name}" in printed
        for column in file.columns:
            assert f"| {column.name}{'*' if column.needed else ''} | {column.about} |" in printed
    for setting in SETTINGS:
        assert f"| {setting} | " in printed


def test_a_service_sells_from_its_own_catalogue(tmp_path: Path) -> None:
    client = create_app(Settings(catalogue=written(tmp_path))).test_client()
    assert [good["sku"] for good in client.get("/v1/catalogue").get_json()["goods"]] == ["SAND"]


def test_a_service_with_a_faulty_catalogue_refuses_to_start(tmp_path: Path) -> None:
    written(tmp_path, packs=PACKS.replace("0.85", "0"))
    with pytest.raises(FaultyCatalogue) as refusal:
        create_app(Settings(catalogue=tmp_path))
    assert str(refusal.value) == "\n".join(str(fault) for fault in faults(tmp_path))


def test_a_server_with_a_faulty_catalogue_ends_with_the_report(tmp_path: Path) -> None:
    root = Path(__file__).parents[1]
    written(tmp_path, packs=PACKS.replace("0.85", "0"))
    command = [sys.executable, "-m", "gunicorn", "--config", str(root / "docker" / "gunicorn.conf.py")]
    environment = {
        "PAVING_QUANTITIES_CATALOGUE": str(tmp_path),
        "PAVING_QUANTITIES_BIND": "127.0.0.1:0",
        "WEB_CONCURRENCY": "1",
        "PYTHONPATH": str(root),
    }
    ended = subprocess.run(command, check=False, cwd=root, env=environment, capture_output=True, text=True, timeout=60)
    assert ended.returncode != 0
    assert "packs.csv row 2 column content" in ended.stderr


def test_the_generic_catalogue_passes_the_check(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check-catalogue", str(_GENERIC)]) == 0
    assert capsys.readouterr().out.startswith("Nothing to mend: ")
