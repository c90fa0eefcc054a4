"""Make this test set of surveys: /usr/bin/python3 make.py

Nobody who wrote this had looked at the readers. Every file stands beside
NAME.want.json, what a careful person reads in it; the second file of some layouts
holds a wrong number, a doubt or a gap, and the want is what is written. Needs Debian's
python3-openpyxl, python3-xlsxwriter, python3-docx, python3-reportlab and
libreoffice (Calc and Writer). Boats and people are invented.
"""
import os
import shutil
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, os.path.join(HERE, "..", "..", "lib"))
import files

files.HERE = HERE
import attached
import french
import mails
import papers

ENDINGS = (".want.json", ".eml", ".txt", ".html", ".pdf", ".xlsx", ".ods", ".csv", ".tsv", ".docx")


def main():
    for name in os.listdir(files.HERE):
        if name.endswith(ENDINGS):
            os.remove(os.path.join(files.HERE, name))
    for room in (mails, attached, french, papers):
        for layout in room.LAYOUTS:
            layout()
    shutil.rmtree(files.PROFILE, ignore_errors=True)
    shutil.rmtree(os.path.join(files.HERE, "__pycache__"), ignore_errors=True)
    print(f"{len(files.made)} files in {len({name.rsplit('-', 1)[0] for name in files.made})} layouts")


main()
