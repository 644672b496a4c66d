import { MAX_RATE_PERIODS, MAX_WINDOWS } from '../../tariffs/tariff.js';
import { absolute } from '../cell-address.js';
import { BANDS, SHEETS, TARIFF_COUNT } from '../layout.js';
import { formula, label } from './cells.js';
import { sheetTop } from './column-headers.js';
import { CELL } from './columns.js';
import { RATES, rateRow } from './rates-rows.js';
import type { Cell, SheetModel } from './sheet-model.js';
import { TARIFF_CHECKS, tariffCheckCount, tariffCheckFormula } from './tariff-checks.js';
import { ratePeriodRows, TARIFF_ROW, tariffLetters, windowRows } from './tariff-rows.js';

function labels(): Cell[] {
  const cells: Cell[] = [
    label(`A${RATES.name}`, 'Tariff', 'headerLeft'),
    label(`B${RATES.name}`, 'unit', 'header'),
    label(`A${RATES.vatFactor}`, 'VAT factor on the rates as typed', 'label'),
    label(`B${RATES.vatFactor}`, 'factor', 'unit'),
    label(`A${RATES.priceFactor}`, 'Factor on the half-hourly price, 0 where it is not used', 'label'),
    label(`B${RATES.priceFactor}`, 'factor', 'unit'),
  ];
  for (let period = 0; period < MAX_RATE_PERIODS; period++) {
    const set = period === 0 ? 'first rates' : `change ${period}`;
    for (let band = 0; band < BANDS; band++) {
      const row = rateRow(period, band);
      cells.push(
        label(`A${row}`, `${band === 0 ? 'Base rate' : `Window ${band}`}, ${set}, with VAT`, 'label'),
        label(`B${row}`, '{minor}/kWh', 'unit'),
      );
    }
    const line = (row: number, text: string, unit: string): void => {
      cells.push(
        label(`A${row + period}`, `${text}, ${set}`, 'label'),
        label(`B${row + period}`, unit, 'unit'),
      );
    };
    line(RATES.firstValidFrom, 'Valid from', 'date');
    line(RATES.firstStanding, 'Standing charge with VAT', '{minor}/day');
    line(RATES.firstExport, 'Export rate', '{minor}/kWh');
    line(RATES.firstOffPeak, 'Lowest rate, where there is more than one', '{minor}/kWh');
  }
  cells.push(label(`A${RATES.firstCheck - 1}`, 'Faults counted', 'section'));
  TARIFF_CHECKS.forEach((check, index) => {
    const row = RATES.firstCheck + index;
    cells.push(label(`A${row}`, check.name, 'label'), label(`B${row}`, 'count', 'unit'));
  });
  return cells;
}

function tariffCells(tariff: number): Cell[] {
  const c = tariffLetters(tariff);
  const typed = (row: number): string => absolute(SHEETS.tariffs, c, row);
  const cells: Cell[] = [
    formula(
      `${c}${RATES.name}`,
      `IF(${typed(TARIFF_ROW.name)}="","",${typed(TARIFF_ROW.name)})`,
      (r) => r.inputs.tariffs[tariff]!.name ?? '',
      'header',
    ),
    formula(
      `${c}${RATES.vatFactor}`,
      `IF(${typed(TARIFF_ROW.includesVat)}="yes",1,1+SUM(${CELL.vatShare}))`,
      (r) => r.tariffs[tariff]!.rates.vatFactor,
      'rateFine',
    ),
    formula(
      `${c}${RATES.priceFactor}`,
      `IF(${typed(TARIFF_ROW.halfHourlyPriced)}="yes",${c}${RATES.vatFactor},0)`,
      (r) => (r.tariffs[tariff]!.rates.isHalfHourly ? r.tariffs[tariff]!.rates.vatFactor : 0),
      'rateFine',
    ),
  ];
  for (let period = 0; period < MAX_RATE_PERIODS; period++) {
    const rows = ratePeriodRows(period);
    const lines = (r: Parameters<Extract<Cell, { kind: 'formula' }>['value']>[0]) => r.tariffs[tariff]!.rates;
    [rows.base, ...rows.windowRates].forEach((row, band) => {
      cells.push(
        formula(
          `${c}${rateRow(period, band)}`,
          `SUM(${typed(row)})*${c}$${RATES.vatFactor}`,
          (r) => lines(r).rateWithVat[period * BANDS + band]!,
          'rateFine',
        ),
      );
    });
    cells.push(
      formula(
        `${c}${RATES.firstValidFrom + period}`,
        period === 0 ? '0' : `SUM(${typed(rows.validFrom)})`,
        (r) => lines(r).validFrom[period]!,
        'date',
      ),
      formula(
        `${c}${RATES.firstStanding + period}`,
        `SUM(${typed(rows.standing)})*${c}$${RATES.vatFactor}`,
        (r) => lines(r).standingWithVat[period]!,
        'rateFine',
      ),
      formula(
        `${c}${RATES.firstExport + period}`,
        `SUM(${typed(rows.exportRate)})`,
        (r) => lines(r).exportRate[period]!,
        'rateFine',
      ),
      formula(
        `${c}${RATES.firstOffPeak + period}`,
        lowestRate(c, period, typed),
        (r) => lines(r).offPeakRate[period]!,
        'rateFine',
      ),
    );
  }
  TARIFF_CHECKS.forEach((check, index) => {
    cells.push(
      formula(
        `${c}${RATES.firstCheck + index}`,
        tariffCheckFormula(check, tariff),
        (r) => tariffCheckCount(check, r, tariff),
        'integer',
      ),
    );
  });
  return cells;
}

function lowestRate(c: string, period: number, typed: (row: number) => string): string {
  const base = `${c}${rateRow(period, 0)}`;
  const windowRates = Array.from(
    { length: MAX_WINDOWS },
    (_, window) =>
      `IF(ISNUMBER(${typed(windowRows(window).from)}),${c}${rateRow(period, window + 1)},${base})`,
  );
  const all = [base, ...windowRates].join(',');
  return `IF(OR(${c}$${RATES.priceFactor}<>0,MIN(${all})=MAX(${all})),"none",MIN(${all}))`;
}

/** Rates in force: every tariff's rates with VAT, in the shape that the half-hours look up. */
export function ratesSheet(): SheetModel {
  return {
    name: SHEETS.rates,
    tab: 'workings',
    widths: { A: 46, B: 12, ...Object.fromEntries(tariffs().map((t) => [tariffLetters(t), 16])) },
    heights: { [RATES.name]: 32 },
    freeze: { columns: 2, rows: RATES.name },
    protected: true,
    landscape: true,
    printTitleRows: `${RATES.name}:${RATES.name}`,
    cells: [
      ...sheetTop('Rates', `Workings: the rates typed on ${SHEETS.tariffs}, with VAT. Nothing to fill in.`),
      ...labels(),
      ...tariffs().flatMap(tariffCells),
    ],
    formulaColumns: [],
    inputColumns: [],
    conditional: [],
  };
}

function tariffs(): number[] {
  return Array.from({ length: TARIFF_COUNT }, (_, tariff) => tariff);
}
