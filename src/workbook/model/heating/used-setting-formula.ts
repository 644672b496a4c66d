import type { HeatingInput } from '../../../heating/comparison/heating-inputs.js';
import { across } from '../../book/terms.js';
import type { Book } from '../book.js';
import { quoted } from '../cells.js';
import { ref } from '../references.js';
import { figureName } from './heating-figures-rows.js';
import { gasName, settingCell } from './heating-rows.js';

/** What the comparison takes of a setting: a wrong one counts as its initial value, and Checks says so. */
export function usedSettingFormula(book: Book, input: HeatingInput): string {
  const cell = settingCell(input.key);
  switch (input.key) {
    case 'costBasis':
      return throughBattery(book, cell, choice(input, cell));
    case 'tariff':
      return tariffPlace(book, cell);
    case 'disagreeBeyondShare':
      return `MAX(${figureName('agreeWithinShare')},${inRange(input, cell, cell)})`;
    case 'enteredBaseGasKwhPerDay':
      return inRange(input, cell, `IF(${summerGasTooMuch(cell)},"",${cell})`);
    case 'yearDegreeDays':
      return `IF(COUNTIFS(${cell},">=0")=1,${cell},${figureName('temperatureYearDegreeDays')})`;
    case 'heatPumpSideHotWaterPence':
      return immersionRate(input, cell, 'heatPumpSideHotWater');
    case 'boilerSideHotWaterPence':
      return immersionRate(input, cell, 'boilerSideHotWater');
    default:
      return input.choices === undefined ? inRange(input, cell, cell) : choice(input, cell);
  }
}

const literal = (value: HeatingInput['initial']): string =>
  typeof value === 'number' ? String(value) : quoted(String(value ?? ''));

function inRange({ min, max, initial }: HeatingInput, cell: string, then: string): string {
  const limits = [
    ...(min === undefined ? [] : [`${cell}>=${min}`]),
    ...(max === undefined ? [] : [`${cell}<=${max}`]),
  ].join(',');
  const otherwise = literal(initial);
  const inside = limits === '' ? then : `IF(AND(${limits}),${then},${otherwise})`;
  return `IF(ISNUMBER(${cell}),${inside},${otherwise})`;
}

/** Half-hourly rates are paid through the battery where one is entered: that is the home that there is. */
function throughBattery({ workings }: Book, cell: string, chosen: string): string {
  return `IF(AND(${cell}="half-hourly",${ref(workings.battery.usableKwh)}>0),"battery",${chosen})`;
}

function choice({ choices = [], initial }: HeatingInput, cell: string): string {
  return choices.reduceRight(
    (otherwise, text) => `IF(${cell}=${quoted(text)},${quoted(text)},${otherwise})`,
    literal(initial),
  );
}

/** An immersion heater that is not there pays nothing, so that its rate may stay blank. */
function immersionRate(input: HeatingInput, cell: string, side: string): string {
  const isThere = `AND(${figureName('hotWaterSide')}="both",${figureName(side)}="immersion heater")`;
  return `IF(ISNUMBER(${cell}),${inRange(input, cell, cell)},IF(${isThere},"",0))`;
}

/** A row of names across the tariffs sheet. */
export function tariffNames({ inputs }: Book): string {
  return ref(
    across(
      inputs.tariffs.map(({ name }) => name),
      'tariff_names',
    ),
  );
}

function tariffPlace(book: Book, cell: string): string {
  const [names, todays] = [tariffNames(book), ref(book.inputs.todaysTariff)];
  const place = `MATCH(IF(ISBLANK(${cell}),${todays},${cell}),${names},0)`;
  const priced = ref(
    across(
      book.inputs.tariffs.map((tariff) => tariff.priced),
      'tariffs_are_priced',
    ),
  );
  // None where the tariff has no total: what it charges for the heat pump would lack something too.
  return `IFERROR(${place}*INDEX(${priced},1,${place}),0)`;
}

/** Whether a summer gas a day comes to more than all gas that was metered. */
export function summerGasTooMuch(cell: string): string {
  const over = (key: string): string => `SUMIF(${gasName('gasKwhPerDay')},">=0",${gasName(key)})`;
  return `AND(${over('gasDays')}>0,${over('gasKwh')}-${cell}*${over('gasDays')}<0)`;
}
