import { BATTERY_FIELDS } from '../../fields/battery-fields.js';
import { SHEETS } from '../../layout.js';
import type { Book } from '../book.js';
import { ref } from '../references.js';
import type { WordLine } from '../sentences.js';

/** Defined name of the sentence. */
export const LEFT_OUT_NAME = 'battery_left_out_words';
const PLACE_NAME = 'battery_fault_place';
const COUNT_NAME = 'battery_fault_figures';

/** That the battery is left out, and which of its figures is missing or can't be used; blank where none is, or there is no battery. */
export function leftOutLines({ inputs, workings }: Book): WordLine[] {
  const { usableKwh, wearPencePerKwh } = BATTERY_FIELDS;
  const [first, last] = [usableKwh, wearPencePerKwh].map(({ cell }) => cell.place.row);
  const flags = ref(inputs.batteryFlags);
  const ofFigure = (letters: string): string =>
    `INDEX(${SHEETS.battery}!$${letters}$${first}:$${letters}$${last},MAX(1,${PLACE_NAME}))`;
  return [
    {
      name: PLACE_NAME,
      label: 'Figure of the battery that can’t be used',
      unit: 'no. from 1; 0: none',
      formula: `IF(OR(${ref(workings.battery.faults)}=0,${usableKwh.cell.name}=0),0,MATCH(MAX(${flags}),${flags},0))`,
      style: 'integer',
    },
    {
      name: COUNT_NAME,
      label: 'How many can’t be used',
      unit: 'count',
      formula: `COUNTIFS(${flags},">0")`,
      style: 'integer',
    },
    {
      name: LEFT_OUT_NAME,
      label: 'That the battery is left out',
      unit: 'text',
      formula: `IF(${PLACE_NAME}=0,"","The battery is left out: “"&${ofFigure('B')}&IF(${ofFigure('C')}="","” is missing","” can’t be used")&IF(${COUNT_NAME}=1,"."," (one of "&${COUNT_NAME}&" figures)."))`,
      style: 'text',
    },
  ];
}
