import type { CellValue } from '../../../src/workbook/fields/cell-value.js';
import type { Field } from '../../../src/workbook/fields/field.js';

/** Something typed into a field that it may not hold, or may. */
export interface Slip {
  kind: string;
  value: CellValue;
  /** Whether it can't be used, whatever stands in the other fields. */
  isWrong: boolean;
}

const NO_WORD = 'no such word';

/** Every kind of slip that a field can suffer, and what it may just hold. */
export function slipsOf({ spec: { limits, mayBeBlank } }: Field): Slip[] {
  const wrong = (kind: string, value: CellValue): Slip => ({ kind, value, isWrong: true });
  const right = (kind: string, value: CellValue): Slip => ({ kind, value, isWrong: false });
  const blank = [mayBeBlank ? right('blank', null) : wrong('blank', null)];
  switch (limits.kind) {
    case 'number': {
      const { from, above, to, below } = limits;
      return [
        ...blank,
        wrong('text', NO_WORD),
        wrong('a number typed as text', '5'),
        ...(from === undefined ? [] : [wrong('below', from - 0.01), right('the least', from)]),
        ...(above === undefined ? [] : [wrong('not above', above), right('just above', above + 0.01)]),
        ...(to === undefined ? [] : [wrong('above', to + 0.01), right('the most', to)]),
        ...(below === undefined ? [] : [wrong('not below', below), right('just below', below - 0.01)]),
      ];
    }
    case 'date':
      return [
        ...blank,
        wrong('text', '1 March 2026'),
        wrong('too early', limits.from - 1),
        wrong('too late', limits.to + 1),
        ...(limits.whole ? [wrong('with a time of day', 46_000.5)] : []),
      ];
    case 'time':
      return [
        ...blank,
        wrong('text', '00:30'),
        wrong('below', -1 / 48),
        wrong('above', 49 / 48),
        wrong('off the half-hour', 20 / 1440),
        ...(limits.mayBeMidnightAfter ? [] : [wrong('midnight as a start', 1)]),
      ];
    case 'choice':
      return [
        ...blank,
        wrong('not in the list', NO_WORD),
        wrong('a number', 1),
        right('in capitals', limits.choices.at(-1)?.toUpperCase() ?? null),
      ];
    case 'listed':
      return [...blank, wrong('not in the list', NO_WORD), wrong('a number', 1)];
    case 'text':
      return [...blank, wrong('a number', 5)];
    case 'any':
      return blank;
  }
}
