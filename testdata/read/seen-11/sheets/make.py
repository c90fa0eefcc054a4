"""Makes all survey files of this folder, the same bytes each time."""
import common  # noqa: F401  finds the helpers
import documents
import files
import texts
import workbooks

if __name__ == "__main__":
    for module in (workbooks, texts, documents):
        for layout in module.LAYOUTS:
            layout()
    print(len(files.made), "files")
