"""Make this test set of surveys: /usr/bin/python3 make.py

Nobody who wrote this had looked at the readers. Every file stands beside
NAME.want.json, what a careful person reads in it; in a third of the layouts the
second file holds one wrong number, and the want is what is written. Needs Debian's
python3-openpyxl, python3-xlsxwriter, python3-docx and libreoffice (Calc and
Writer). Boats and people are invented.
"""
import os
import shutil

import books
import files
import papers

ENDINGS = (".want.json", ".html", ".pdf", ".xlsx", ".ods", ".csv", ".tsv", ".docx")


def main():
    for name in os.listdir(files.HERE):
        if name.endswith(ENDINGS):
            os.remove(os.path.join(files.HERE, name))
    for room in (books, papers):
        for layout in room.LAYOUTS:
            layout()
    shutil.rmtree(files.PROFILE, ignore_errors=True)
    shutil.rmtree(os.path.join(files.HERE, "__pycache__"), ignore_errors=True)
    print(f"{len(files.made)} files in {len({name.rsplit('-', 1)[0] for name in files.made})} layouts")


main()
