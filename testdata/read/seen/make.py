"""Make this test set of typed surveys: /usr/bin/python3 make.py

Some forty customers, none of whom knows how the readers work, and nobody who
wrote this did. Every file stands beside NAME.want.json, the numbers written in
it. Needs Debian's python3-openpyxl, python3-xlsxwriter, python3-docx,
python3-reportlab, libreoffice (Calc and Writer) and chromium. Boats and people
are invented.
"""
import os
import shutil

import boats
import mails
import pages
import papers
import plain
import sheets
import words


def main():
    for name in os.listdir(boats.HERE):
        if not name.endswith(".py") and name != "README.md" and os.path.isfile(os.path.join(boats.HERE, name)):
            os.remove(os.path.join(boats.HERE, name))
    for room in (plain, sheets, words, papers, pages, mails):
        for layout in room.LAYOUTS:
            layout()
    shutil.rmtree(boats.PROFILE, ignore_errors=True)
    shutil.rmtree(os.path.join(boats.HERE, "__pycache__"), ignore_errors=True)
    print(f"{len(boats.made)} files in {len({name.rsplit('-', 1)[0] for name in boats.made})} layouts")


main()
