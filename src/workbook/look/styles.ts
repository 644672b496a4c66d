import type { Style } from 'exceljs';

/** The few colours of the workbook: ink, paper, one accent for inputs, one for results, one for warnings. */
export const COLOURS = {
  ink: 'FF1F2A37',
  quietInk: 'FF566070',
  paper: 'FFFFFFFF',
  band: 'FFE8EEF2',
  input: 'FFFFF6DB',
  inputEdge: 'FF927406',
  result: 'FF0B5563',
  good: 'FFDDEFE3',
  bad: 'FFF9D9D0',
  badInk: 'FF8A1C0C',
  best: 'FFD5E8F0',
} as const;

/** Where a colour scale from paper ends: text in ink stays readable on it. */
export const SCALE_ENDS = { import: 'FFF0A35E', export: 'FF7CC4A0' } as const;

const FONT = 'Arial';
/** Font of all text that says nothing else. */
export const BASE_FONT = { name: FONT, size: 10 } as const;
const ink = { name: FONT, size: 10, color: { argb: COLOURS.ink } };
const quiet = { name: FONT, size: 9, color: { argb: COLOURS.quietInk } };
const solid = (argb: string): NonNullable<Style['fill']> => ({
  type: 'pattern',
  pattern: 'solid',
  fgColor: { argb },
});

const edge = { style: 'thin', color: { argb: COLOURS.inputEdge } } as const;
/** A frame beside the fill: who can't tell the colour, or prints without it, sees the frame. */
const frame = { top: edge, left: edge, bottom: edge, right: edge } as const;

const inputLook: Partial<Style> = {
  font: ink,
  fill: solid(COLOURS.input),
  border: frame,
  protection: { locked: false },
  alignment: { horizontal: 'right', vertical: 'middle' },
};
const input = (numFmt: string, look: Partial<Style> = {}): Partial<Style> => ({
  ...inputLook,
  numFmt,
  ...look,
});
const figure = (numFmt: string, look: Partial<Style> = {}): Partial<Style> => ({
  font: ink,
  numFmt,
  alignment: { horizontal: 'right', vertical: 'middle' },
  ...look,
});

/** A value that the fill writes: no formula, and not for the user. */
const stored = (numFmt: string): Partial<Style> => ({
  font: { ...ink, italic: true },
  numFmt,
  alignment: { horizontal: 'right', vertical: 'middle' },
});

/** Of a number that is no day, such as the 0 of a beginning that nobody dated, nothing shows: programs make 1899 of it. */
const SHOWN_MONTH = 'mmm yyyy;;';

export const MONEY = '#,##0.00;-#,##0.00';
export const MONEY_SIGNED = '+#,##0.00;-#,##0.00;0.00';

const total = (numFmt: string, look: Partial<Style> = {}): Partial<Style> => ({
  ...figure(numFmt),
  font: { ...ink, bold: true },
  border: { top: { style: 'thin', color: { argb: COLOURS.result } } },
  ...look,
});

/** Every look in the workbook, by name. */
export const STYLES = {
  title: { font: { name: FONT, size: 18, bold: true, color: { argb: COLOURS.result } } },
  sentence: {
    font: { name: FONT, size: 13, bold: true, color: { argb: COLOURS.ink } },
    alignment: { wrapText: true, vertical: 'middle' },
  },
  verdict: { font: { ...ink, bold: true }, alignment: { wrapText: true, vertical: 'middle' } },
  section: {
    font: { name: FONT, size: 12, bold: true, color: { argb: COLOURS.result } },
    border: { bottom: { style: 'medium', color: { argb: COLOURS.result } } },
  },
  label: { font: ink, alignment: { vertical: 'middle' } },
  labelStrong: { font: { ...ink, bold: true }, alignment: { vertical: 'middle' } },
  labelWrap: { font: ink, alignment: { wrapText: true, vertical: 'middle' } },
  /** Prose of the project's own: what stands beside inputs has other styles, by which a moved cell is told. */
  paragraph: { font: ink, alignment: { wrapText: true, vertical: 'middle' } },
  hint: { font: quiet, alignment: { vertical: 'middle' } },
  hintMiddle: { font: quiet, alignment: { wrapText: true, vertical: 'middle', indent: 1 } },
  hintWrap: { font: quiet, alignment: { wrapText: true, vertical: 'middle' } },
  link: {
    font: { ...ink, underline: true, color: { argb: COLOURS.result } },
    alignment: { vertical: 'middle' },
  },
  unitBeside: { font: quiet, alignment: { horizontal: 'left', vertical: 'middle', indent: 1 } },
  unit: { font: quiet, alignment: { vertical: 'middle' } },
  header: {
    font: { ...ink, bold: true },
    fill: solid(COLOURS.band),
    alignment: { horizontal: 'center', vertical: 'middle', wrapText: true },
  },
  headerLeft: {
    font: { ...ink, bold: true },
    fill: solid(COLOURS.band),
    alignment: { horizontal: 'left', vertical: 'middle', wrapText: true },
  },
  headerUnit: {
    font: quiet,
    fill: solid(COLOURS.band),
    alignment: { horizontal: 'center', vertical: 'middle', wrapText: true },
  },
  /** Samples of what conditional formats do, for the key. */
  sampleBest: {
    font: ink,
    fill: solid(COLOURS.best),
    alignment: { horizontal: 'center', vertical: 'middle' },
  },
  sampleGood: {
    font: ink,
    fill: solid(COLOURS.good),
    alignment: { horizontal: 'center', vertical: 'middle' },
  },
  sampleBad: {
    font: { ...ink, color: { argb: COLOURS.badInk } },
    fill: solid(COLOURS.bad),
    alignment: { horizontal: 'center', vertical: 'middle' },
  },
  sampleStored: {
    font: { ...ink, italic: true },
    alignment: { horizontal: 'center', vertical: 'middle' },
  },
  sampleUnit: { font: quiet, alignment: { horizontal: 'center', vertical: 'middle' } },
  mapKwh: {
    font: { ...ink, size: 9 },
    numFmt: '0.0',
    alignment: { horizontal: 'center', vertical: 'middle' },
  },
  mapKwhStrong: {
    font: { ...ink, size: 9, bold: true },
    numFmt: '0.00',
    alignment: { horizontal: 'center', vertical: 'middle' },
  },
  mapHeader: {
    font: { ...ink, size: 9, bold: true },
    fill: solid(COLOURS.band),
    alignment: { horizontal: 'center', vertical: 'middle', wrapText: true },
  },
  mapHour: { font: { ...ink, size: 9 }, alignment: { horizontal: 'left', vertical: 'middle' } },
  seed: { font: quiet, numFmt: 'General' },
  storedMoney: stored(MONEY),
  storedNumber: stored('#,##0.0'),
  storedTime: stored('yyyy-mm-dd hh:mm'),
  integerLeft: figure('0', { alignment: { horizontal: 'left', vertical: 'middle' } }),
  oneDigit: figure('0.0'),
  inputText: input('@', { alignment: { horizontal: 'left', vertical: 'middle' } }),
  inputChoice: input('General', { alignment: { horizontal: 'center', vertical: 'middle' } }),
  inputName: input('General', {
    font: { ...ink, bold: true },
    alignment: { horizontal: 'center', vertical: 'middle', wrapText: true },
  }),
  inputNumber: input('0.###'),
  inputRate: input('0.00##'),
  inputTemperature: input('0.0'),
  inputFine: input('0.00###'),
  inputMoney: input('#,##0.00'),
  inputPercent: input('0.0#%'),
  inputDate: input('yyyy-mm-dd'),
  inputMonth: input('mmm yyyy', { alignment: { horizontal: 'center', vertical: 'middle' } }),
  inputTime: input('[hh]:mm'),
  inputDateTime: input('yyyy-mm-dd hh:mm'),
  inputKwh: input('0.000'),
  inputOffset: input('+0.##;-0.##;0'),
  text: { font: ink, alignment: { vertical: 'middle' } },
  textBeside: { font: ink, alignment: { horizontal: 'left', vertical: 'middle', indent: 1 } },
  textCentre: { font: ink, alignment: { horizontal: 'center', vertical: 'middle' } },
  textStrong: { font: { ...ink, bold: true }, alignment: { vertical: 'middle' } },
  /** A long one becomes smaller rather than cut. */
  tariffName: { font: { ...ink, bold: true }, alignment: { vertical: 'middle', shrinkToFit: true } },
  money: figure(MONEY),
  moneyStrong: figure(MONEY, { font: { ...ink, bold: true } }),
  moneySigned: figure(MONEY_SIGNED),
  pence: figure('#,##0.000'),
  rate: figure('0.00'),
  rateFine: figure('0.0000'),
  kwh: figure('#,##0'),
  kwhFine: figure('#,##0.000'),
  monthLeft: figure(SHOWN_MONTH, { alignment: { horizontal: 'left', vertical: 'middle' } }),
  textRight: figure('General'),
  totalLabel: total('General', { alignment: { vertical: 'middle' } }),
  totalCount: total('#,##0'),
  totalRate: total('0.00'),
  totalMoney: total(MONEY),
  totalSigned: total(MONEY_SIGNED),
  totalPercent: total('0.0%'),
  oneDecimal: figure('#,##0.0'),
  percent: figure('0.0%'),
  integer: figure('0'),
  count: figure('#,##0'),
  date: figure('yyyy-mm-dd;;'),
  month: figure(SHOWN_MONTH),
  dateTime: figure('yyyy-mm-dd hh:mm;;'),
  time: figure('[hh]:mm'),
} satisfies Record<string, Partial<Style>>;

export type StyleName = keyof typeof STYLES;
