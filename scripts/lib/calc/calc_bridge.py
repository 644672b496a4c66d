"""Drives one headless LibreOffice Calc for the TypeScript side.

Requests come as JSON lines on stdin, answers go as JSON lines on stdout. The bridge owns the office process and its
temporary profile: when stdin closes, for whatever reason, both are gone a moment later.
"""

import array
import ctypes
import json
import math
import os
import queue
import shutil
import signal
import subprocess
import sys
import threading
import time
import traceback

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException
from com.sun.star.table import CellRangeAddress

FILTERS = {"xlsx": "Calc MS Excel 2007 XML", "ods": "calc8", "pdf": "calc_pdf_Export"}
CONTENT = 1 | 2 | 4 | 16  # numbers, dates, texts, formulas
FORMULA = 16
ERROR_RESULT = 4
LOGICAL_FORMAT = 1024
CHUNK_CELLS = 60_000
NOBODY = 65534
BLANK, NUMBER, TEXT, ERROR = 0, 1, 2, 3

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse">
<value>{mode}</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="ODFRecalcMode" oor:op="fuse">
<value>{mode}</value></prop></item>
<item oor:path="/org.openoffice.Setup/Office"><prop oor:name="ooSetupInstCompleted" oor:op="fuse">
<value>true</value></prop></item>
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">
<value>{locale}</value></prop></item>
<item oor:path="/org.openoffice.Office.Common/Misc"><prop oor:name="FirstRun" oor:op="fuse">
<value>false</value></prop></item>
<item oor:path="/org.openoffice.Office.Recovery/AutoSave"><prop oor:name="Enabled" oor:op="fuse">
<value>false</value></prop></item>
</oor:items>
"""


class BridgeError(Exception):
    """A request that cannot be met; the message is for the person who reads the test output."""


def properties(**values):
    return tuple(PropertyValue(Name=name, Value=value) for name, value in values.items())


def url_of(path):
    return uno.systemPathToFileUrl(os.path.abspath(path))


def milliseconds_since(start):
    return (time.perf_counter() - start) * 1000


class Office:
    """The office process: its profile folder, its pipe, its end."""

    def __init__(self, soffice, work_folder, recalculate, locale, extensions=()):
        self.folder = work_folder
        user = os.path.join(work_folder, "profile", "user")
        os.makedirs(user)
        with open(os.path.join(user, "registrymodifications.xcu"), "w", encoding="utf-8") as file:
            file.write(PROFILE.format(mode={"always": 0, "never": 1}[recalculate], locale=locale))
        for extension in extensions:
            self._install(soffice, extension)
        self.pipe = "calc" + os.path.basename(work_folder).replace("-", "") + str(os.getpid())
        self.log = open(os.path.join(work_folder, "office.log"), "wb")
        environment = dict(os.environ, HOME=work_folder, SAL_USE_VCLPLUGIN="svp", LC_ALL="C.UTF-8")
        environment.pop("DISPLAY", None)
        self.process = subprocess.Popen(
            [
                soffice,
                f"-env:UserInstallation={url_of(os.path.join(work_folder, 'profile'))}",
                f"--accept=pipe,name={self.pipe};urp;",
                "--headless",
                "--norestore",
                "--nologo",
                "--nodefault",
                "--nolockcheck",
                "--nofirststartwizard",
            ],
            stdin=subprocess.DEVNULL,
            stdout=self.log,
            stderr=self.log,
            env=environment,
            start_new_session=True,
        )

    def _install(self, soffice, extension):
        """Adds an extension to the profile as a user does; the installer refuses to run as root."""
        copy = shutil.copy(extension, self.folder)
        as_user = {}
        if os.geteuid() == 0:
            as_user = {"user": NOBODY, "group": NOBODY, "extra_groups": []}
            for path in [self.folder, *(os.path.join(top, name) for top, folders, files in os.walk(self.folder)
                                        for name in folders + files)]:
                os.chown(path, NOBODY, NOBODY)
        installer = os.path.join(os.path.dirname(os.path.realpath(soffice)), "unopkg")
        profile = url_of(os.path.join(self.folder, "profile"))
        done = subprocess.run(
            [installer, "add", "-f", "-s", f"-env:UserInstallation={profile}", copy],
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
            env=dict(os.environ, HOME=self.folder, LC_ALL="C.UTF-8"), timeout=60, **as_user,
        )
        if done.returncode != 0:
            said = done.stdout.decode("utf-8", "replace").strip()
            raise BridgeError(f"{extension} could not be installed in LibreOffice: {said}")

    def connect(self, timeout_seconds):
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
        deadline = time.monotonic() + timeout_seconds
        while True:
            try:
                context = resolver.resolve(f"uno:pipe,name={self.pipe};urp;StarOffice.ComponentContext")
                self.create = lambda name: context.ServiceManager.createInstanceWithContext(name, context)
                return self.create("com.sun.star.frame.Desktop")
            except NoConnectException:
                code = self.process.poll()
                if code is not None or time.monotonic() > deadline:
                    raise BridgeError(
                        f"LibreOffice {'ended with code ' + str(code) if code is not None else 'did not answer'}"
                        f" within {timeout_seconds} s of its start: {self.log_tail()}"
                    )
                time.sleep(0.05)

    def log_tail(self):
        with open(self.log.name, "rb") as file:
            return file.read()[-2000:].decode("utf-8", "replace").strip() or "(it printed nothing)"

    def end(self):
        try:
            os.killpg(self.process.pid, signal.SIGKILL)
        except ProcessLookupError:
            pass
        self.process.wait()
        # The starter has left its child to this process, which adopts orphans: nobody else may reap it.
        for _ in range(100):
            try:
                if os.waitpid(-1, os.WNOHANG)[0] == 0:
                    time.sleep(0.02)
            except ChildProcessError:
                break
        # A killed child of the group may still write for a moment.
        for _ in range(20):
            shutil.rmtree(self.folder, ignore_errors=True)
            if not os.path.exists(self.folder):
                return
            time.sleep(0.05)


class Bridge:
    """The requests, one method each; names on the wire are the method names."""

    def __init__(self, office, desktop):
        self.office = office
        self.desktop = desktop
        self.documents = {}
        self.next_id = 1

    def is_answered(self):
        """Whether the office is still there to answer."""
        try:
            self.desktop.getImplementationName()
            return True
        except Exception:  # noqa: BLE001 - any way that a broken connection shows
            return False

    def open(self, path):
        if not os.path.isfile(path):
            raise BridgeError(f"{path}: no such file")
        start = time.perf_counter()
        # As a template: an unnamed copy, so that no lock file appears beside the user's file.
        document = self.desktop.loadComponentFromURL(
            url_of(path), "_blank", 0, properties(Hidden=True, AsTemplate=True, MacroExecutionMode=0, UpdateDocMode=0)
        )
        if document is None or not hasattr(document, "Sheets"):
            if document is not None:
                document.close(True)
            raise BridgeError(f"{path}: LibreOffice cannot load this as a spreadsheet")
        milliseconds = milliseconds_since(start)
        key = self.next_id
        self.next_id += 1
        self.documents[key] = document
        return {"document": key, "milliseconds": milliseconds}

    def close(self, document):
        self.documents.pop(document).close(True)
        return {}

    def sheets(self, document):
        result = []
        for sheet in self.documents[document].Sheets:
            rows, columns = self._used(sheet)
            result.append({"name": sheet.Name, "visible": sheet.IsVisible, "rows": rows, "columns": columns})
        return {"sheets": result}

    def names(self, document):
        names = self.documents[document].NamedRanges
        return {"names": [{"name": name, "content": names.getByName(name).Content} for name in names.ElementNames]}

    def function_help(self, names):
        """What the function wizard shows for functions that add-ins bring."""
        described = self.office.create("com.sun.star.sheet.FunctionDescriptions")
        found = {}
        for index in range(described.getCount()):
            values = {value.Name: value.Value for value in described.getByIndex(index)}
            if values["Name"] in names:
                found[values["Name"]] = {
                    "description": values["Description"],
                    "arguments": [
                        {"name": a.Name, "description": a.Description, "isOptional": a.IsOptional}
                        for a in values["Arguments"]
                    ],
                }
        return {"functions": found}

    def recalculate_all(self, document):
        start = time.perf_counter()
        self.documents[document].calculateAll()
        return {"milliseconds": milliseconds_since(start)}

    def set_cells(self, document, cells, settle=True):
        book = self.documents[document]
        targets = [(self._cell(book, cell), cell["value"]) for cell in cells]
        start = time.perf_counter()
        book.addActionLock()
        try:
            for target, value in targets:
                if value is None:
                    target.clearContents(CONTENT)
                elif isinstance(value, bool):
                    target.setValue(1 if value else 0)
                    target.NumberFormat = book.NumberFormats.getStandardFormat(LOGICAL_FORMAT, target.CharLocale)
                elif isinstance(value, str):
                    target.setString(value)
                else:
                    target.setValue(value)
        finally:
            book.removeActionLock()
        if settle:
            # Interprets what the change made dirty, and nothing else.
            book.calculate()
        milliseconds = milliseconds_since(start)
        for (target, value), cell in zip(targets, cells):
            held = target.getString() if isinstance(value, str) else target.getValue()
            if held != (value if value is not None else 0):
                raise BridgeError(f"{cell}: the cell holds {held!r} after it was set")
        return {"milliseconds": milliseconds}

    def insert(self, document, sheet, what, at, count):
        page = self._sheet(document, sheet)
        (page.Columns if what == "column" else page.Rows).insertByIndex(at - 1, count)
        return {}

    def read_sheet(self, document, sheet, area, out):
        page = self._sheet(document, sheet)
        if area:
            area = page.getCellRangeByName(area).RangeAddress
        else:
            rows, columns = self._used(page)
            area = CellRangeAddress(page.RangeAddress.Sheet, 0, 0, max(columns, 1) - 1, max(rows, 1) - 1)
        first_row, first_column = area.StartRow, area.StartColumn
        row_count, column_count = area.EndRow - first_row + 1, area.EndColumn - first_column + 1
        kinds = bytearray(row_count * column_count)
        slots = array.array("d", bytes(8 * row_count * column_count))
        texts, text_index = [], {}
        position = 0
        chunk_rows = max(1, CHUNK_CELLS // column_count)
        for top in range(first_row, area.EndRow + 1, chunk_rows):
            bottom = min(top + chunk_rows - 1, area.EndRow)
            block = page.getCellRangeByPosition(first_column, top, area.EndColumn, bottom).getDataArray()
            for row in block:
                for value in row:
                    if value.__class__ is float:
                        kinds[position] = NUMBER
                        slots[position] = value
                    elif value.__class__ is str:
                        if value != "":
                            kinds[position] = TEXT
                            index = text_index.get(value)
                            if index is None:
                                index = text_index[value] = len(texts)
                                texts.append(value)
                            slots[position] = index
                    position += 1

        block = page.getCellRangeByPosition(first_column, first_row, area.EndColumn, area.EndRow)
        formulas = [
            [a.StartRow, a.StartColumn, a.EndRow, a.EndColumn]
            for a in block.queryContentCells(FORMULA).getRangeAddresses()
        ]
        errors = []
        for a in block.queryFormulaCells(ERROR_RESULT).getRangeAddresses():
            for row in range(a.StartRow, a.EndRow + 1):
                for column in range(a.StartColumn, a.EndColumn + 1):
                    cell = page.getCellByPosition(column, row)
                    errors.append([row, column, cell.getError(), cell.getString()])
        for row, column, _, text in errors:
            position = (row - first_row) * column_count + column - first_column
            kinds[position] = ERROR
            index = text_index.get(text)
            if index is None:
                index = text_index[text] = len(texts)
                texts.append(text)
            slots[position] = index
        if sys.byteorder != "little":
            slots.byteswap()
        with open(out, "wb") as file:
            file.write(kinds)
            slots.tofile(file)
        return {
            "sheet": page.Name,
            "firstRow": first_row + 1,
            "firstColumn": first_column + 1,
            "rows": row_count,
            "columns": column_count,
            "texts": texts,
            "formulas": formulas,
            "errors": len(errors),
        }

    def read_formulas(self, document, sheet, area):
        block = self._sheet(document, sheet).getCellRangeByName(area)
        address = block.RangeAddress
        array_of_texts = block.getFormulaArray()
        found = []
        for a in block.queryContentCells(FORMULA).getRangeAddresses():
            for row in range(a.StartRow, a.EndRow + 1):
                for column in range(a.StartColumn, a.EndColumn + 1):
                    text = array_of_texts[row - address.StartRow][column - address.StartColumn]
                    found.append([row + 1, column + 1, text])
        return {"formulas": found}

    def save_as(self, document, path, file_type):
        self.documents[document].storeToURL(url_of(path), properties(FilterName=FILTERS[file_type], Overwrite=True))
        return {}

    def charts(self, document, sheet):
        page = self._sheet(document, sheet)
        alternatives = {}
        for shape in page.DrawPage:
            if getattr(shape, "PersistName", ""):
                alternatives[shape.PersistName] = " ".join(t for t in (shape.Title, shape.Description) if t)
        result = []
        for chart in page.Charts:
            drawing = chart.getEmbeddedObject()
            described = {
                "name": chart.getName(),
                "title": title_text(drawing),
                "alternativeText": alternatives.get(chart.getName(), ""),
                "types": [],
                "axisTitles": [],
                "series": [],
            }
            for system in drawing.getFirstDiagram().getCoordinateSystems():
                categories = ""
                for dimension in range(system.getDimension()):
                    for index in range(system.getMaximumAxisIndexByDimension(dimension) + 1):
                        axis = system.getAxisByDimension(dimension, index)
                        described["axisTitles"].append(title_text(axis))
                        source = axis.getScaleData().Categories
                        if source is not None and source.getValues() is not None:
                            categories = source.getValues().getSourceRangeRepresentation()
                for kind in system.getChartTypes():
                    described["types"].append(kind.getChartType())
                    for series in kind.getDataSeries():
                        described["series"].append(series_ranges(series, categories))
            result.append(described)
        return {"charts": result}

    def render(self, document, sheet, path, first_page, last_page, screen):
        """One sheet to a PDF of a few pages: the other sheets are hidden for the time of the export."""
        book = self.documents[document]
        target = self._sheet(document, sheet)
        pages = [(page, page.IsVisible, page.getPrintAreas()) for page in book.Sheets]
        saved_style = target.PageStyle
        target.IsVisible = True
        try:
            for page, _, _ in pages:
                if page.Name != target.Name:
                    # A hidden sheet with a print area is printed all the same.
                    page.setPrintAreas(())
                    page.IsVisible = False
            if screen:
                self._as_screen(book, target, screen)
            data = uno.Any(
                "[]com.sun.star.beans.PropertyValue",
                # The icons of notes would lie over the cells.
                properties(PageRange=f"{first_page}-{last_page}", UseTaggedPDF=False, ExportNotes=False),
            )
            book.storeToURL(url_of(path), properties(FilterName=FILTERS["pdf"], FilterData=data, Overwrite=True))
        finally:
            for page, was_visible, areas in pages:
                page.IsVisible = was_visible
                page.setPrintAreas(areas)
            target.PageStyle = saved_style
        return {}

    def _as_screen(self, book, target, screen):
        """Makes the page the window: no margins, no scaling, the cells that fit."""
        width, height = screen["width"], screen["height"]  # hundredths of a millimetre
        column, right = 0, 0
        while right + target.Columns.getByIndex(column).Width <= width and column < 300:
            right += target.Columns.getByIndex(column).Width if target.Columns.getByIndex(column).IsVisible else 0
            column += 1
        row, bottom = 0, 0
        while bottom + target.Rows.getByIndex(row).Height <= height and row < 500:
            bottom += target.Rows.getByIndex(row).Height if target.Rows.getByIndex(row).IsVisible else 0
            row += 1
        index = target.RangeAddress.Sheet
        target.setPrintAreas((CellRangeAddress(index, 0, 0, max(column, 1) - 1, max(row, 1) - 1),))
        target.setPrintTitleRows(False)
        target.setPrintTitleColumns(False)
        styles = book.StyleFamilies.getByName("PageStyles")
        if not styles.hasByName("Screen"):
            styles.insertByName("Screen", book.createInstance("com.sun.star.style.PageStyle"))
        style = styles.getByName("Screen")
        target.PageStyle = "Screen"
        style.IsLandscape = width > height
        style.Width, style.Height = width, height
        for margin in ("LeftMargin", "RightMargin", "TopMargin", "BottomMargin"):
            setattr(style, margin, 0)
        style.HeaderIsOn = style.FooterIsOn = False
        style.CenterHorizontally = style.CenterVertically = False
        style.ScaleToPagesX = style.ScaleToPagesY = style.ScaleToPages = 0
        style.PageScale = 100

    def _sheet(self, document, name):
        sheets = self.documents[document].Sheets
        if not sheets.hasByName(name):
            raise BridgeError(f"no sheet is named {name!r}; the workbook has {', '.join(sheets.ElementNames)}")
        return sheets.getByName(name)

    def _cell(self, book, cell):
        if "name" in cell:
            if not book.NamedRanges.hasByName(cell["name"]):
                raise BridgeError(f"no cell is named {cell['name']!r}")
            referred = book.NamedRanges.getByName(cell["name"]).getReferredCells()
            if referred is None:
                raise BridgeError(f"{cell['name']!r} is not the name of a cell")
            return referred.getCellByPosition(0, 0)
        if not book.Sheets.hasByName(cell["sheet"]):
            raise BridgeError(f"no sheet is named {cell['sheet']!r}")
        return book.Sheets.getByName(cell["sheet"]).getCellRangeByName(cell["cell"]).getCellByPosition(0, 0)

    def _used(self, sheet):
        cursor = sheet.createCursor()
        cursor.gotoEndOfUsedArea(False)
        row, column = cursor.RangeAddress.EndRow, cursor.RangeAddress.EndColumn
        if row == 0 and column == 0 and not sheet.getCellByPosition(0, 0).getFormula():
            return 0, 0
        return row + 1, column + 1


def title_text(titled):
    title = titled.getTitleObject() if hasattr(titled, "getTitleObject") else None
    return "".join(part.getString() for part in title.getText()) if title is not None else ""


def series_ranges(series, categories):
    ranges = {"label": "", "labelText": "", "values": "", "categories": categories}
    for sequence in series.getDataSequences():
        values = sequence.getValues()
        role = values.Role
        key = {"values-y": "values", "values-x": "categories"}.get(role, role)
        ranges[key] = values.getSourceRangeRepresentation()
        if sequence.getLabel() is not None and role == "values-y":
            ranges["label"] = sequence.getLabel().getSourceRangeRepresentation()
            ranges["labelText"] = " ".join(str(part) for part in sequence.getLabel().getTextualData())
    return ranges


def requests_from_stdin(office):
    """Reads in a thread, so that the end of the parent is noticed while the office works."""
    waiting = queue.Queue()

    def read():
        for line in sys.stdin:
            waiting.put(json.loads(line))
        office.end()
        os._exit(0)

    threading.Thread(target=read, daemon=True).start()
    return waiting


def adopt_orphans():
    if sys.platform == "linux":
        set_child_subreaper = 36
        ctypes.CDLL(None).prctl(set_child_subreaper, 1, 0, 0, 0)


def finite(value):
    """The same value, with null for numbers that JSON has no way to write."""
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if isinstance(value, dict):
        return {key: finite(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [finite(part) for part in value]
    return value


def answer(message):
    try:
        line = json.dumps(message, allow_nan=False)
    except ValueError:
        line = json.dumps(finite(message), allow_nan=False)
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


def main():
    soffice, work_folder, recalculate, locale, timeout, *extensions = sys.argv[1:]
    adopt_orphans()
    try:
        office = Office(soffice, work_folder, recalculate, locale, extensions)
    except BridgeError as error:
        answer({"id": 0, "error": str(error)})
        return
    waiting = requests_from_stdin(office)
    try:
        bridge = Bridge(office, office.connect(float(timeout)))
    except BridgeError as error:
        office.end()
        answer({"id": 0, "error": str(error)})
        return
    answer({"id": 0, "result": {"officeProcess": office.process.pid}})
    while True:
        request = waiting.get()
        try:
            method = getattr(bridge, request["method"])
            answer({"id": request["id"], "result": method(**request["parameters"])})
        except BridgeError as error:
            answer({"id": request["id"], "error": str(error)})
        except Exception:  # noqa: BLE001 - whatever the office raised is what the test should show
            error = traceback.format_exc()
            if bridge.is_answered():
                answer({"id": request["id"], "error": error})
                continue
            answer({"id": request["id"], "error": f"{error}\nLibreOffice has ended: {office.log_tail()}", "ended": True})
            office.end()
            return


if __name__ == "__main__":
    main()
