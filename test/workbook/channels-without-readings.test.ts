import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import type { Channel } from '../../src/readings/index.js';
import { halfHoursWithoutReadings } from '../../src/readings/without-readings.js';
import type { WorkbookInputs } from '../../src/workbook/inputs/workbook-inputs.js';
import { SHEETS } from '../../src/workbook/layout.js';
import { WORDS } from '../../src/workbook/model/answer-sheet.js';
import { VERDICT_NAME } from '../../src/workbook/model/checks-sheet.js';
import type { WorkbookValues } from '../../src/workbook/workbook-values.js';
import { checkCounts } from './shown-by-sheet.js';
import { inputsOf, smallMonth, workedOut } from './small-month.js';

const ROWS = 31 * 48 + 2;
const LABEL = { exportKwh: 'Export', heatPumpKwh: 'Heat pump', carKwh: 'Car' } as const;
type Gapped = keyof typeof LABEL;
type ReadingsInputs = WorkbookInputs['readings'];
const ALL = Object.keys(LABEL) as Gapped[];

let month: ReturnType<typeof inputsOf>;
beforeAll(async () => {
  month = inputsOf(await smallMonth());
});

type Stretch = readonly [from: number, to: number];

/** Readings with channels blank in stretches of rows. */
function blank(
  readings: ReadingsInputs,
  channels: readonly Channel[],
  stretches: readonly Stretch[],
): ReadingsInputs {
  const values = { ...readings.values };
  for (const channel of channels) {
    values[channel] = values[channel].slice();
    for (const [from, to] of stretches) values[channel].fill(Number.NaN, from, to);
  }
  return { ...readings, values };
}

/** The month with its readings changed. */
const withReadings = (change: (readings: ReadingsInputs) => ReadingsInputs): WorkbookValues =>
  workedOut(month, (inputs) => ({ ...inputs, readings: change(inputs.readings) }));

/** What the check of each channel found. */
function found(values: WorkbookValues): Record<Gapped, unknown> {
  const counts = checkCounts(values);
  const ofChannel = (channel: Gapped) =>
    counts[`${LABEL[channel]}: half-hours with import that lack its reading, from the day after its first`];
  return Object.fromEntries(ALL.map((channel) => [channel, ofChannel(channel)])) as Record<Gapped, unknown>;
}

const ofEach = (count: number): Record<Gapped, number> => ({
  exportKwh: count,
  heatPumpKwh: count,
  carKwh: count,
});

it.each([
  ['none, where the channel is there', [], [], 0],
  ['a week in the middle', ALL, [[480, 816]], 336],
  [
    'single ones',
    ALL,
    [
      [480, 481],
      [700, 701],
    ],
    2,
  ],
  ['the last day, of which no file came yet', ALL, [[ROWS - 48, ROWS]], 48],
  ['none before its first reading: there may have been nothing to meter', ALL, [[0, 480]], 0],
  [
    'none on the day of its first reading, those of the next',
    ALL,
    [
      [0, 500],
      [510, 530],
    ],
    2,
  ],
  ['all but the first day, where that alone has any', ALL, [[48, ROWS]], ROWS - 48],
  ['none where its first reading is the last of all', ALL, [[0, ROWS - 1]], 0],
  ['none where nothing was bought', [...ALL, 'importKwh'], [[480, 816]], 0],
  ['none where it has no reading at all', ALL, [[0, ROWS]], 0],
] satisfies [string, readonly Channel[], readonly Stretch[], number][])(
  'half-hours that have import and lack the reading of a channel are counted: %s',
  (_, channels, stretches, count) => {
    expect(found(withReadings((readings) => blank(readings, channels, stretches)))).toEqual(ofEach(count));
  },
);

it.each(ALL)('those that lack %s are told of no other channel, and are no fault', (channel) => {
  const values = withReadings((readings) => blank(readings, [channel], [[480, 490]]));
  expect(found(values)).toEqual({ ...ofEach(0), [channel]: 10 });
  expect(String(values.calculated.named(VERDICT_NAME))).toMatch(/^No problem found/);
});

const onAnswer = (values: WorkbookValues): string =>
  String(values.calculated.at(SHEETS.answer, WORDS.periodHolds));

it.each<[string, readonly Channel[], readonly Stretch[], string]>([
  ['of all', ALL, [[480, 816]], ' export: 336; heat pump: 336; car: 336;'],
  ['of one', ['carKwh'], [[480, 816]], ' car: 336;'],
  ['of a single half-hour', ['exportKwh'], [[480, 481]], ' export: 1;'],
  ['of many', ['heatPumpKwh'], [[48, ROWS]], ' heat pump: 1,442;'],
])(
  'those that lack a channel are told on Answer beside the import’s share: %s',
  (_, channels, gaps, told) => {
    expect(onAnswer(withReadings((readings) => blank(readings, channels, gaps)))).toMatch(
      new RegExp(
        `; import metered in 100\\.0 % of half-hours\\..* Of all readings, half-hours without${told} see Checks\\.$`,
      ),
    );
  },
);

it('no channel is told on Answer where none lacks a reading', () => {
  const whole = onAnswer(withReadings((readings) => readings));
  expect(whole).toContain('; import metered in 100.0 % of half-hours.');
  expect(whole).not.toContain('half-hours without');
});

it('none are on the day of the first where a midnight is a hair less than a whole number', () => {
  const values = withReadings((readings) => ({
    ...blank(readings, ALL, [
      [0, 480],
      [500, 530],
    ]),
    startSerial: readings.startSerial.map((serial) => serial - 1e-9),
  }));
  expect(found(values)).toEqual(ofEach(2));
});

it('they are those of the library, in whatever order the rows stand, however many days they span', () => {
  const row = fc.integer({ min: 0, max: ROWS - 1 });
  const stretch = fc.tuple(row, fc.integer({ min: 1, max: 300 }));
  const gaps = fc.record({ first: row, gaps: fc.array(stretch, { maxLength: 3 }) });
  const isUpsideDown = fc.boolean();
  /** Half-hours from a row to the next: a row every 33 makes three years. */
  const every = fc.constantFrom(1, 7, 33);
  fc.assert(
    fc.property(fc.tuple(gaps, gaps, gaps), isUpsideDown, every, (ofChannels, upsideDown, halfHours) => {
      const values = withReadings((readings) => {
        const gapped = ofChannels.reduce(
          (changed, { first, gaps: stretches }, i) =>
            blank(changed, ALL.slice(i, i + 1), [
              [0, first],
              ...stretches.map(([from, length]): Stretch => [from, from + length]),
            ]),
          readings,
        );
        const [start = Number.NaN] = readings.startSerial;
        const placed = (i: number): number => (upsideDown ? ROWS - 1 - i : i);
        return {
          ...gapped,
          startSerial: readings.startSerial.map((serial, i) =>
            Number.isNaN(serial) ? serial : start + (placed(i) * halfHours) / 48,
          ),
        };
      });
      const { startSerial, values: read } = values.inputs.readings;
      const expected = ALL.map((channel) => {
        const { since } = halfHoursWithoutReadings(startSerial, read.importKwh, [read[channel]], 'day after');
        return [channel, since?.halfHours ?? 0];
      });
      expect(found(values)).toEqual(Object.fromEntries(expected));
    }),
    { numRuns: 12, seed: 2026 },
  );
});
