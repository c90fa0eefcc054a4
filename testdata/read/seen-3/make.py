"""Make this test set of typed surveys: /usr/bin/python3 make.py

Nobody who wrote this had looked at the readers. Every file stands beside
NAME.want.json, what a careful person reads in it. Needs Debian's
python3-openpyxl, python3-docx, python3-reportlab, libreoffice (Calc and Writer)
and chromium. Boats and people are invented.
"""
import os
import shutil

import books
import delimited
import files
import forms
import homely
import letters
import notes
import office
import post
import prints


def main():
    for folder in (files.HERE, files.SEEN):
        for name in os.listdir(folder):
            if not name.endswith(".py") and name != "README.md" and os.path.isfile(os.path.join(folder, name)):
                os.remove(os.path.join(folder, name))
    for room in (delimited, notes, books, letters, prints, forms, post, homely, office):
        for layout in room.LAYOUTS:
            layout()
    shutil.rmtree(files.PROFILE, ignore_errors=True)
    shutil.rmtree(os.path.join(files.HERE, "__pycache__"), ignore_errors=True)
    print(f"{len(files.made)} files in {len({name.rsplit('-', 1)[0] for name in files.made})} layouts")


main()
