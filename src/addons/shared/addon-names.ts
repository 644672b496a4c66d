/** What people see in lists of add-ons. */
export const ADDON_NAME = 'Home tariff functions';
/** One sentence under the name. */
export const ADDON_SUMMARY =
  'What energy costs at home: tariffs, windows, bills, degree days, boilers, heat pumps and batteries, as functions in cells.';
/** Raised when the functions change. */
export const ADDON_VERSION = '1.0.0';
/** To whom the manifests attribute the add-ons. */
export const ADDON_PROVIDER = 'The home tariff workbook';
/** Shown wherever an add-on is described. */
export const ADDON_CAUTION =
  'Figures for your own planning: check them against your bills, and leave work on gas, wiring and heating to licensed people.';
