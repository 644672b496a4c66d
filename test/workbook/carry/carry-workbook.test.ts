import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Carried, carryWorkbook } from '../../../src/workbook/carry/carry-workbook.js';
import { isIn } from '../../../src/workbook/carry/earlier-layout.js';
import { openEarlier } from '../../../src/workbook/carry/open-earlier.js';
import { parseCell } from '../../../src/workbook/cell-address.js';
import { listFields } from '../../../src/workbook/fields/field.js';
import { HOME_FIELDS } from '../../../src/workbook/fields/home-fields.js';
import { TOLD } from '../../../src/workbook/fields/told-places.js';
import { fillWorkbook } from '../../../src/workbook/fill/fill-workbook.js';
import { SHEETS } from '../../../src/workbook/layout.js';
import { DAYS_CELL, LAYOUT_CELL, LAYOUT_VERSION } from '../../../src/workbook/model/notes-sheet.js';
import { HELPER_ROW } from '../../../src/workbook/model/tariff-rows.js';
import { openWorkbookPackage } from '../../../src/workbook/package/index.js';
import { verifyWorkbook } from '../../../src/workbook/verify/verify-workbook.js';
import { formulaCell, numberCell, textCell, withCells, withParts } from '../edit-package.js';
import { imported, NOW } from '../template.js';
import {
  cellsOf,
  expectMoved,
  expectSameTotals,
  namesHeldTwice,
  OLD,
  openedValues,
  saidToday,
  table,
  typedIn,
} from './held-cells.js';
import { layout2Workbook } from './layout-2.js';
import { layout3Workbook } from './layout-3.js';

const carry = (bytes: Uint8Array, days?: number): Promise<Carried> =>
  carryWorkbook(bytes, OLD, { now: NOW, ...(days === undefined ? {} : { days }) });
const hashOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');
const messageOf = async (work: Promise<unknown>): Promise<string> =>
  work.then(
    () => 'nothing was refused',
    (error: unknown) => String(error),
  );

/** The facts of the home. */
const homeOf = (bytes: Uint8Array): unknown[] =>
  listFields(HOME_FIELDS).map(({ cell, at }) => cellsOf(bytes, cell.place.sheet).get(at));

describe('a workbook of layout 2', () => {
  const old = layout2Workbook();
  const before = hashOf(old);
  let carried: Carried;
  beforeAll(async () => {
    carried = await carry(old, 60);
  }, 120_000);

  it('becomes one of today’s that verify agrees with; the old one is not touched', () => {
    expect(carried).toMatchObject({ layout: 2, daysBefore: 400, days: 60, readings: 674 });
    expect(cellsOf(carried.bytes, SHEETS.notes).get(DAYS_CELL)).toBe(60);
    expect(verifyWorkbook(carried.bytes, 'new.xlsx')).toMatchObject({ agrees: true });
    expect(hashOf(old)).toBe(before);
  });

  it('has the totals that the old one stored, to the penny, on every tariff', () => {
    const stored = cellsOf(openedValues(old), 'Tariffs');
    for (const letters of 'CDEFGH') {
      const total = stored.get(`${letters}6`);
      expect(total).toBeGreaterThan(50);
      // What was the total is the one without a battery now; with one, its total is that of the headline.
      const at = `${letters}${HELPER_ROW.totalWithout}`;
      expect(carried.values.calculated.at(SHEETS.tariffs, at), letters).toBeCloseTo(total as number, 9);
    }
  });

  it('keeps every reading with its offset, mark and row', () => {
    const readings = table(old, 'Readings', /^[A-M]$/, 8);
    expect(readings.filter(([at, value]) => at.startsWith('M') && value === 'E')).toHaveLength(6);
    expect(table(carried.bytes, SHEETS.readings, /^[A-M]$/, 8)).toEqual(readings);
  });

  it('keeps gas, temperatures and what was typed on every input sheet', () => {
    expect(table(carried.bytes, SHEETS.gas, /^[A-G]$/, 8)).toEqual(table(old, 'Gas', /^[A-G]$/, 8));
    expect(carried).toMatchObject({ gasRows: 5, temperatureDays: 20 });
    expectMoved(carried.bytes, SHEETS.temperatures, 30, table(old, 'Temperatures', /^[A-D]$/, 8));
    expectMoved(carried.bytes, SHEETS.tariffs, 0, typedIn(old, 'Tariffs', /^[C-H]$/, 22));
    expectMoved(carried.bytes, SHEETS.heatingInputs, 20, typedIn(old, 'Heating inputs', /^[CGHJ]$/, 5));
    expect(homeOf(carried.bytes)).toEqual(typedIn(old, 'Home', /^C$/, 4).map(([, value]) => value));
    const batteryInputs = Array.from({ length: 15 }, (_, i) => `C${6 + i}`);
    const held = (bytes: Uint8Array): unknown[] =>
      batteryInputs.map((at) => cellsOf(bytes, SHEETS.battery).get(at));
    expect(held(carried.bytes)).toEqual(held(old));
  });

  it('keeps today’s tariff, the chosen months and the changed figures', () => {
    const { inputs } = carried.values;
    expect(inputs.todaysTariff).toBe('Two-rate night');
    // 1 October 2026.
    expect([inputs.fromMonth, inputs.toMonth]).toEqual([46_296, null]);
    expect(inputs.tariffs[1]?.periods[0]?.base).toBe(31.25);
    expect(inputs.tariffs[5]?.periods[1]).toMatchObject({ validFrom: 46_310, standing: 51.5, base: 27.9 });
    expect(inputs.battery).toMatchObject({ usableKwh: 8.2, tariff: 'Single rate' });
    expect(inputs.heating.settings.boilerEfficiency).toBe(0.82);
    expect(inputs.heating.monthDegreeDays[0]).toEqual({ month: 46_296, degreeDays: 210 });
    expect(inputs.heating.sensitivity).toContain(2.9);
  });

  it('keeps the owner’s cells beside the tables, with formulas that look at what stayed', () => {
    expect(cellsOf(carried.bytes, SHEETS.readings).get('P9')).toBe('boiler serviced');
    expect(cellsOf(carried.bytes, SHEETS.tariffs).get('K9')).toBe('=C9-D9');
    expect(cellsOf(carried.bytes, SHEETS.tariffs).get('K12')).toBe('rates as of the letter');
    expect(carried.ownCells).toBe(3);
  });

  it('keeps the owner’s sheet, its look, its comment and its name', () => {
    expect(carried.ownSheets).toEqual(['My notes']);
    expect([...cellsOf(carried.bytes, 'My notes')]).toEqual([
      ['A1', 'Budget of the year'],
      ['B1', 1500],
      ['A2', 'Twice the energy'],
      ['B2', '=Tariffs!C9*2'],
      ['A3', '=not a formula'],
      ['B3', '=SUM(B1,B2)'],
    ]);
    const workbook = openWorkbookPackage(carried.bytes, 'new.xlsx');
    const xml = String(workbook.readPart(workbook.sheetPart('My notes')));
    expect(xml).toContain('<col min="1" max="1" width="33" customWidth="1"/>');
    const [, style] = /<c r="B1" s="(\d+)"/.exec(xml) ?? [];
    const formats = /<cellXfs[^>]*>([\s\S]*?)<\/cellXfs>/.exec(
      String(workbook.readPart('xl/styles.xml')),
    )?.[1];
    // 3 is the format #,##0.
    expect(formats?.split(/(?=<xf )/).at(Number(style))).toContain('numFmtId="3"');
    expect(workbook.definedName('my_budget')).toBe("'My notes'!$B$1");
    const comments = workbook.relatedParts('My notes').find(({ type }) => type === 'comments');
    expect(String(workbook.readPart(comments?.part ?? ''))).toContain('agreed at home');
  });

  it('names all that it can’t carry', () => {
    expect(carried.notCarried).toEqual([
      {
        at: 'Tariffs!J5',
        found: '"asked for a quote"',
        why: 'the workbook has a cell of its own there now',
      },
      {
        at: 'Months!BZ9:BZ10',
        found: '=Months!F9/2, 1234',
        why: 'the workbook has a cell of its own there now',
      },
      { at: 'My notes', found: '2 charts or pictures', why: 'copy it by hand' },
    ]);
  });

  it('takes the next month in a fill', () => {
    const november = imported({ 'november.csv': 'start,import kWh\n2026-11-01T00:00:00Z,0.2\n' });
    const filled = fillWorkbook(carried.bytes, 'new.xlsx', november, { now: NOW });
    expect(filled).toMatchObject({ addedHalfHours: 1, altered: [] });
  });
});

describe('a workbook of layout 3', () => {
  const old = layout3Workbook();
  let carried: Carried;
  beforeAll(async () => {
    carried = await carry(old);
  }, 120_000);

  it('becomes one of today’s of as many days that verify agrees with', () => {
    expect(carried).toMatchObject({ layout: 3, daysBefore: 31, days: 31, readings: 674 });
    expect(verifyWorkbook(carried.bytes, 'new.xlsx')).toMatchObject({ agrees: true });
  });

  it('has the totals that the old one stored, to the penny, on every tariff', () => {
    expectSameTotals(old, carried.bytes);
  });

  it('keeps all that was typed, wherever it stands now', () => {
    expect(table(carried.bytes, SHEETS.readings, /^[A-M]$/, 8)).toEqual(table(old, 'Readings', /^[A-M]$/, 8));
    expectMoved(carried.bytes, SHEETS.gas, 0, table(old, 'Gas', /^[A-G]$/, 8));
    expectMoved(carried.bytes, SHEETS.temperatures, 30, table(old, 'Temperatures', /^[A-D]$/, 8));
    expectMoved(carried.bytes, SHEETS.tariffs, 0, typedIn(old, 'Tariffs', /^[C-J]$/, 22));
    expectMoved(carried.bytes, SHEETS.battery, 0, typedIn(old, 'Battery', /^C$/, 6).slice(0, 15));
    expectMoved(carried.bytes, SHEETS.heatingInputs, 20, typedIn(old, 'Heating inputs', /^[CGHJ]$/, 5));
    expect(homeOf(carried.bytes)).toEqual(
      typedIn(old, 'Home', /^C$/, 4)
        .map(([, value]) => value)
        .slice(0, 6),
    );
    expect(carried.values.inputs.heating.settings).toMatchObject({ boilerEfficiency: 0.82 });
  });

  it('has each defined name once', () => {
    expect(namesHeldTwice(carried.bytes)).toEqual([]);
  });

  it('keeps what files were told', () => {
    const row = ['Start | kWh', 'readings', 'unit=Wh', 'may.csv'];
    expect(typedIn(old, 'Home', /^[B-F]$/, 16).map(([, value]) => value)).toEqual(row);
    const told = new RegExp(`^(${Object.values(TOLD.letters).join('|')})$`);
    expect(table(carried.bytes, TOLD.sheet, told, TOLD.firstRow).map(([, value]) => value)).toEqual(row);
  });

  it('keeps the owner’s cells where their place is free, and names the others', () => {
    expect(cellsOf(carried.bytes, SHEETS.tariffs).get('K14')).toBe('=C9*2');
    expect(cellsOf(carried.bytes, SHEETS.readings).get('Q10')).toBe('=SUM(C8:C90)');
    expect(carried.notCarried).toEqual([
      { at: 'Home!H5', found: '"asked at the town hall"', why: 'there is no such sheet any more' },
      { at: 'Gas!AB9', found: '"meter changed"', why: 'the workbook has a cell of its own there now' },
      {
        at: 'Readings!Q9',
        found: '=Home!C5*100',
        why: 'it looks at Home!C5, where something else stands now; its value stands there',
      },
      {
        at: 'Readings!Q11',
        found: '=SUM(Grid!C8:C90)',
        why: 'it looks at Grid!C8:C90, where something else stands now; its value stands there',
      },
    ]);
  });

  it('has the same texts wherever it says that nothing moved', () => {
    const opened = openEarlier(old, OLD);
    for (const { name, nowCalled = name, stays } of opened.layoutFor(31).sheets) {
      if (stays.length === 0) continue;
      const [before, now] = [cellsOf(old, name), cellsOf(carried.bytes, nowCalled)].map((cells) =>
        [...cells].filter(([at, value]) => {
          const { row, column } = parseCell(at);
          // Which cells are open is said in words.
          return typeof value === 'string' && !/^=|^Protected /.test(value) && isIn(stays, row, column);
        }),
      );
      expect(now, name).toEqual(before?.map(([at, text]) => [at, saidToday(nowCalled, at, text)]));
    }
  });
});

describe('formulas of one’s own that look at what is elsewhere now', () => {
  it('leave their values, and are named with what they look at', async () => {
    const old = withCells(layout2Workbook(), {
      Tariffs: {
        K14: formulaCell('K14', 'SUM(Days!C8:C9)', 96),
        K15: formulaCell('K15', 'my_budget+1', 1501),
      },
      Readings: {
        Q9: formulaCell('Q9', "'Half-hours'!F8*2", 0.5),
        Q10: formulaCell('Q10', 'SUM(C8:C90)', 7),
      },
    });
    const { bytes, notCarried } = await carry(old, 31);
    expect(notCarried).toEqual(
      expect.arrayContaining([
        {
          at: 'Tariffs!K14',
          found: '=SUM(Days!C8:C9)',
          why: 'it looks at Days!C8:C9, where something else stands now; its value stands there',
        },
        {
          at: 'Readings!Q9',
          found: "='Half-hours'!F8*2",
          why: 'it looks at Half-hours!F8, where something else stands now; its value stands there',
        },
      ]),
    );
    expect(cellsOf(bytes, SHEETS.tariffs).get('K14')).toBe(96);
    expect(cellsOf(bytes, SHEETS.tariffs).get('K15')).toBe('=my_budget+1');
    expect(cellsOf(bytes, SHEETS.readings).get('Q9')).toBe(0.5);
    expect(cellsOf(bytes, SHEETS.readings).get('Q10')).toBe('=SUM(C8:C90)');
  }, 60_000);
});

describe('a workbook of today’s layout', () => {
  // A month, made by carrying the old one over.
  let month: Uint8Array;
  beforeAll(async () => {
    month = (await carry(layout2Workbook(), 31)).bytes;
  }, 60_000);

  it('becomes one that holds more, with everything at the same place', async () => {
    const old = withCells(month, {
      Months: { BAA9: formulaCell('BAA9', 'Months!K8/2', 3) },
      Tariffs: { K14: formulaCell('K14', 'SUM(Days!F8:F9)', 96) },
    });
    const carried = await carry(old, 90);
    expect(carried).toMatchObject({
      layout: LAYOUT_VERSION,
      daysBefore: 31,
      days: 90,
      ownSheets: ['My notes'],
      comments: 1,
    });
    expect(table(carried.bytes, SHEETS.readings, /^[A-M]$/, 8)).toEqual(
      table(old, SHEETS.readings, /^[A-M]$/, 8),
    );
    expect(cellsOf(carried.bytes, SHEETS.months).get('BAA9')).toBe('=Months!K8/2');
    expect(cellsOf(carried.bytes, SHEETS.tariffs).get('K14')).toBe('=SUM(Days!F8:F9)');
    expect(carried.notCarried).toEqual([]);
    expect(namesHeldTwice(carried.bytes)).toEqual([]);
    expect(verifyWorkbook(carried.bytes, 'new.xlsx')).toMatchObject({ agrees: true });
    const totals = (bytes: Uint8Array): unknown[] =>
      [...'CDEFGH'].map((letters) => cellsOf(openedValues(bytes), SHEETS.tariffs).get(`${letters}6`));
    expect(totals(carried.bytes)).toEqual(totals(month));
  }, 60_000);

  it('whose readings stand below its last row gets as many days as they need', async () => {
    // The clocks go back in it: 31 days are 1,490 rows at most.
    const row = 8 + 31 * 48 + 2;
    const below = `<row r="${row}">${numberCell(`A${row}`, 46_330)}${numberCell(`C${row}`, 0.5)}</row>`;
    const old = withParts(month, {
      [openWorkbookPackage(month, OLD).sheetPart(SHEETS.readings)]: (xml) =>
        xml.replace('</sheetData>', `${below}</sheetData>`),
    });
    const carried = await carry(old);
    expect(carried).toMatchObject({ daysBefore: 31, days: 32 });
    expect(cellsOf(carried.bytes, SHEETS.readings).get(`C${row}`)).toBe(0.5);
    expect(carried.values.inputs.readings.count).toBe(row - 7);
  }, 60_000);

  it('gives back formulas that someone typed over, and says so', async () => {
    const old = withCells(month, {
      [SHEETS.tariffs]: { D9: numberCell('D9', 99), C44: formulaCell('C44', '2*14.5', 29) },
    });
    const { notCarried, bytes } = await carry(old, 31);
    expect(notCarried).toEqual([
      { at: 'Tariffs!C44', found: '=2*14.5', why: 'a formula in an input cell: its value was carried' },
      { at: 'Tariffs!D9', found: '99', why: 'put in place of a formula of the workbook, which is back' },
    ]);
    expect(cellsOf(bytes, SHEETS.tariffs).get('C44')).toBe(29);
    expect(String(cellsOf(bytes, SHEETS.tariffs).get('D9'))).toMatch(/^=/);
  }, 60_000);
});

describe('is refused', () => {
  it('a spreadsheet that is none of ours, and one of a newer layout', async () => {
    const bytes = layout2Workbook();
    const other = withParts(bytes, {
      'xl/workbook.xml': (xml) => xml.replace(/home_tariff_workbook_layout/, 'something_else'),
    });
    expect(await messageOf(carry(other))).toBe(
      'InputError: old.xlsx: this is a spreadsheet, but not a home tariff workbook. Name the workbook that you want to carry over.',
    );
    const layout = (number: number): Uint8Array =>
      withCells(bytes, { [SHEETS.notes]: { [LAYOUT_CELL]: numberCell(LAYOUT_CELL, number) } });
    expect(await messageOf(carry(layout(99)))).toBe(
      `InputError: old.xlsx: the workbook has layout 99, newer than layout ${LAYOUT_VERSION}, which this version writes. Use the newer version of this program.`,
    );
    expect(await messageOf(carry(layout(1)))).toContain(
      'the workbook has layout 1; what can be carried is 2, 3, 4, 5, 6, 7 or 8',
    );
  });

  it('a workbook of layout 2 in which something was moved', async () => {
    const moved = withCells(layout2Workbook(), {
      Readings: { C6: textCell('C6', 'Export'), D6: textCell('D6', 'Import') },
    });
    expect(await messageOf(carry(moved))).toContain(
      'old.xlsx, Readings!C6: the cell holds "Export" where "Import" belongs, which stands in D6',
    );
  });

  it('an input that can’t be worked with, by its cell in the old workbook', async () => {
    const slip = withCells(layout2Workbook(), { Tariffs: { C43: '' } });
    expect(await messageOf(carry(slip))).toContain('old.xlsx, Tariffs!C43: ');
  });

  it('readings that need more days than asked for, or than a workbook can hold', async () => {
    const late = (serial: number): Uint8Array =>
      withCells(layout2Workbook(), { Readings: { A681: numberCell('A681', serial) } });
    expect(await messageOf(carry(late(46_313 + 60), 31))).toContain(
      'the readings span 61 days, from Readings!A8 to Readings!A681; --days says 31. Give --days 61 or more.',
    );
    expect(await messageOf(carry(late(46_313 + 1200)))).toContain(
      'the readings span 1201 days, from Readings!A8 to Readings!A681; a workbook holds at most 1,100. Correct the date where it is a slip',
    );
  });
});
