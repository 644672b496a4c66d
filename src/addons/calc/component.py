"""The add-in that LibreOffice Calc loads: hands each function's cells to the helper and its answer back.

Names, help and shapes come from functions.json beside it; the computation is in library.cjs, which Node.js runs.
"""

import json
import os

import uno
import unohelper
from com.sun.star.lang import IllegalArgumentException, XServiceName
from com.sun.star.sheet import XAddIn
from home.tariff import XFunctions

from home_tariff_helper import Helper, HelperFailed, NodeMissing, WrongInput

IMPLEMENTATION = "home.tariff.Functions"
HERE = os.path.dirname(os.path.abspath(__file__))
CATEGORY = "Add-In"  # Calc sorts functions into its own categories only.

with open(os.path.join(HERE, "functions.json"), encoding="utf-8") as file:
    FUNCTIONS = {described["name"]: described for described in json.load(file)}

helper = Helper(os.path.join(HERE, "library.cjs"))


class Functions(unohelper.Base, XFunctions, XAddIn, XServiceName):
    """One method a function (added below), beside what Calc asks of every add-in."""

    def __init__(self, context):
        self.locale = uno.createUnoStruct("com.sun.star.lang.Locale")

    def getServiceName(self):
        return IMPLEMENTATION

    def setLocale(self, locale):
        self.locale = locale

    def getLocale(self):
        return self.locale

    def getProgrammaticFuntionName(self, display_name):
        return display_name if display_name in FUNCTIONS else ""

    def getDisplayFunctionName(self, name):
        return name if name in FUNCTIONS else ""

    def getFunctionDescription(self, name):
        return FUNCTIONS[name]["help"] if name in FUNCTIONS else ""

    def getDisplayArgumentName(self, name, index):
        return self._argument(name, index)["name"]

    def getArgumentDescription(self, name, index):
        return self._argument(name, index)["help"]

    def getProgrammaticCategoryName(self, name):
        return CATEGORY

    def getDisplayCategoryName(self, name):
        return FUNCTIONS[name]["category"] if name in FUNCTIONS else CATEGORY

    def _argument(self, name, index):
        arguments = FUNCTIONS[name]["arguments"] if name in FUNCTIONS else []
        return arguments[index] if 0 <= index < len(arguments) else {"name": "", "help": ""}

    def _refuse(self, message):
        raise IllegalArgumentException(message, self, -1)


def to_cells(value):
    """A value of Calc as JSON: blank is None, a range is rows."""
    return [[cell for cell in row] for row in value] if isinstance(value, tuple) else value


def from_cell(value):
    if value is None:
        return ""
    return float(value) if isinstance(value, (bool, int)) else value  # Calc takes no boolean from an add-in


def function(described):
    """The method that Calc calls for one function."""
    name, is_series = described["name"], described["isSeries"]

    def call(self, *args):
        try:
            value = helper.call(name, [to_cells(value) for value in args])
        except (WrongInput, HelperFailed) as problem:
            self._refuse(str(problem))
        except NodeMissing as missing:
            # A text: every cell with one of these functions says what to do.
            return ((str(missing),),) if is_series else str(missing)
        if is_series:
            return tuple(tuple(from_cell(cell) for cell in row) for row in value)
        return from_cell(value)

    return call


def what_is_wrong(self, name, args):
    """Why a function gives an error, as text: Calc shows no message beside Err:502."""
    try:
        helper.call(str(name or "").strip().upper(), [to_cells(value) for value in args])
    except (WrongInput, HelperFailed, NodeMissing) as problem:
        return str(problem)
    return ""


for _described in FUNCTIONS.values():
    setattr(Functions, _described["name"], function(_described))
Functions.WHAT_IS_WRONG = what_is_wrong

g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Functions, IMPLEMENTATION, ("com.sun.star.sheet.AddIn", IMPLEMENTATION))
