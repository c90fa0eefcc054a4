"""Where the helpers are, and what all scripts of this folder share."""
import os
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
sys.dont_write_bytecode = True
sys.path.insert(0, os.path.join(HERE, "..", "..", "lib"))

import boats  # noqa: E402
boats.SERIES = "sealed of spring"
import files  # noqa: E402
files.HERE = HERE
files.PROFILE = os.path.join(tempfile.gettempdir(), "survey-files-office-profile-spring")


def wide(sheet, *widths):
    """Column widths of an openpyxl sheet, from A on."""
    for letter, width in zip("ABCDEFGH", widths):
        sheet.column_dimensions[letter].width = width
