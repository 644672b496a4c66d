import { joined } from '../../book/terms.js';
import { cellAt } from '../../cell-address.js';
import {
  BATTERY_FIELDS,
  BATTERY_FLAG_COLUMN,
  BATTERY_RULES,
  type BatteryKey,
} from '../../fields/battery-fields.js';
import type { CellsOf } from '../../fields/field.js';
import { formula, label } from '../cells.js';
import { fieldInput } from '../field-input.js';
import type { Cell, ConditionalStyle } from '../sheet-model.js';

const KEYS = Object.keys(BATTERY_FIELDS) as BatteryKey[];
const rowOf = (key: BatteryKey): number => BATTERY_FIELDS[key].cell.place.row;
const flagAt = (row: number): string => cellAt(BATTERY_FLAG_COLUMN, row);

/** The battery's inputs, with what each accepts, and beside each how often it can't be used. */
export function batteryInputCells(start: CellsOf<typeof BATTERY_FIELDS>): Cell[] {
  return [
    label('B5', 'Your battery', 'section'),
    label('C5', '', 'section'),
    label('D5', '', 'section'),
    label(flagAt(5), 'Flags: 1 where the input in the row can’t be used', 'hint'),
    ...KEYS.flatMap((key) => {
      const field = BATTERY_FIELDS[key];
      const row = rowOf(key);
      return [
        label(`B${row}`, field.spec.label, 'label'),
        fieldInput(field, start[key]),
        label(`D${row}`, field.spec.unit, 'unitBeside'),
        formula(
          flagAt(row),
          joined(
            '+',
            BATTERY_RULES[key].map(({ is }) => is),
          ),
          'integer',
        ),
      ];
    }),
  ];
}

/** Marks the inputs that can't be used, and hides the flags of those that can. */
export function batteryInputLooks(): ConditionalStyle[] {
  const rows = KEYS.map(rowOf);
  const [first, last] = [Math.min(...rows), Math.max(...rows)];
  const flag = `$${flagAt(first)}`;
  const { at } = BATTERY_FIELDS.usableKwh;
  return [
    { range: `${at}:${BATTERY_FIELDS.tariff.at}`, formula: `${flag}>0`, style: 'bad' },
    { range: `${flagAt(first)}:${flagAt(last)}`, formula: `${flag}=0`, style: 'quiet' },
  ];
}
