"""The helpers one folder up, set for this folder's surveys."""
import os
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE + "/../../lib")

import boats  # noqa: E402

boats.SERIES = "workbooks of spring"

import files  # noqa: E402

files.HERE = HERE
files.PROFILE = os.path.join(tempfile.gettempdir(), "survey-files-office-profile-spring")


def widths(sheet, *sizes):
    """Column widths of an openpyxl sheet, from A on."""
    for letter, size in zip("ABCDEFGHIJ", sizes):
        sheet.column_dimensions[letter].width = size
