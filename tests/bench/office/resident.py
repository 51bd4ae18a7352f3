"""Drives a LibreOffice that already runs, by UNO (python3-uno): recalculates a workbook and prints it, so many times.
Arguments: pipe, process group of the office, workbook, PDF, rounds, figures to read of the sheet 'Totals'. Answers one line of JSON."""
import json
import os
import sys
import time
from pathlib import Path

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

pipe, group, workbook, pdf, rounds = sys.argv[1], int(sys.argv[2]), sys.argv[3], sys.argv[4], int(sys.argv[5])
figures = sys.argv[6].split(",")
TICK = os.sysconf("SC_CLK_TCK")


def cpu():
    """Processor time of the whole group, in seconds."""
    taken = 0
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(fields[2]) == group:
            taken += int(fields[11]) + int(fields[12])
    return taken / TICK


def desktop():
    here = uno.getComponentContext()
    resolver = here.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", here)
    for _ in range(600):
        try:
            there = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
            return there.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", there)
        except NoConnectException:
            time.sleep(0.1)
    sys.exit("The office did not answer within a minute.")


def said(name, value):
    one = PropertyValue()
    one.Name, one.Value = name, value
    return one


def taken(act):
    """Least wall time of the rounds, and processor time of one, in ms; one round before them is not counted."""
    act()
    before, least = cpu(), float("inf")
    for _ in range(rounds):
        began = time.perf_counter()
        act()
        least = min(least, time.perf_counter() - began)
    return {"wall": 1000 * least, "cpu": 1000 * (cpu() - before) / rounds}


office = desktop()
opened = lambda: office.loadComponentFromURL(Path(workbook).as_uri(), "_blank", 0, (said("Hidden", True),))
printed = lambda book: book.storeToURL(Path(pdf).as_uri(), (said("FilterName", "calc_pdf_Export"),))


def anew():
    another = opened()
    printed(another)
    another.close(True)


def again():
    book.calculateAll()
    printed(book)


book = opened()
answer = {"calculated": taken(book.calculateAll), "again": taken(again), "anew": taken(anew)}
cells = book.Sheets.getByName("Totals").getCellRangeByName("A1:B20").getDataArray()
shown = {name: amount for name, amount in cells}
answer["totals"] = [[name, str(shown[name])] for name in figures]
print(json.dumps(answer), flush=True)
book.close(True)
try:
    office.terminate()
except Exception:
    pass  # It is gone before it could answer.
