import type { Node, Reference } from '../../formula/nodes.js';
import { all, areaReference, f, joined, type Line } from '../book/terms.js';
import { SHEETS, TARIFF_COUNT } from '../layout.js';
import { BATTERY_FIELDS } from './battery-fields.js';
import type { Field } from './field.js';
import { GAS_COLUMNS } from './gas-fields.js';
import { HEATING_TABLES } from './heating-fields.js';
import { SETTING_FIELDS } from './heating-settings.js';
import { HOME_FIELDS } from './home-fields.js';
import { DEAREST_RATES_ROW } from './mistyped-rates.js';
import { CURRENCY_IS_KNOWN, PLAUSIBLE } from './plausible.js';

/** A figure beside the tariffs that may be mistyped: one cell, or those of a column of a table. */
export interface AskedFigure {
  readonly label: string;
  /** How many of its cells look mistyped. */
  readonly count: Node;
  /** Which of them is told, where there are some: of a column the smallest, or else the largest. */
  readonly found: Node;
  /** What was found, and what may be meant. */
  readonly asks: (found: Line) => Node;
}

type Cells = Line | Reference;
const { currency, minorUnit, vatShare } = HOME_FIELDS;
const isColumn = (cells: Cells): cells is Reference => 'area' in cells;

/** Rates of a kWh or charges of a day: in pounds where they are small. */
function rates(label: string, cells: Cells, unit: 'kWh' | 'day', most: number): AskedFigure {
  const isSmall = f`COUNTIFS(${cells},">0",${cells},"<"&${PLAUSIBLE.leastPence})`;
  const isLarge = f`${CURRENCY_IS_KNOWN}*COUNTIFS(${cells},">"&${most})`;
  const ofColumn = f`IF(${isSmall}>0,SMALL(${cells},1+COUNTIFS(${cells},"<=0")),MAX(${cells}))`;
  const what = unit === 'day' ? 'Is it a month’s?' : 'Is its decimal point in place?';
  return {
    label,
    count: f`${isSmall}+${isLarge}`,
    found: isColumn(cells) ? ofColumn : f`SUM(${cells})`,
    asks: (found) => {
      const meant = f`ROUND(100*${found},4)`;
      const inPounds = f`"Typed in "&${currency.cell}&"? "&${meant}&" "&${minorUnit.cell}&" is written "&${meant}&"."`;
      return f`ROUND(${found},4)&" "&${minorUnit.cell}&${`/${unit}. `}&IF(${found}<${PLAUSIBLE.leastPence},${inPounds},${what})`;
    },
  };
}

/** A cell that is below one bound, or above another; where there is something that it is of. */
function outside(
  { spec, cell }: Field,
  { least, most, where }: { least?: number; most?: number | Node; where?: Node },
  asks: (found: Line) => Node,
): AskedFigure {
  const beyond = joined('+', [
    ...(least === undefined ? [] : [f`COUNTIFS(${cell},"<"&${least})`]),
    ...(most === undefined ? [] : [f`COUNTIFS(${cell},">"&${most})`]),
  ]);
  const count = where === undefined ? beyond : f`IF(${where},${beyond},0)`;
  return { label: spec.label, count, found: f`SUM(${cell})`, asks };
}

const percent = (found: Line, asks: string): Node => f`ROUND(100*${found},2)&${` %. ${asks}`}`;
const figure = (found: Line, asks: string): Node => f`ROUND(${found},4)&${` ${asks}`}`;

const { usableKwh, chargeEfficiency, dischargeEfficiency, roundTripEfficiency, wearPencePerKwh } =
  BATTERY_FIELDS;

const isThere = f`SUM(${usableKwh.cell})>0`;

function efficiency(field: Field, least: number, where: Node): AskedFigure {
  return outside(field, { least, where }, (found) =>
    percent(found, 'Home batteries lose less: is a digit missing?'),
  );
}

function power(field: Field, way: string): AskedFigure {
  const most = f`${PLAUSIBLE.mostPowerPerKwh}*SUM(${usableKwh.cell})`;
  const minutes = (found: Line): Node => f`ROUND(60*SUM(${usableKwh.cell})/${found},0)`;
  return outside(
    field,
    { most, where: isThere },
    (found) =>
      f`ROUND(${found},4)&" kW. "&${`${way} in `}&${minutes(found)}&" min: is it in kW, its decimal point in place?"`,
  );
}

/** Held against unit rates with VAT added, whether or not they hold it already: rates typed without it don’t ask. */
function wear(): AskedFigure {
  const dearest = areaReference({
    sheet: SHEETS.tariffs,
    firstRow: DEAREST_RATES_ROW.row,
    lastRow: DEAREST_RATES_ROW.row,
    firstColumn: DEAREST_RATES_ROW.column,
    lastColumn: DEAREST_RATES_ROW.column + TARIFF_COUNT - 1,
  });
  const most = f`MAX(${dearest})*(1+SUM(${vatShare.cell}))`;
  const where = f`AND(${isThere},MAX(${dearest})>=${PLAUSIBLE.leastPence})`;
  return outside(
    wearPencePerKwh,
    { most, where },
    (found) =>
      f`ROUND(${found},4)&" "&${minorUnit.cell}&"/kWh. That is above every typed unit rate: is it for one kWh given?"`,
  );
}

/** Figures of the battery, where there is one. */
export const ASKED_BATTERY: readonly AskedFigure[] = [
  outside(usableKwh, { most: PLAUSIBLE.mostUsableKwh }, (found) =>
    figure(found, 'kWh. More than a home’s: is its decimal point in place?'),
  ),
  power(BATTERY_FIELDS.chargeKw, 'From empty to full'),
  power(BATTERY_FIELDS.dischargeKw, 'From full to empty'),
  ...[chargeEfficiency, dischargeEfficiency].map((field) =>
    efficiency(
      field,
      PLAUSIBLE.leastOneWayEfficiency,
      f`AND(${isThere},ISBLANK(${roundTripEfficiency.cell}))`,
    ),
  ),
  efficiency(roundTripEfficiency, PLAUSIBLE.leastRoundTripEfficiency, isThere),
  wear(),
];

const setting = (key: string): Field => {
  const field = SETTING_FIELDS[key];
  if (field === undefined) throw new RangeError(`no heating setting is called ${key}`);
  return field;
};
type RateKey = 'gasRate' | 'gasStanding' | 'singleRate';
/** A column of the rates that changed. */
function changed(key: RateKey, unit: 'kWh' | 'day', most: number): AskedFigure {
  const fields = HEATING_TABLES.rates.map((row) => row[key]);
  const [first, last] = [fields[0], fields.at(-1)];
  if (first === undefined || last === undefined) throw new RangeError('the table of rates has no rows');
  const { sheet, row, column } = first.cell.place;
  const cells = areaReference({
    sheet,
    firstRow: row,
    lastRow: last.cell.place.row,
    firstColumn: column,
    lastColumn: column,
  });
  return rates(`Rates that changed, ${first.spec.label}`, cells, unit, most);
}
function single(key: string, unit: 'kWh' | 'day', most: number): AskedFigure {
  const { spec, cell } = setting(key);
  return rates(spec.label, cell, unit, most);
}

const { mostGasRatePence, mostStandingPence, mostUnitRatePence } = PLAUSIBLE;
/** Rates of the heating comparison. */
export const ASKED_HEATING_RATES: readonly AskedFigure[] = [
  single('gasRatePence', 'kWh', mostGasRatePence),
  single('gasStandingPencePerDay', 'day', mostStandingPence),
  single('singleRatePence', 'kWh', mostUnitRatePence),
  single('heatPumpSideHotWaterPence', 'kWh', mostUnitRatePence),
  single('boilerSideHotWaterPence', 'kWh', mostUnitRatePence),
  changed('gasRate', 'kWh', mostGasRatePence),
  changed('gasStanding', 'day', mostStandingPence),
  changed('singleRate', 'kWh', mostUnitRatePence),
];

/** Of rows of gas: bottled gas has more than twice the calorific value, and is no slip. */
function calorificValues(): AskedFigure {
  const { leastCalorificValue, mostCalorificValue, leastBottledGas } = PLAUSIBLE;
  const { spec, column } = GAS_COLUMNS.calorificValue;
  const cells = all(column);
  const small = f`COUNTIFS(${cells},"<"&${leastCalorificValue})`;
  const large = f`COUNTIFS(${cells},">"&${mostCalorificValue},${cells},"<"&${leastBottledGas})`;
  return {
    label: `${SHEETS.gas}, ${spec.label}`,
    count: f`${small}+${large}`,
    found: f`IF(${small}>0,MIN(${cells}),SMALL(${cells},1+COUNTIFS(${cells},"<="&${mostCalorificValue})))`,
    asks: (found) => figure(found, CALORIFIC),
  };
}
const CALORIFIC = `MJ/m³. Mains gas has ${PLAUSIBLE.leastCalorificValue} to ${PLAUSIBLE.mostCalorificValue}: what does the bill say?`;

/** Other figures of the heating comparison. */
export const ASKED_HEATING: readonly AskedFigure[] = [
  outside(setting('boilerEfficiency'), { least: PLAUSIBLE.leastBoilerEfficiency }, (found) =>
    percent(found, 'Few boilers are below that: is a digit missing?'),
  ),
  outside(
    setting('calorificValueMjPerM3'),
    { least: PLAUSIBLE.leastCalorificValue, most: PLAUSIBLE.mostCalorificValue },
    (found) => figure(found, CALORIFIC),
  ),
  calorificValues(),
  outside(
    setting('volumeCorrection'),
    { least: PLAUSIBLE.leastVolumeCorrection, most: PLAUSIBLE.mostVolumeCorrection },
    (found) => f`ROUND(${found},5)&". Most bills in the UK have 1.02264: is a digit missing?"`,
  ),
  outside(
    setting('hotWaterCop'),
    { least: PLAUSIBLE.leastCop, most: PLAUSIBLE.mostCop },
    (found) =>
      f`ROUND(${found},4)&". A heat pump gives some 2 to 3 kWh of hot water for one: is its decimal point in place?"`,
  ),
  outside(setting('degreeDayBaseC'), { least: PLAUSIBLE.leastBaseC, most: PLAUSIBLE.mostBaseC }, (found) =>
    figure(found, '°C. 15.5 °C is usual in the UK, 18.3 °C in the US: are your degree days at this base?'),
  ),
  ...['electricityCarbonKgPerKwh', 'gasCarbonKgPerKwh'].map((key) =>
    outside(
      setting(key),
      { most: PLAUSIBLE.mostCarbonKg },
      (found) =>
        f`ROUND(${found},4)&" kg/kWh. In grams? "&ROUND(${found},4)&" g is written "&ROUND(${found}/1000,6)&"."`,
    ),
  ),
];
