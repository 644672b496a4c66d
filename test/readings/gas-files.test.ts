import { describe, expect, test } from 'vitest';
import { formatImportReport, type ImportOptions, importGasFiles } from '../../src/readings/index.js';
import { isoDateToSerial, serialToIsoDate } from '../../src/time/serial.js';
import { gasStretches } from '../../src/workbook/fill/gas-rows.js';
import { importText, messageOf } from './import-text.js';

const importGas = (lines: string[], options: Partial<ImportOptions> = {}, name = 'gas.csv') =>
  importGasFiles([{ name, bytes: Buffer.from(`${lines.join('\n')}\n`) }], {
    timeZone: 'Europe/London',
    ...options,
  });

/** Periods as `from..to value unit`. */
const texts = (lines: string[], options: Partial<ImportOptions> = {}): string[] =>
  importGas(lines, options).periods.map(
    ({ fromSerial, toSerial, value, unit }) =>
      `${serialToIsoDate(fromSerial)}..${serialToIsoDate(toSerial)} ${Number(value.toFixed(6))} ${unit}`,
  );

const QUARTER = [
  '2026-01-01..2026-02-01 120.5 m3',
  '2026-02-01..2026-03-01 98.25 m3',
  '2026-03-01..2026-04-01 77 m3',
];

describe('gas by months comes in many shapes and means the same', () => {
  test.each<[string, string[]]>([
    ['stamped on the first', ['Month,Gas (m3)', '01/01/2026,120.5', '01/02/2026,98.25', '01/03/2026,77']],
    [
      'stamped on the last day',
      ['Month end,Gas m³', '31/01/2026,120.5', '28/02/2026,98.25', '31/03/2026,77'],
    ],
    ['months without a day', ['Month,Gas m3', '2026-01,120.5', '2026-02,98.25', '2026-03,77']],
    ['months by name', ['Month,Gas m3', 'Jan 2026,120.5', 'Feb 2026,98.25', 'March 2026,77']],
    [
      'from and to, the end not part of it',
      [
        'From,To,Gas m3',
        '2026-01-01,2026-02-01,120.5',
        '2026-02-01,2026-03-01,98.25',
        '2026-03-01,2026-04-01,77',
      ],
    ],
    [
      'from and to, the end part of it',
      [
        'From,To,Gas m3',
        '2026-01-01,2026-01-31,120.5',
        '2026-02-01,2026-02-28,98.25',
        '2026-03-01,2026-03-31,77',
      ],
    ],
    [
      'a register',
      [
        'Date,Gas meter reading m3',
        '2026-01-01,5000',
        '2026-02-01,5120.5',
        '2026-03-01,5218.75',
        '2026-04-01,5295.75',
      ],
    ],
    [
      'a register, newest first',
      [
        'Date;Reading (m3)',
        '2026-04-01;5295,75',
        '2026-03-01;5218,75',
        '2026-02-01;5120,5',
        '2026-01-01;5000',
      ],
    ],
  ])('%s', (_, lines) => {
    expect(texts(lines, { dateOrder: 'dmy' })).toEqual(QUARTER);
  });

  test.each<[string, string[]]>([
    [
      'remarks beyond the header',
      ['Month,Gas (m3)', '2026-01,120.5', '2026-02,98.25,read by neighbour', '2026-03,77'],
    ],
    ['marks beyond the header', ['Month,Gas (m3)', '2026-01,120.5,ok', '2026-02,98.25,ok', '2026-03,77,ok']],
  ])('%s are left alone', (_, lines) => {
    expect(texts(lines)).toEqual(QUARTER);
  });

  test('whole kWh in the hundreds beside a column without a name', () => {
    const lines = ['800,50', '700,05', '650,99', '500,12'].map(
      (cells, i) => `2026-0${i + 1}-01,2026-0${i + 2}-01,${cells}`,
    );
    expect(texts(['from,to,gas kWh,', ...lines]).at(-1)).toBe('2026-04-01..2026-05-01 500 kWh');
  });

  test('a register read at any date', () => {
    expect(texts(['Date,Register (kWh)', '2026-01-03,100', '2026-01-20,350', '2026-03-01,1000'])).toEqual([
      '2026-01-03..2026-01-20 250 kWh',
      '2026-01-20..2026-03-01 650 kWh',
    ]);
  });
});

describe('units', () => {
  test('cubic feet become cubic metres (1 ft³ = 0.0283168 m³, regulations of 1996, from memory)', () => {
    expect(texts(['Month,Gas (ft3)', '2026-01,1000', '2026-02,2000'])[0]).toBe(
      '2026-01-01..2026-02-01 28.3168 m3',
    );
    // An imperial dial counts hundreds of cubic feet.
    expect(texts(['Month,Gas (100 cubic feet)', '2026-01,10', '2026-02,20'])[0]).toBe(
      '2026-01-01..2026-02-01 28.3168 m3',
    );
  });
  test('energy stays energy', () => {
    expect(texts(['Day,Gas kWh', '2026-01-01,31', '2026-01-02,30'])).toEqual([
      '2026-01-01..2026-01-02 31 kWh',
      '2026-01-02..2026-01-03 30 kWh',
    ]);
  });
  test('a unit that nothing states is asked for, a cubic metre being about eleven kWh', () => {
    expect(messageOf(() => importGas(['Month,Gas', '2026-01,30', '2026-02,29']))).toBe(
      'InputError: gas.csv, line 1: no unit of "Gas" is stated. Say whether the gas is in --unit m3, ft3, 100ft3 or kWh: it stands on the meter and on the bill.',
    );
    expect(texts(['Month,Gas', '2026-01,30', '2026-02,29'], { unit: 'm3' })[0]).toBe(
      '2026-01-01..2026-02-01 30 m3',
    );
  });
});

describe('a register is never taken for gas used', () => {
  const READS = [1000, 1072, 1132, 1180, 1210, 1225, 1233, 1239, 1246, 1262, 1300, 1365, 1487];
  const register = (header: string, reads: readonly number[] = READS): string[] => [
    `Date,${header}`,
    ...reads.map((read, i) => `${new Date(Date.UTC(2025, i, 1)).toISOString().slice(0, 10)},${read}`),
  ];
  const asked = (name: string): string =>
    `InputError: gas.csv, line 1: "${name}" only ever rises, like a cumulative register. Say what it is: --register yes or --register no.`;

  test.each(['Gas meter m3', 'Gas (m3)', 'm3'])('%s, rising each month, is asked about', (header) => {
    expect(messageOf(() => importGas(register(header)))).toBe(asked(header));
    const used = importGas(register(header), { register: true }).periods;
    expect(used.reduce((sum, { value }) => sum + value, 0)).toBeCloseTo(487, 9);
  });
  test.each([2, 3, 5])('%i reads are enough to ask', (n) => {
    expect(messageOf(() => importGas(register('Gas (m3)', READS.slice(0, n))))).toBe(asked('Gas (m3)'));
  });
  test('newest first, or with one meter exchanged for another', () => {
    const [header, ...lines] = register('Gas (m3)');
    expect(messageOf(() => importGas([header!, ...lines.reverse()]))).toBe(asked('Gas (m3)'));
    const exchanged = [...READS.slice(0, 8), 3, 10, 22, 61, 140];
    expect(messageOf(() => importGas(register('Gas (m3)', exchanged)))).toBe(asked('Gas (m3)'));
  });
  test('two reads under a word that may mean either', () => {
    expect(messageOf(() => importGas(register('Gas reading m3', [5000, 5120])))).toBe(
      asked('Gas reading m3'),
    );
  });
  test('one read, more than any home burns in a month', () => {
    expect(messageOf(() => importGas(['Month,Gas (m3)', '2026-01,5120']))).toBe(
      'InputError: gas.csv, line 1: "Gas (m3)" holds more gas than a home can burn, as a cumulative register does. Say what it is: --register yes or --register no.',
    );
  });
  test('the answer "no" holds', () => {
    expect(importGas(register('Gas (m3)'), { register: false }).periods.length).toBe(13);
  });
  test('a year of use is not asked about', () => {
    const used = [120, 98, 80, 45, 20, 8, 7, 7, 15, 50, 90, 125];
    expect(importGas(register('Gas (m3)', used)).periods.length).toBe(12);
  });
});

describe('finer and coarser', () => {
  test('half-hours are periods of 30 minutes of the local clock', () => {
    const { periods } = importGas(['start,gas kWh', '2026-01-01 00:00,1.5', '2026-01-01 00:30,0.5']);
    expect(periods.map((p) => [p.fromSerial, p.toSerial])).toEqual([
      [isoDateToSerial('2026-01-01'), isoDateToSerial('2026-01-01') + 1 / 48],
      [isoDateToSerial('2026-01-01') + 1 / 48, isoDateToSerial('2026-01-01') + 2 / 48],
    ]);
  });
  test('days around a clock change are whole days', () => {
    const { periods } = importGas(['Day,Gas kWh', '2026-03-28,30', '2026-03-29,31', '2026-03-30,29']);
    expect(periods.map((p) => p.toSerial - p.fromSerial)).toEqual([1, 1, 1]);
  });
  test('an end date of which nothing tells whether it belongs to the period: whole months are likelier, and it is said', () => {
    expect(texts(['From,To,Gas kWh', '2025-01-01,2026-01-01,12000'])).toEqual([
      '2025-01-01..2026-01-01 12000 kWh',
    ]);
    expect(texts(['From,To,Gas kWh', '2025-01-01,2025-12-31,12000'])).toEqual([
      '2025-01-01..2026-01-01 12000 kWh',
    ]);
    expect(
      importGas(['From,To,Gas kWh', '2025-01-01,2025-12-31,12000']).report.files[0]!.assumptions,
    ).toEqual(['the end date is the last day of its period']);
  });
  test('an end written as the last second is the next midnight', () => {
    const { periods, report } = importGas([
      'From,To,Gas kWh',
      '2026-01-01 00:00:00,2026-01-31 23:59:59,500',
      '2026-02-01 00:00:00,2026-02-28 23:59:59,400',
    ]);
    expect(periods.map((p) => p.toSerial - p.fromSerial)).toEqual([31, 28]);
    expect(report.files[0]!.findings).toEqual([]);
  });
  test('one line with both ends', () => {
    expect(texts(['From,To,Gas kWh', '2025-01-01 00:00,2026-01-01 00:00,12000'])).toEqual([
      '2025-01-01..2026-01-01 12000 kWh',
    ]);
  });
});

describe('gas marked as estimated', () => {
  test.each<[string, string, string[]]>([
    ['by one word of a maker among others', 'Type', ['Smart', 'Estimated', 'Customer']],
    ['beside words that are not known', 'Read type', ['Visit', 'Estimated', 'Visit']],
    ['by yes and nothing', 'Estimated', ['', 'Yes', '']],
    ['by letters', 'Quality', ['A', 'E', 'A']],
  ])('%s', (_, header, marks) => {
    const { periods, report } = importGas([
      `Date,Gas reading (m3),${header}`,
      ...marks.map((mark, i) => `2025-0${i + 1}-01,${100 + 70 * i},${mark}`),
    ]);
    // A read ends one period and begins the next.
    expect(periods.map(({ estimated }) => estimated)).toEqual([true, true]);
    expect(report.files[0]?.findings).toContainEqual(
      expect.objectContaining({ kind: 'estimated gas', count: 2 }),
    );
  });

  test.each<[string, string[], boolean[]]>([
    ['letters behind a blank', ['1000', '1180 E', '1300', '1400 A'], [true, true, false]],
    ['letters at once, of either case', ['1000', '1180', '1300e', '1400a'], [false, true, true]],
    ['words and brackets', ['1000 (actual)', '1180 est.', '1300 (Estimated)', '1400 C'], [true, true, true]],
  ])('by a mark in the cell of the number: %s', (_, cells, estimated) => {
    const { periods, report } = importGas([
      'Date,Gas register m3',
      ...cells.map((cell, i) => `2025-0${i + 1}-01,${cell}`),
    ]);
    expect(periods.map(({ value }) => value)).toEqual([180, 120, 100]);
    expect(periods.map((period) => period.estimated)).toEqual(estimated);
    expect(report.files[0]?.assumptions.join()).toMatch(/a mark behind the number/);
    expect(report.files[0]?.findings).toContainEqual(expect.objectContaining({ kind: 'estimated gas' }));
  });

  test('by a mark in every cell, of stretches', () => {
    const { periods, report } = importGas([
      'From;To;Gas kWh',
      '2025-01-01;2025-01-31;1.800,5 E',
      '2025-02-01;2025-02-28;1.200,0 A',
    ]);
    expect(periods.map(({ value, estimated }) => [value, estimated])).toEqual([
      [1800.5, true],
      [1200, false],
    ]);
    expect(report.files[0]?.assumptions).toContain(
      '2 cells hold a mark behind the number ("1.800,5 E"): E as estimated, A as read',
    );
  });

  test('a letter that marks nothing is refused, as is any in a file of electricity', () => {
    const lines = ['Date,Gas register m3', '2025-01-01,1000', '2025-02-01,1180 Q', '2025-03-01,1300'];
    expect(messageOf(() => importGas(lines))).toContain('line 3: "1180 Q" is not a number');
    const usage = [
      'Start,Import kWh',
      '2025-01-01 00:00,0.2',
      '2025-01-01 00:30,0.3 E',
      '2025-01-01 01:00,0.1',
    ];
    expect(messageOf(() => importText(usage))).toContain('line 3: "0.3 E" is not a number');
  });

  test('words that are not known are told', () => {
    const { report } = importGas([
      'Date,Gas reading (m3),Read type',
      '2025-01-01,100,Visit',
      '2025-02-01,170,Estimated',
    ]);
    expect(report.files[0]?.findings).toContainEqual(
      expect.objectContaining({
        kind: 'odd mark',
        count: 1,
        places: [{ file: expect.any(String), line: 2, text: '"Visit"' }],
      }),
    );
  });
});

describe('what is found', () => {
  test('periods missing, estimated reads, negative values: told with their lines', () => {
    const { periods, report } = importGas([
      'Month,Gas m3,Read type',
      '2026-01,30,A',
      '2026-02,20,E',
      '2026-05,-3,A',
    ]);
    expect(periods.map((p) => p.estimated)).toEqual([false, true, false]);
    expect(report.files[0]!.findings).toMatchObject([
      { kind: 'missing period', places: [{ line: 3, text: '2026-03-01 to 2026-05-01' }] },
      { kind: 'negative', places: [{ line: 4 }] },
      {
        kind: 'estimated gas',
        done: 'counted as they are; the workbook keeps no mark of them',
        places: [{ line: 3 }],
      },
    ]);
    expect(formatImportReport(report)).toContain('gas       2026-01-01 to 2026-06-01, 3 periods, 47.0 m3');
  });
  test('two months in any order of files; the same twice is counted once', () => {
    const file = (name: string, lines: string[]) => ({
      name,
      bytes: Buffer.from(['Date,Gas register m3', ...lines].join('\n')),
    });
    const a = file('a.csv', ['2026-01-01,100', '2026-02-01,150']);
    const b = file('b.csv', ['2026-02-01,150', '2026-03-01,190', '2026-04-01,220']);
    const options = { timeZone: 'Europe/London' };
    const { periods, report } = importGasFiles([b, a], options);
    expect(periods).toEqual(importGasFiles([a, b], options).periods);
    expect(periods.map((p) => p.value)).toEqual([50, 40, 30]);
    expect(report.files.flatMap((f) => f.findings)).toMatchObject([{ kind: 'duplicate', count: 1 }]);
  });
  test('registers in m³ and in kWh are two counters', () => {
    const file = (name: string, unit: string, line: string) => ({
      name,
      bytes: Buffer.from(`Date,Gas register ${unit}\n${line}\n`),
    });
    const files = [file('a.csv', 'm3', '2026-01-01,100'), file('b.csv', 'kWh', '2026-02-01,900')];
    expect(messageOf(() => importGasFiles(files, { timeZone: 'Europe/London' }))).toBe(
      'InputError: b.csv: the register is in kWh, that of a.csv in m3. Give the reads of one register in one unit.',
    );
  });
  test.each<[string, string[], string]>([
    [
      'overlapping periods',
      ['From,To,Gas m3', '2026-01-01,2026-02-01,120', '2026-01-15,2026-03-01,98'],
      'gas.csv, line 3: the period 2026-01-15 to 2026-03-01 begins before that of gas.csv, line 2 ends. Take one of them out: the gas would be counted twice.',
    ],
    [
      'uneven dates without their ends',
      ['Date,Gas used m3', '2026-01-03,10', '2026-01-20,12', '2026-03-01,11'],
      'gas.csv, line 3: 17 days lie between this line and the one before, so its period is unclear. Give both ends in columns From and To, or the reads of the register: --register yes.',
    ],
    [
      'a value that is text',
      ['Month,Gas m3', '2026-01,10', '2026-02,plenty'],
      'gas.csv, line 3: "plenty" is not a number (the decimal mark is "."). Correct the cell, or leave it empty where there is no reading; --decimal says another decimal mark.',
    ],
    [
      'a register read once',
      ['Date,Gas register m3', '2026-01-03,100'],
      'gas.csv: the files hold no gas used. A register needs at least two reads.',
    ],
  ])('%s', (_, lines, says) => {
    expect(messageOf(() => importGas(lines))).toBe(`InputError: ${says}`);
  });
});

describe('no gas is lost between the report and the workbook', () => {
  const totals = (lines: string[]): [reported: number, written: number] => {
    const { periods } = importGas(lines);
    const sum = (list: readonly { value: number }[]): number =>
      list.reduce((total, { value }) => total + value, 0);
    return [sum(periods), sum(gasStretches(periods, 'home.xlsx'))];
  };

  test('a period that runs backwards is refused', () => {
    const lines = [
      'From,To,Gas kWh',
      '2026-01-01,2026-02-01,1200',
      '2026-02-01,2026-03-01,1000',
      '2026-04-01,2026-03-01,300',
    ];
    expect(messageOf(() => importGas(lines))).toBe(
      'InputError: gas.csv, line 4: the period ends at 2026-03-01, before it begins at 2026-04-01. Correct its ends.',
    );
  });

  test.each<[string, string[]]>([
    [
      'first',
      ['2026-01-01 08:00,100', '2026-01-01 20:00,108', '2026-02-01 08:00,190', '2026-03-01 08:00,250'],
    ],
    [
      'in the middle',
      ['2026-01-01 08:00,100', '2026-02-01 08:00,182', '2026-02-01 20:00,190', '2026-03-01 08:00,250'],
    ],
    [
      'last',
      ['2026-01-01 08:00,100', '2026-02-01 08:00,190', '2026-03-01 08:00,242', '2026-03-01 20:00,250'],
    ],
    [
      'three of one day',
      ['2026-01-01 08:00,100', '2026-01-01 12:00,102', '2026-01-01 20:00,108', '2026-03-01 08:00,250'],
    ],
  ])('two reads on one day, %s, are all counted, and told', (_, reads) => {
    const lines = ['Date,Gas register m3', ...reads];
    expect(totals(lines)).toEqual([150, 150]);
    expect(importGas(lines).report.files[0]!.findings).toMatchObject([{ kind: 'part of a day' }]);
  });

  test('less than a day between two gaps is told', () => {
    const lines = [
      'start,gas kWh',
      ...['2026-01-01', '2026-01-03'].flatMap((day) => [`${day} 00:00,1.5`, `${day} 00:30,0.5`]),
    ];
    expect(importGas(lines).report.files[0]!.findings).toContainEqual(
      expect.objectContaining({ kind: 'less than a day', count: 2 }),
    );
  });

  test('a first stretch of fifteen years is told', () => {
    const lines = ['Date,Gas register m3', '2011-01-01,100', '2026-01-01,900', '2026-02-01,1000'];
    expect(importGas(lines).report.files[0]!.findings).toMatchObject([
      { kind: 'long period', count: 1, places: [{ line: 3, text: '2011-01-01 to 2026-01-01' }] },
    ]);
  });
});
