"""Copies a row of a sheet in LibreOffice, types into the copy, and saves."""
import json, os, subprocess, sys, time
import uno
from com.sun.star.beans import PropertyValue


def prop(name, value):
    p = PropertyValue()
    p.Name, p.Value = name, value
    return p


def connect(pipe):
    resolver = uno.getComponentContext().ServiceManager.createInstanceWithContext(
        "com.sun.star.bridge.UnoUrlResolver", uno.getComponentContext())
    for _ in range(300):
        try:
            return resolver.resolve("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)
        except Exception:
            time.sleep(0.1)
    sys.exit("no connection to LibreOffice within 30 s")


order = json.load(open(sys.argv[1]))
pipe = "copyrow%d" % os.getpid()
office = subprocess.Popen(["soffice", "-env:UserInstallation=file://" + order["profile"], "--headless", "--norestore",
                           "--nodefault", "--accept=pipe,name=%s;urp;" % pipe])
try:
    context = connect(pipe)
    desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
    book = desktop.loadComponentFromURL("file://" + order["file"], "_blank", 0, (prop("Hidden", True),))
    sheet = book.Sheets.getByName(order["sheet"])
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    last = cursor.RangeAddress.EndColumn
    source = sheet.getCellRangeByPosition(0, order["from"] - 1, last, order["from"] - 1).RangeAddress
    sheet.copyRange(sheet.getCellByPosition(0, order["to"] - 1).CellAddress, source)
    for column, value in order["typed"].items():
        cell = sheet.getCellRangeByName("%s%d" % (column, order["to"]))
        if isinstance(value, str):
            cell.String = value
        else:
            cell.Value = value
    book.calculateAll()
    book.storeToURL("file://" + order["made"], (prop("FilterName", "Calc MS Excel 2007 XML"),))
    book.close(True)
    try:
        desktop.terminate()
    except Exception:
        pass
finally:
    office.wait(30)
