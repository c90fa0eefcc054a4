"""Make this test set of surveys in sheets and documents: /usr/bin/python3 make.py

Nobody who wrote this had looked at the readers. Every file stands beside
NAME.want.json, what a careful person reads in it; the second file of a layout
holds one wrong number, and the want is what is written. Needs Debian's
python3-openpyxl, python3-docx and libreoffice (Calc). Boats and people are
invented.
"""
import os
import shutil

import documents
import files
import separated
import workbooks


def main():
    for name in os.listdir(files.HERE):
        if name.endswith((".json", ".xlsx", ".ods", ".csv", ".tsv", ".docx")):
            os.remove(os.path.join(files.HERE, name))
    for room in (separated, workbooks, documents):
        for layout in room.LAYOUTS:
            layout()
    shutil.rmtree(files.PROFILE, ignore_errors=True)
    shutil.rmtree(os.path.join(files.HERE, "__pycache__"), ignore_errors=True)
    print(f"{len(files.made)} files in {len({name.rsplit('-', 1)[0] for name in files.made})} layouts")


main()
