"""Makes every file here anew, the same bytes each time."""
import base  # noqa: F401, first: it sets the path to the helpers
import files
import forms
import mails_lines
import mails_quoted
import mails_web
import pdfs

for module in (mails_lines, mails_quoted, mails_web, pdfs, forms):
    for layout in module.ALL:
        layout()
print(len(files.made), "files")
