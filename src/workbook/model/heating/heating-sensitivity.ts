import {
  SENSITIVITY_KEYS,
  SENSITIVITY_LINES,
  SENSITIVITY_ROWS,
} from '../../../heating/comparison/sensitivity-lines.js';
import type { StyleName } from '../../look/styles.js';
import { formula, label } from '../cells.js';
import type { Cell } from '../sheet-model.js';
import { type HeatingRows, SENSITIVITY_TABLE } from './heating-rows.js';
import { lineReferences } from './line-references.js';

const LETTERS: Readonly<Record<string, string>> = {
  sensitivityKind: 'A',
  sensitivityValue: 'B',
  sensitivityFromMeterPounds: 'C',
  sensitivityFromHeatPounds: 'D',
};
const LOOKS: Readonly<Record<string, StyleName>> = {
  'boiler efficiency': 'percent',
  'gas rate': 'percent',
  COP: 'rate',
};

/** How the answer moves with what it rests on. */
export function sensitivityCells({ sensitivity: heading }: HeatingRows): Cell[] {
  const first = heading + 2;
  return [
    label(`A${heading}`, 'What if: heat pump less boiler, all months', 'headerLeft'),
    label(`B${heading}`, 'set to', 'header'),
    label(`C${heading}`, '(a), {major}', 'header'),
    label(`D${heading}`, '(b), {major}', 'header'),
    label(
      `A${heading + 1}`,
      `One figure changed, all else as it is. Gas rate: in percent of each month’s own. Change the figures at the right, in column ${SENSITIVITY_TABLE.value}.`,
      'hintWrap',
      { mergeTo: `D${heading + 1}` },
    ),
    ...SENSITIVITY_ROWS.flatMap(({ sensitivityKind, sensitivityValue }, i) => {
      const row = first + i;
      const cell = `$${SENSITIVITY_TABLE.value}$${SENSITIVITY_TABLE.first + i}`;
      const references = lineReferences((key) => LETTERS[key], row);
      return [
        label(`A${row}`, sensitivityKind, 'label'),
        formula(
          `B${row}`,
          `IF(ISNUMBER(${cell}),IF(${cell}>0,${cell},${sensitivityValue}),${sensitivityValue})`,
          LOOKS[sensitivityKind]!,
        ),
        ...SENSITIVITY_KEYS.map((key) => {
          const line = SENSITIVITY_LINES[sensitivityKind].find((own) => own.key === key);
          const at = `${LETTERS[key]}${row}`;
          return line === undefined
            ? label(at, null, 'moneySigned')
            : formula(at, line.formula(references), 'moneySigned');
        }),
      ];
    }),
  ];
}
