"""The helpers, set to this folder and its series of boats."""
import email.utils
import os
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE + "/../../lib")
import boats  # noqa: E402
import files  # noqa: E402

boats.SERIES = "mails of spring"
files.HERE = HERE


def shown(b):
    """Name and address as a mail program prints them in a quoted heading."""
    return f"{b.owner} <{email.utils.parseaddr(b.mailbox)[1]}>"


def in_france(b):
    """A telephone number of France."""
    return f"06 55 50 {b.phone[-4:-2]} {b.phone[-2:]}"
