"""Works workbooks in LibreOffice as a reader's hand would, and writes down what their cells then hold.

The order names the profile of the program, the file to write, and for each workbook rounds of work: first perhaps a
row that is copied over another, then values that are typed. What is typed in one round is taken back before the next.
Written are, for each workbook and round, the cells of every sheet, row by row from A1, and where the errors stand."""
import json, os, signal, subprocess, sys, time
import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.sheet.FormulaResult import ERROR
from com.sun.star.table.CellContentType import FORMULA, VALUE


def connect(pipe):
    context = uno.getComponentContext()
    resolver = context.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", context)
    for _ in range(300):
        try:
            return resolver.resolve("uno:pipe,name=%s;urp;StarOffice.ComponentContext" % pipe)
        except Exception:
            time.sleep(0.1)
    sys.exit("no connection to LibreOffice within 30 s")


def opened(desktop, file):
    hidden = PropertyValue()
    hidden.Name, hidden.Value = "Hidden", True
    book = desktop.loadComponentFromURL(uno.systemPathToFileUrl(file), "_blank", 0, (hidden,))
    if book is None:
        sys.exit("%s: LibreOffice cannot read it" % file)
    return book


def whole(sheet):
    cursor = sheet.createCursor()
    cursor.gotoEndOfUsedArea(False)
    end = cursor.RangeAddress
    return sheet.getCellRangeByPosition(0, 0, end.EndColumn, end.EndRow)


def within(cell, area):
    return cell.Column <= area.EndColumn and cell.Row <= area.EndRow


def cells_of(book):
    sheets = {}
    for sheet in book.Sheets:
        area = whole(sheet)
        faults = [[row, column, sheet.getCellByPosition(column, row).String]
                  for a in area.queryFormulaCells(ERROR).RangeAddresses
                  for row in range(a.StartRow, a.EndRow + 1) for column in range(a.StartColumn, a.EndColumn + 1)]
        sheets[sheet.Name] = {"rows": area.DataArray, "faults": faults}
    return sheets


def copy_row(book, copy):
    sheet = book.Sheets.getByName(copy["sheet"])
    last = whole(sheet).RangeAddress.EndColumn
    source = sheet.getCellRangeByPosition(0, copy["from"] - 1, last, copy["from"] - 1).RangeAddress
    sheet.copyRange(sheet.getCellByPosition(0, copy["to"] - 1).CellAddress, source)


def put(cell, value):
    if isinstance(value, bool):
        cell.Formula = "TRUE" if value else "FALSE"
    elif isinstance(value, str):
        cell.String = value
    else:
        cell.Value = value


def type_in(book, edits):
    """Types, and gives what stood there."""
    before = []
    for edit in edits:
        if not book.Sheets.hasByName(edit["sheet"]):
            sys.exit("edit of %(sheet)s!%(cell)s: no such sheet" % edit)
        sheet = book.Sheets.getByName(edit["sheet"])
        cell = sheet.getCellRangeByName(edit["cell"])
        if cell.Type == FORMULA or not within(cell.CellAddress, whole(sheet).RangeAddress):
            sys.exit("edit of %(sheet)s!%(cell)s: a formula stands there, or nothing beyond it" % edit)
        before.append((cell, cell.Value if cell.Type == VALUE else cell.String))
        put(cell, edit["value"])
    return before


def worked(book, rounds):
    for one in rounds:
        if one["copy"]:
            copy_row(book, one["copy"])
        before = type_in(book, one["edits"] or [])
        book.calculate()
        yield cells_of(book)
        for cell, value in reversed(before):
            put(cell, value)


def main(order):
    pipe = "drive%d" % os.getpid()
    office = subprocess.Popen(["soffice", "-env:UserInstallation=" + uno.systemPathToFileUrl(order["profile"]), "--headless",
                               "--norestore", "--nodefault", "--accept=pipe,name=%s;urp;" % pipe], start_new_session=True)
    try:
        context = connect(pipe)
        desktop = context.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", context)
        made = []
        for one in order["books"]:
            book = opened(desktop, one["file"])
            made.append(list(worked(book, one["rounds"])))
            book.close(True)
        with open(order["made"], "w") as out:
            json.dump(made, out)
        try:
            desktop.terminate()
        except Exception:
            pass  # it goes away while it answers
        office.wait(30)
    finally:
        try:
            os.killpg(office.pid, signal.SIGKILL)  # soffice starts others; after a good end there is none
        except ProcessLookupError:
            pass


main(json.load(open(sys.argv[1])))
