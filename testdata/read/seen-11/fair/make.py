"""Makes all files of this folder, the same bytes each time."""
import common  # noqa: F401
import files
import mails
import papers
import sheets

for layout in [*sheets.ALL, *papers.ALL, *mails.ALL]:
    layout()
print(len(files.made), "files")
