import { InputError } from '../errors.js';
import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireNumber } from '../functions/require-number.js';
import type { Tariff } from '../tariffs/tariff.js';
import { tariffFromCells } from '../tariffs/tariff-from-cells.js';
import { EXAMPLE_TARIFF_TABLE, TARIFF_TABLE_ARGUMENT } from '../tariffs/unit-rate-at.js';

/**
 * Standing charge over a period: every calendar day counts, whatever was metered.
 * Source: common practice, no source.
 *
 * @param firstDay spreadsheet serial day
 * @param lastDay spreadsheet serial day, itself charged
 * @param standingChargePencePerDay p/day
 * @returns £, not rounded, with or without VAT as the charge is
 * @throws InputError when the last day is before the first
 * @example standingCharge(46023, 46053, 50) // 15.5: January 2026
 */
export function standingCharge(firstDay: number, lastDay: number, standingChargePencePerDay: number): number {
  return (
    (daysIn(firstDay, lastDay) * requireNumber(standingChargePencePerDay, 'standingChargePencePerDay')) / 100
  );
}

/**
 * Standing charge of a tariff over a period in which it may change.
 * Source: common practice, no source.
 *
 * @param tariff a valid tariff
 * @param firstDay spreadsheet serial day
 * @param lastDay spreadsheet serial day, itself charged
 * @returns £, not rounded, with or without VAT as the tariff's own rates are
 * @throws InputError when the last day is before the first
 * @example standingChargeOnTariff(tariff, 46023, 46053) // 15.5
 */
export function standingChargeOnTariff(
  tariff: Pick<Tariff, 'ratePeriods'>,
  firstDay: number,
  lastDay: number,
): number {
  daysIn(firstDay, lastDay);
  let pence = 0;
  tariff.ratePeriods.forEach((period, index) => {
    const since = index === 0 ? Number.NEGATIVE_INFINITY : period.validFromSerial;
    const until = tariff.ratePeriods[index + 1]?.validFromSerial ?? Number.POSITIVE_INFINITY;
    const days = Math.min(Math.floor(lastDay) + 1, until) - Math.max(Math.floor(firstDay), since);
    pence += Math.max(0, days) * period.standingChargePencePerDay;
  });
  return pence / 100;
}

function daysIn(firstDay: number, lastDay: number): number {
  const days =
    Math.floor(requireNumber(lastDay, 'lastDay', 0)) - Math.floor(requireNumber(firstDay, 'firstDay', 0)) + 1;
  if (days < 1) throw new InputError('lastDay is before firstDay', 'Swap them.');
  return days;
}

const PERIOD: readonly ArgumentDescription[] = [
  { name: 'firstDay', unit: 'date', kind: 'date', shape: 'cell', description: 'First day charged.' },
  { name: 'lastDay', unit: 'date', kind: 'date', shape: 'cell', description: 'Last day charged.' },
];

const ARGUMENTS: readonly ArgumentDescription[] = [
  ...PERIOD,
  {
    name: 'standingChargePencePerDay',
    unit: 'p/day',
    kind: 'number',
    shape: 'cell',
    description: 'Standing charge.',
  },
];

export const standingChargeFunction: DescribedFunction = {
  name: 'standingCharge',
  cellName: 'STANDING_CHARGE',
  category: 'charges',
  summary: 'Adds up the standing charge of a period, both its days included.',
  arguments: ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Not rounded; with or without VAT as the charge is.' },
  source: 'common practice, no source',
  example: { arguments: [46023, 46053, 50], result: 15.5 },
  compute: (args) => {
    const read = cellReader(args, ARGUMENTS);
    return standingCharge(
      read.number('firstDay'),
      read.number('lastDay'),
      read.number('standingChargePencePerDay'),
    );
  },
  formula: ([firstDay, lastDay, charge]) =>
    `IF(INT(${lastDay})>=INT(${firstDay}),(INT(${lastDay})-INT(${firstDay})+1)*${charge}/100,NA())`,
};

const ON_TARIFF_ARGUMENTS: readonly ArgumentDescription[] = [...PERIOD, TARIFF_TABLE_ARGUMENT];

export const standingChargeOnTariffFunction: DescribedFunction = {
  name: 'standingChargeOnTariff',
  cellName: 'TARIFF_STANDING_CHARGE',
  category: 'charges',
  summary: 'Adds up the standing charge of a period in which the tariff may change it.',
  arguments: ON_TARIFF_ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Not rounded; with or without VAT as the table is.' },
  source: 'common practice, no source',
  example: { arguments: [46023, 46053, EXAMPLE_TARIFF_TABLE], result: 15.5 },
  compute: (args) => {
    const read = cellReader(args, ON_TARIFF_ARGUMENTS);
    const tariff = tariffFromCells(read);
    return standingChargeOnTariff(tariff, read.number('firstDay'), read.number('lastDay'));
  },
};
