import { cellReader } from '../functions/cell-reader.js';
import type { ArgumentDescription, DescribedFunction } from '../functions/described-function.js';
import { requireSameLength } from '../functions/require-number.js';
import type { Tariff } from '../tariffs/tariff.js';
import { tariffFromCells } from '../tariffs/tariff-from-cells.js';
import { EXAMPLE_TARIFF_TABLE, TARIFF_TABLE_ARGUMENT } from '../tariffs/unit-rate-at.js';
import { LOCAL_TIMES_ARGUMENT, unitRatesAt } from '../tariffs/unit-rates-at.js';
import { energyCost } from './energy-cost.js';

/**
 * What energy costs on a tariff.
 * Source: common practice, no source.
 *
 * @param tariff as for {@link unitRatesAt}
 * @param localStartSerials start of each interval, local time, spreadsheet serial
 * @param kwh energy of each interval, kWh
 * @returns £, not rounded, with or without VAT as the tariff's own rates are; standing charge is not in it
 * @throws InputError when the lengths differ, a value is missing, or as {@link unitRatesAt}
 * @example energyCostOnTariff(tariff, [46023, 46023.5], [0.4, 0.6]) // 0.275
 */
export function energyCostOnTariff(
  tariff: Tariff,
  localStartSerials: ArrayLike<number>,
  kwh: ArrayLike<number>,
): number {
  requireSameLength(localStartSerials, 'localTimes', kwh, 'kwh');
  return energyCost(kwh, unitRatesAt(tariff, localStartSerials));
}

const KWH: ArgumentDescription = {
  name: 'kwh',
  unit: 'kWh',
  kind: 'number',
  shape: 'column',
  description: 'Energy of each interval, as many rows.',
};

const COST_ARGUMENTS: readonly ArgumentDescription[] = [LOCAL_TIMES_ARGUMENT, KWH, TARIFF_TABLE_ARGUMENT];

export const energyCostOnTariffFunction: DescribedFunction = {
  name: 'energyCostOnTariff',
  cellName: 'TARIFF_ENERGY_COST',
  category: 'charges',
  summary: 'Adds up what energy costs on a tariff, without its standing charge.',
  arguments: COST_ARGUMENTS,
  result: { unit: '£', shape: 'cell', description: 'Not rounded; with or without VAT as the table is.' },
  source: 'common practice, no source',
  example: { arguments: [[[46023.0208333], [46023.5]], [[1], [2]], EXAMPLE_TARIFF_TABLE], result: 0.685 },
  compute: (args) => {
    const read = cellReader(args, COST_ARGUMENTS);
    const tariff = tariffFromCells(read);
    return energyCostOnTariff(tariff, read.numbers('localTimes'), read.numbers('kwh'));
  },
};
