#!/usr/bin/python3
"""Makes glazes.xlsx and glazes.ods with other makers' libraries (Debian's
python3-openpyxl and python3-odf), as spreadsheets save them: a first sheet that
is empty, formats that show another text than is stored, a formula with its
value, repeated and empty cells, a note, a merged cell. Invented glazes."""
import datetime
from openpyxl import Workbook
from odf.opendocument import OpenDocumentSpreadsheet
from odf.office import Annotation
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P, S

book = Workbook()
book.active.title = "Empty"
s = book.create_sheet("Glazes")
s.append(["code", "name", "cone", "sg", "mixed"])
s.append(["QM", "Quarry  Milk", "06", 1.45, datetime.date(2026, 11, 12)])
s["D2"].number_format = "0.00"
s["E2"].number_format = "yyyy-mm-dd"
s.append([])
s.append(["LR", "Lamp Rust, dark", 6, "=1+0.5", None])
s.append(["=cmd", 'a "soft" blue\nover two lines', None, None, None])
s["A5"].data_type = "s"
s["A200"] = None
book.save("glazes.xlsx")

doc = OpenDocumentSpreadsheet()
doc.spreadsheet.addElement(Table(name="Empty"))
t = Table(name="Glazes")


def row(cells, times=1):
    r = TableRow(numberrowsrepeated=times) if times > 1 else TableRow()
    for c in cells:
        r.addElement(c)
    t.addElement(r)


def cell(text, **more):
    c = TableCell(valuetype="string", **more)
    c.addElement(P(text=text))
    return c


row([cell(h) for h in ["code", "name", "cone", "sg", "mixed"]])
sg = TableCell(valuetype="float", value="1.449999")
sg.addElement(P(text="1.45"))
day = TableCell(valuetype="date", datevalue="2026-11-12")
day.addElement(P(text="2026-11-12"))
name = TableCell(valuetype="string")
p = P(text="Quarry")
p.addElement(S(c=2))
p.addText("Milk")
note = Annotation()
note.addElement(P(text="a note of the teacher's"))
name.addElement(note)
name.addElement(p)
row([cell("QM"), name, cell("06"), sg, day, TableCell(numbercolumnsrepeated=1019)])
row([TableCell(numbercolumnsrepeated=1024)])
worth = TableCell(valuetype="float", value="1.5", formula="of:=1+0.5")
worth.addElement(P(text="1.5"))
row([cell("LR"), cell("Lamp Rust, dark"), cell("6"), worth])
last = TableCell(valuetype="string", numbercolumnsspanned=2, numberrowsspanned=1)
last.addElement(P(text='a "soft" blue'))
last.addElement(P(text="over two lines"))
row([cell("=cmd"), last, CoveredTableCell()])
row([TableCell(numbercolumnsrepeated=1024)], times=1048570)
doc.spreadsheet.addElement(t)
doc.save("glazes.ods")
