import { InputError } from '../errors.js';
import type { DescribedFunction } from '../functions/described-function.js';
import { requireNumber, requirePositive } from '../functions/require-number.js';
import { numberAt, textAt } from './cell-arguments.js';

/** What one unit of a gas meter's dial is: a cubic metre, a cubic foot, or (old imperial meters) 100 ft³. */
export type GasDialUnit = 'm3' | 'ft3' | '100ft3';

/** Correction of volume to standard temperature and pressure; Gas (Calculation of Thermal Energy) Regulations 1996. */
export const STANDARD_VOLUME_CORRECTION = 1.02264;

const CUBIC_METRES: Record<GasDialUnit, number> = { m3: 1, ft3: 0.0283168, '100ft3': 2.83168 };
const MEGAJOULES_PER_KWH = 3.6;

/**
 * Energy in a metered volume of gas: m³ × volume correction × calorific value ÷ 3.6.
 * Source: Gas (Calculation of Thermal Energy) Regulations 1996, SI 1996/439 (from memory); 1 ft³ = 0.0283168 m³.
 *
 * @param volume difference of two readings, in dial units, at least 0
 * @param dialUnit `m3`, `ft3` or `100ft3`
 * @param calorificValueMjPerM3 calorific value on the bill, MJ/m³, above 0 (about 39 in Great Britain)
 * @param volumeCorrection factor, 1.02264 unless the bill says otherwise
 * @returns energy, kWh
 * @throws InputError when the unit is unknown, the volume negative or another figure not above 0
 * @example gasVolumeToEnergy(100, 'm3', 39.5) // 1122.06…
 */
export function gasVolumeToEnergy(
  volume: number,
  dialUnit: GasDialUnit,
  calorificValueMjPerM3: number,
  volumeCorrection: number = STANDARD_VOLUME_CORRECTION,
): number {
  const cubicMetres = Object.hasOwn(CUBIC_METRES, dialUnit) ? CUBIC_METRES[dialUnit] : undefined;
  if (cubicMetres === undefined) {
    throw new InputError(
      `dialUnit is "${dialUnit}", which is not a gas dial unit`,
      'Give m3, ft3 or 100ft3.',
    );
  }
  requireNumber(volume, 'volume', 0);
  requirePositive(calorificValueMjPerM3, 'calorificValueMjPerM3');
  requirePositive(volumeCorrection, 'volumeCorrection');
  return (volume * cubicMetres * volumeCorrection * calorificValueMjPerM3) / MEGAJOULES_PER_KWH;
}

const args = [
  {
    name: 'volume',
    unit: 'dial units',
    kind: 'number',
    shape: 'cell',
    description: 'Difference of two readings.',
  },
  {
    name: 'dialUnit',
    unit: 'none',
    kind: 'text',
    shape: 'cell',
    description: 'm3 (metric), ft3, or 100ft3 (old imperial dials count hundreds of cubic feet).',
  },
  {
    name: 'calorificValueMjPerM3',
    unit: 'MJ/m³',
    kind: 'number',
    shape: 'cell',
    description: 'Calorific value on the bill.',
  },
  {
    name: 'volumeCorrection',
    unit: 'factor',
    kind: 'number',
    shape: 'cell',
    description: 'Correction to standard temperature and pressure, 1.02264 unless the bill says otherwise.',
  },
] as const;

export const gasVolumeToEnergyDescribed: DescribedFunction = {
  name: 'gasVolumeToEnergy',
  cellName: 'GAS_VOLUME_TO_ENERGY',
  category: 'heating',
  summary: 'Energy in a metered volume of gas, from a metric or an imperial dial.',
  arguments: args,
  result: { unit: 'kWh', shape: 'cell', description: 'Energy.' },
  source: 'Gas (Calculation of Thermal Energy) Regulations 1996, from memory',
  example: { arguments: [1000, 'm3', 36, 1.02264], result: 10226.4 },
  compute: (a) =>
    gasVolumeToEnergy(
      numberAt(a, args, 0),
      textAt(a, args, 1) as GasDialUnit,
      numberAt(a, args, 2),
      numberAt(a, args, 3),
    ),
  formula: ([volume, unit, calorific, correction]) =>
    `${volume}*IF(${unit}="m3",1,IF(${unit}="ft3",0.0283168,IF(${unit}="100ft3",2.83168,NA())))*${correction}*${calorific}/3.6`,
};
