import { InputError, type Place } from '../errors.js';

/** What a unit measures. */
export type Quantity = 'energy' | 'power' | 'temperature' | 'price' | 'volume';

/** A unit as the reader knows it. */
export interface Unit {
  /** As reports show it. */
  name: string;
  quantity: Quantity;
  /** Canonical value (kWh, kW, °C, p/kWh, m³) = factor × value + offset. */
  factor: number;
  offset: number;
}

const unit = (name: string, quantity: Quantity, factor: number, offset = 0): Unit => ({
  name,
  quantity,
  factor,
  offset,
});

// One cubic foot is 0.0283168 m³ (Gas (Calculation of Thermal Energy) Regulations 1996; from memory).
const CUBIC_FOOT_M3 = 0.0283168;

/** The units that a file can be in. */
const UNITS: readonly Unit[] = [
  unit('kWh', 'energy', 1),
  unit('Wh', 'energy', 1e-3),
  unit('MWh', 'energy', 1e3),
  unit('kW', 'power', 1),
  unit('W', 'power', 1e-3),
  unit('degC', 'temperature', 1),
  unit('degF', 'temperature', 5 / 9, -160 / 9),
  unit('p/kWh', 'price', 1),
  unit('GBP/kWh', 'price', 100),
  unit('GBP/MWh', 'price', 0.1),
  unit('m3', 'volume', 1),
  unit('ft3', 'volume', CUBIC_FOOT_M3),
  unit('100ft3', 'volume', 100 * CUBIC_FOOT_M3),
];

/**
 * A unit by its name.
 *
 * @param name as in {@link UNITS}, capitals ignored where that is clear (`KWH`)
 * @returns the unit, undefined when there is none of that name
 * @example unitNamed('Wh')?.factor // 0.001
 */
export function unitNamed(name: string): Unit | undefined {
  const bare = name.trim();
  return UNITS.find((u) => u.name === bare) ?? UNITS.find((u) => u.name.toLowerCase() === bare.toLowerCase());
}

/**
 * The message for a word that is no unit.
 *
 * @param word what stands there
 * @param place where
 * @param orElse what else can be done, the end of a sentence
 * @returns the error to throw
 * @example noUnit('therms').found // '"therms" is not a unit'
 */
export function noUnit(word: string, place: Place = {}, orElse?: string): InputError {
  const names = UNITS.map((u) => u.name);
  const give = `Give ${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
  return new InputError(
    `"${word}" is not a unit`,
    orElse === undefined ? `${give}.` : `${give}, ${orElse}`,
    place,
  );
}

const named = (name: string): Unit => unitNamed(name)!;
const MONEY = '(?:£|gbp|€|eur|\\$|usd|aud)';

/**
 * The unit written in a header or a cell: `Import (kWh)`, `import_wh`, `Temp °C`, `p/kWh`.
 *
 * @param text header of a column
 * @returns the unit, undefined when none is written
 * @example unitIn('Import [Wh]')?.name // 'Wh'
 */
export function unitIn(text: string): Unit | undefined {
  const lower = text.toLowerCase();
  if (/((^|[^a-z])[pc]|pence|cents?|ct|öre|øre)[\s_]*(\/|per|_| )[\s_]*kwh/.test(lower))
    return named('p/kWh');
  if (new RegExp(`${MONEY}\\s*(/|per)\\s*kwh`).test(lower)) return named('GBP/kWh');
  if (new RegExp(`${MONEY}\\s*(/|per)\\s*mwh`).test(lower)) return named('GBP/MWh');
  if (/\bpence\b|pence$/i.test(text)) return named('p/kWh');
  if (/100\s*(cubic feet|ft3|ft³|cf)|\bhcf\b|hundred cubic f/.test(lower)) return named('100ft3');
  if (/ft3|ft³|cubic f(ee|oo)t|\bcf\b/.test(lower)) return named('ft3');
  if (/m3|m³|m\^3|cubic met/.test(lower)) return named('m3');
  if (/mwh/.test(lower)) return named('MWh');
  if (/kwh|kw\.h|kilowatt[ -]?hours?/.test(lower)) return named('kWh');
  if (endsIn(text, 'wh') || /\bwatt[ -]?hours?/.test(lower)) return named('Wh');
  if (endsIn(text, 'kw') || /\bkilowatts?\b/.test(lower)) return named('kW');
  if (endsIn(text, 'w') || /\bwatts?\b/.test(lower)) return named('W');
  if (/°\s*f|deg(rees)?[ _.]*f\b|fahrenheit|(^|[^a-z])f([^a-z]|$)/.test(lower)) return named('degF');
  if (/°\s*c|deg(rees)?[ _.]*c\b|celsius|(^|[^a-z])c([^a-z]|$)|[a-z]C$/.test(lower) || /[a-z]C$/.test(text)) {
    return named('degC');
  }
  if (/[a-z]F$/.test(text)) return named('degF');
  return undefined;
}

/** Whether a unit stands as a word of its own, or as the capitalised tail of a joined name (`importWh`). */
function endsIn(text: string, symbol: string): boolean {
  if (new RegExp(`(^|[^a-z0-9])${symbol}([^a-z0-9]|$)`, 'i').test(text)) return true;
  const tail = symbol === 'kw' ? 'KW' : symbol === 'wh' ? 'Wh' : 'W';
  return new RegExp(`[a-z0-9]${tail}$`).test(text) || (symbol === 'kw' && /[a-z0-9]kW$|[a-z]Kw$/.test(text));
}
