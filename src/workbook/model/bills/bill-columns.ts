import type { Node, Reference } from '../../../formula/nodes.js';
import {
  across,
  all,
  areaReference,
  beside,
  Column,
  call,
  f,
  joined,
  Line,
  type Term,
} from '../../book/terms.js';
import { BILL_COLUMN, BILL_ROWS, BILL_SETTINGS, FIRST_BILL_ROW, READS } from '../../fields/bill-fields.js';
import { HOME_FIELDS } from '../../fields/home-fields.js';
import { FIRST_TARIFF_COLUMN, TARIFF_NAMES } from '../../fields/tariff-places.js';
import { BLOCK_ROWS, SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import { SLOTS_A_DAY } from '../../sheets/average-days.js';
import { WHERE_METERED } from '../../sheets/readings.js';
import type { Book } from '../book.js';
import { HELPER_ROW } from '../tariff-rows.js';
import { flagsOfRow } from './bill-flags.js';
import { LINE_DIGITS_NAME } from './bill-places.js';

/** What can be said of a bill. */
export const BILL_STATE = {
  none: 0,
  unusable: 1,
  ratesUnusable: 2,
  notRead: 3,
  notPriced: 4,
  compared: 5,
} as const;
/** Why the kWh of a bill are others. */
export const KWH_CAUSE = { clock: 1, registers: 2, estimated: 3, missing: 4, other: 5 } as const;

/** A figure this little under half a hundredth is half a hundredth. */
const NOISE = 0.000000001;
/** Digits of a part of a difference, in the currency: more than kWh × rate × VAT of a bill have, so that none lies half-way. */
const PART_DIGITS = 9;
/** kWh that registers and bill may differ by: registers are printed whole. */
const REGISTER_KWH = 1;

/** Columns of the bills sheet, each right of the one before. */
class SheetColumns {
  readonly worked: Column[] = [];
  private next: number = BILL_COLUMN.firstWorked;

  private column(at: number, style: StyleName, text: Column['text'], name?: string): Column {
    return new Column(SHEETS.bills, at, FIRST_BILL_ROW, BILL_ROWS, style, text, name);
  }

  /** A column of inputs, or one whose place is set. */
  at(place: number, label = '', unit = '', style: StyleName = 'text', is?: Node): Column {
    const column = this.column(place, style, { label, unit, description: '' });
    column.is = is;
    if (is !== undefined) this.worked.push(column);
    return column;
  }

  add(label: string, unit: string, style: StyleName, is: Node, name?: string): Column {
    const column = this.column(this.next++, style, { label, unit, description: '' }, name);
    column.is = is;
    this.worked.push(column);
    return column;
  }
}

type Three = readonly [Column, Column, Column];
const rates = (of: (k: number) => Column): Three => [of(0), of(1), of(2)];
const sumOf = (terms: readonly Node[]): Node => joined('+', terms);
const plus = (columns: readonly Column[]): Node => sumOf(columns.map((column) => f`${column}`));

/** Every line that is worked out beside the bills. */
export interface BillColumns {
  /** In the order of the sheet. */
  worked: readonly Column[];
  state: Column;
  differs: Column;
  difference: Column;
  gap: Column;
  tail: Column;
}

/** Declares what stands beside the bills: the workbook’s own figures, the differences, and what explains most. */
export function billColumns(book: Book): BillColumns & { ownTotal: Column } {
  const { workings, inputs } = book;
  const { bills: days, calendar, asMetered, readings, halfHours } = workings;
  const sheet = new SheetColumns();
  const C = BILL_COLUMN;
  const input = {
    from: sheet.at(C.from),
    to: sheet.at(C.to),
    total: sheet.at(C.total),
    kwh: rates((k) => sheet.at(C.kwh + k)),
    rate: rates((k) => sheet.at(C.rate + k)),
    standing: sheet.at(C.standing),
    days: sheet.at(C.days),
    vat: sheet.at(C.vat),
    exportKwh: sheet.at(C.exportKwh),
    exportRate: sheet.at(C.exportRate),
    reads: sheet.at(C.reads),
    opening: rates((k) => sheet.at(C.opening + 2 * k)),
    closing: rates((k) => sheet.at(C.opening + 2 * k + 1)),
  };
  const { from, to } = input;

  // Which bills count, and whether they can be held against anything.
  const number = sheet.add(
    'Counts as',
    'no., 0: not',
    'integer',
    f`IF(AND(COUNT(${from},${to})=2,SUM(${flagsOfRow})=0),${sheet.at(C.number)},0)`,
    'bill_numbers',
  );
  const place = sheet.add(
    'Its tariff',
    'column, 0: none',
    'integer',
    f`IF(${number}=0,0,IFERROR(MATCH(${sheet.at(C.tariff)},${TARIFF_NAMES},0),0))`,
    'bill_places',
  );
  const ofTariff = (lines: readonly Line[]): Node => f`INDEX(${across(lines)},1,${place})`;
  const faults = areaReference({
    sheet: SHEETS.tariffs,
    firstRow: HELPER_ROW.faults,
    lastRow: HELPER_ROW.faults,
    firstColumn: FIRST_TARIFF_COLUMN,
    lastColumn: FIRST_TARIFF_COLUMN + book.shape.tariffs - 1,
  });
  const daysRead = sheet.add(
    'Days in the readings',
    'count',
    'count',
    f`IF(${number}=0,0,COUNTIFS(${all(days.bill)},${number}))`,
  );
  const rowsRead = (...also: readonly Term[]): Node =>
    call('COUNTIFS', [
      all(readings.start),
      f`">="&(${from}-0.01)`,
      all(readings.start),
      f`"<"&(${to}+0.99)`,
      ...also,
    ]);
  const imported = [all(readings.channels.importKwh), WHERE_METERED] as const;
  const factors = workings.tariffs.map((tariff) => tariff.rates.priceFactor);
  const unpriced = sheet.add(
    'Half-hours without its price',
    'count',
    'count',
    f`IF(${number}=0,0,IF(${ofTariff(factors)}=0,0,${rowsRead(...imported)}-${rowsRead(...imported, all(readings.channels.pricePence), WHERE_METERED)}))`,
  );
  const state = sheet.add(
    'State',
    '5: compared',
    'integer',
    f`IF(${number}=0,IF(SUM(${flagsOfRow})>0,${BILL_STATE.unusable},${BILL_STATE.none}),IF(INDEX(${faults},1,${place})>0,${BILL_STATE.ratesUnusable},IF(${daysRead}=0,${BILL_STATE.notRead},IF(${unpriced}>0,${BILL_STATE.notPriced},${BILL_STATE.compared}))))`,
    'bill_states',
  );
  const when = (is: Node): Node => f`IF(${state}<${BILL_STATE.compared},"",${is})`;
  const ofDays = (column: Column): Node => f`SUMIFS(${all(column)},${all(days.bill)},${number})`;
  const digits = new Line(
    { sheet: SHEETS.bills, row: 4, column: C.firstWorked },
    'integer',
    LINE_DIGITS_NAME,
  );
  const rounded = (pounds: Node): Node => f`ROUND(${pounds}+${NOISE},${digits})`;

  // The workbook’s own figures of the same days.
  const ownDays = sheet.add('Days', 'count', 'count', when(f`${to}-${from}+1`));
  const missing = sheet.add(
    'Half-hours missing',
    'count',
    'count',
    when(
      f`${ofDays(calendar.length)}+${SLOTS_A_DAY}*(${ownDays}-${daysRead})-${ofDays(workings.days.metered)}`,
    ),
  );
  const kwh = ['As metered at rate 1', 'As metered at rate 2', 'As metered at rate 3'] as const;
  const own1 = sheet.add(kwh[0], 'kWh', 'oneDecimal', when(ofDays(days.kwh[0])));
  const own2 = sheet.add(kwh[1], 'kWh', 'oneDecimal', when(ofDays(days.kwh[1])));
  const own3 = sheet.add(
    kwh[2],
    'kWh',
    'oneDecimal',
    when(f`ROUND(MAX(0,${ofDays(asMetered.days.importKwh)}-${own1}-${own2}),9)`),
  );
  const ownKwh: Three = [own1, own2, own3];
  // Where VAT is a line of its own, rates are without it; parts are weighed with it.
  const vatFactor = sheet.add(
    'VAT factor',
    '1: rates hold it',
    'rateFine',
    when(f`IF(ISNUMBER(${input.vat}),1+SUM(${inputs.vatShare}),1)`),
  );
  const energy = (column: Column): Node => when(f`${ofDays(column)}/100/${vatFactor}`);
  const own1Pounds = sheet.add('Energy at rate 1', '{major}', 'money', energy(days.pence[0]));
  const own2Pounds = sheet.add('Energy at rate 2', '{major}', 'money', energy(days.pence[1]));
  const own3Pounds = sheet.add(
    'Energy at rate 3',
    '{major}',
    'money',
    when(f`IF(${own3}=0,0,${ofDays(days.energyPence)}/100/${vatFactor}-${own1Pounds}-${own2Pounds})`),
  );
  const ownPounds: Three = [own1Pounds, own2Pounds, own3Pounds];
  const averageRate = (k: 0 | 1): Node => f`${ofDays(days.ratePence[k])}/${daysRead}/${vatFactor}`;
  const noUse = [
    averageRate(0),
    f`IF(${ofDays(days.ratePence[0])}=${ofDays(days.ratePence[1])},"",${averageRate(1)})`,
    f`""`,
  ] as const;
  const ownRate = rates((k) =>
    sheet.add(
      `Rate ${k + 1} of the tariff`,
      '{minor}/kWh',
      'rateFine',
      when(f`IF(${ownKwh[k]!}>0,${ownPounds[k]!}*100/${ownKwh[k]!},${noUse[k]!})`),
    ),
  );
  const ownStanding = sheet.add(
    'Standing charge of the tariff',
    '{minor}/day',
    'rateFine',
    when(f`${ofDays(days.standingPence)}/${daysRead}/${vatFactor}`),
  );
  const ownNet = sheet.add(
    'Energy and standing charge',
    '{major}',
    'money',
    when(
      sumOf([...ownPounds.map((pounds) => rounded(f`${pounds}`)), rounded(f`${ownDays}*${ownStanding}/100`)]),
    ),
  );
  const ownVat = sheet.add(
    'VAT',
    '{major}',
    'money',
    when(f`IF(ISNUMBER(${input.vat}),${rounded(f`(${vatFactor}-1)*${ownNet}`)},"")`),
  );
  const isExported = f`ISNUMBER(${input.exportKwh})`;
  const ownExport = sheet.add(
    'Export as metered',
    'kWh',
    'oneDecimal',
    when(f`IF(${isExported},${ofDays(asMetered.days.exportKwh)},"")`),
  );
  const ownExportRate = sheet.add(
    'Export rate of the tariff',
    '{minor}/kWh',
    'rateFine',
    when(
      f`IF(${isExported},IF(${ownExport}>0,${ofDays(days.exportPence)}/${ownExport},SUM(${input.exportRate})),"")`,
    ),
  );
  const ownTotal = sheet.at(
    C.ownTotal,
    'By the readings',
    '{major}',
    'moneyStrong',
    when(
      f`ROUND(${ownNet}+SUM(${ownVat})-${rounded(f`SUM(${ownExport})*SUM(${ownExportRate})/100`)}+${NOISE},2)`,
    ),
  );

  // What the bill says, line by line.
  const billedKwh = rates((k) =>
    sheet.add(
      `Billed kWh at rate ${k + 1}`,
      'kWh',
      'oneDecimal',
      when(
        f`IF(ISNUMBER(${input.kwh[k]!}),${input.kwh[k]!},SUM(${input.closing[k]!})-SUM(${input.opening[k]!}))`,
      ),
    ),
  );
  const billedDays = sheet.add(
    'Billed days',
    'count',
    'count',
    when(f`IF(ISNUMBER(${input.days}),${input.days},${ownDays})`),
  );
  const billedNet = sheet.add(
    'Billed energy and standing charge',
    '{major}',
    'money',
    when(
      sumOf([
        ...billedKwh.map((billed, k) => rounded(f`${billed}*SUM(${input.rate[k]!})/100`)),
        rounded(f`${billedDays}*SUM(${input.standing})/100`),
      ]),
    ),
  );
  const billedSum = sheet.add(
    'What its lines come to',
    '{major}',
    'money',
    when(
      f`ROUND(${billedNet}+SUM(${input.vat})-${rounded(f`SUM(${input.exportKwh})*SUM(${input.exportRate})/100`)}+${NOISE},2)`,
    ),
  );

  // Differences, billed less own; the seven parts add up to the difference of the totals, but for rounding.
  const difference = sheet.at(
    C.difference,
    'Difference',
    '{major}',
    'moneySigned',
    when(f`ROUND(${input.total}-${ownTotal},2)`),
  );
  const kwhMore = sheet.add(
    'kWh more on the bill',
    'kWh',
    'oneDecimal',
    when(f`ROUND(${plus(billedKwh)}-(${plus(ownKwh)}),6)`),
  );
  const daysMore = sheet.add('Days more', 'count', 'count', when(f`${billedDays}-${ownDays}`));
  const rateParts = rates((k) =>
    sheet.add(
      `Of rate ${k + 1}`,
      '{major}',
      'moneySigned',
      when(
        f`IF(ISNUMBER(${ownRate[k]!}),ROUND(${vatFactor}*${billedKwh[k]!}*(SUM(${input.rate[k]!})-${ownRate[k]!})/100,${PART_DIGITS}),0)`,
      ),
    ),
  );
  // Rounded, so that of parts that are nothing but the noise of binary figures none is the most.
  const part = (label: string, is: Node): Column =>
    sheet.add(label, '{major}', 'moneySigned', when(f`ROUND(${is},${PART_DIGITS})`));
  const kwhPart = part(
    'Of kWh',
    f`${vatFactor}/100*(${sumOf(
      billedKwh.map(
        (billed, k) =>
          f`(${billed}-${ownKwh[k]!})*IF(ISNUMBER(${ownRate[k]!}),${ownRate[k]!},SUM(${input.rate[k]!}))`,
      ),
    )})`,
  );
  const parts = [
    kwhPart,
    part('Of unit rates', plus(rateParts)),
    part('Of days', f`${vatFactor}*${daysMore}*${ownStanding}/100`),
    part('Of the standing charge', f`${vatFactor}*${billedDays}*(SUM(${input.standing})-${ownStanding})/100`),
    part(
      'Of export',
      f`(SUM(${ownExport})*SUM(${ownExportRate})-SUM(${input.exportKwh})*SUM(${input.exportRate}))/100`,
    ),
    part('Of VAT', f`IF(ISNUMBER(${input.vat}),${input.vat}-(${vatFactor}-1)*${billedNet},0)`),
    part('Of its own sum', f`${input.total}-${billedSum}`),
  ];
  const ofParts = beside(parts);
  const most = (cells: Reference): Node =>
    f`IF(${difference}>0,MATCH(MAX(${cells}),${cells},0),MATCH(MIN(${cells}),${cells},0))`;
  const main = sheet.add('Explains most', 'part, from 1', 'integer', when(most(ofParts)));

  // Registers, the other clock, estimates and gaps: why the kWh are others.
  const [firstRegister, lastRegister] = [input.opening[0], input.closing[2]];
  const registers = beside([firstRegister, lastRegister]);
  const advance = sheet.add(
    'Registers advanced',
    'kWh',
    'oneDecimal',
    when(
      f`IF(COUNT(${registers})<2*MAX(1,COUNT(${beside(input.rate)})),"",${call('SUM', [...input.closing])}-${call('SUM', [...input.opening])})`,
    ),
  );
  sheet.add(
    'Registers less half-hours',
    'kWh',
    'oneDecimal',
    when(f`IF(ISNUMBER(${advance}),${advance}-(${plus(ownKwh)}),"")`),
  );
  const other1 = sheet.add(
    'By the other clock at rate 1',
    'kWh',
    'oneDecimal',
    when(ofDays(days.otherClockKwh[0])),
  );
  const other2 = sheet.add(
    'By the other clock at rate 2',
    'kWh',
    'oneDecimal',
    when(ofDays(days.otherClockKwh[1])),
  );
  const other3 = sheet.add(
    'By the other clock at rate 3',
    'kWh',
    'oneDecimal',
    when(f`ROUND(MAX(0,${plus(ownKwh)}-${other1}-${other2}),9)`),
  );
  const apart = (columns: readonly Column[]): Node =>
    sumOf(billedKwh.map((billed, k) => f`ABS(${billed}-${columns[k]!})`));
  const apartOwn = sheet.add('kWh by rate apart', 'kWh', 'oneDecimal', when(apart(ownKwh)));
  const apartOther = sheet.add(
    'The same, other clock',
    'kWh',
    'oneDecimal',
    when(apart([other1, other2, other3])),
  );
  const start = all(readings.start);
  const mark = all(readings.mark);
  const estimated = sheet.add(
    'Half-hours marked as estimated',
    'count',
    'count',
    // Wherever days are read, and not where rates are right: a changed rate has no year of marks read anew.
    f`IF(${number}*${daysRead}=0,"",SUMPRODUCT((${start}>=${from}-0.01)*(${start}<${to}+0.99)*(${mark}>="E")*(${mark}<"F")))`,
  );
  const firstRow = sheet.add(
    'First day',
    'row of Days',
    'integer',
    when(f`MATCH(${number},${all(days.bill)},0)`),
  );
  const metered = all(halfHours.meteredImportKwh);
  const largest = sheet.add(
    'Largest half-hour',
    'kWh',
    'kwhFine',
    when(
      f`MAX(INDEX(${metered},(${firstRow}-1)*${BLOCK_ROWS}+1):INDEX(${metered},(${firstRow}+${daysRead}-1)*${BLOCK_ROWS}))`,
    ),
  );
  const bound = sheet.add(
    'Missing half-hours, at most',
    '{major}',
    'money',
    when(f`MIN(MAX(0,${kwhMore}),MAX(0,${missing})*${largest})*MAX(0,${beside(ownRate)})*${vatFactor}/100`),
  );
  const cause = sheet.add(
    'Why the kWh differ',
    '1–5',
    'integer',
    when(
      f`IF(AND(${apartOther}<${apartOwn}/2,ABS(${kwhMore})<${apartOwn}/2),${KWH_CAUSE.clock},IF(AND(ISNUMBER(${advance}),ABS(${plus(billedKwh)}-SUM(${advance}))>${REGISTER_KWH}),${KWH_CAUSE.registers},IF(OR(${input.reads}=${READS.estimated},${estimated}>0),${KWH_CAUSE.estimated},IF(AND(${bound}>0,${bound}>=${kwhPart}/2),${KWH_CAUSE.missing},${KWH_CAUSE.other}))))`,
    ),
  );

  // In words.
  const money = (pounds: Node): Node => f`${HOME_FIELDS.currency.cell}&FIXED(${pounds},2)`;
  const byUtc = ofTariff(workings.tariffs.map((tariff) => tariff.rates.byUtc));
  const clockWords = sheet.add(
    'In words, of the clock',
    'text',
    'text',
    when(
      f`IF(${cause}<>${KWH_CAUSE.clock},"",IF(${byUtc}=1,"night kWh billed by the home’s hours; its windows run by UTC","night kWh billed by UTC hours; its windows run by the home’s clock"))`,
    ),
  );
  // What moved from one rate to another is no kWh more.
  const otherKwhWords = f`IF(ABS(${kwhMore})<0.5,FIXED(${apartOwn}/2,0)&" kWh billed at another rate",FIXED(ABS(${kwhMore}),0)&" kWh "&IF(${kwhMore}>0,"more","fewer"))`;
  const kwhWords = sheet.add(
    'In words, of kWh',
    'text',
    'text',
    when(
      f`IF(${main}>1,"",CHOOSE(${cause},${clockWords},FIXED(${plus(billedKwh)},0)&" kWh billed, "&FIXED(SUM(${advance}),0)&" by its own registers","estimated reads","missing half-hours",${otherKwhWords}))`,
    ),
  );
  const ofRates = beside(rateParts);
  const rateNumber = sheet.add('Rate that explains most', 'no.', 'integer', when(most(ofRates)));
  const firstSet = f`INDEX(${all(days.set)},${firstRow})`;
  const lastSet = f`INDEX(${all(days.set)},${firstRow}+${daysRead}-1)`;
  const rateWords = sheet.add(
    'In words, of unit rates',
    'text',
    'text',
    when(
      f`IF(${main}<>2,"",IF(${firstSet}<${lastSet},"rates change in these days: type a row for each stretch","rate "&${rateNumber}&" is "&FIXED(INDEX(${beside(input.rate)},1,${rateNumber}),3)&" on the bill, "&FIXED(INDEX(${beside(ownRate)},1,${rateNumber}),3)&" on the tariff"))`,
    ),
  );
  const dayWords = sheet.add(
    'In words, of the standing charge',
    'text',
    'text',
    when(
      f`IF(${main}=3,ABS(${daysMore})&IF(ABS(${daysMore})=1," day "," days ")&IF(${daysMore}>0,"more","less")&" standing charge","standing charge of "&FIXED(SUM(${input.standing}),3)&" a day on the bill, "&FIXED(${ownStanding},3)&" on the tariff")`,
    ),
  );
  const exportWords = sheet.add(
    'In words, of export',
    'text',
    'text',
    when(
      f`IF(${main}<>5,"","export of "&FIXED(SUM(${input.exportKwh}),0)&" kWh at "&FIXED(SUM(${input.exportRate}),2)&", "&FIXED(SUM(${ownExport}),0)&" metered at "&FIXED(SUM(${ownExportRate}),2))`,
    ),
  );
  const moneyWords = sheet.add(
    'In words, of VAT and sum',
    'text',
    'text',
    when(
      f`IF(${main}=6,"VAT of "&${money(f`SUM(${input.vat})`)}&", "&${money(f`(${vatFactor}-1)*${billedNet}`)}&" of its lines","its own lines come to "&${money(f`${billedSum}`)})`,
    ),
  );
  const tail = sheet.add(
    'What explains most',
    'text',
    'text',
    when(
      f`CHOOSE(${main},${kwhWords},${rateWords},${dayWords},${dayWords},${exportWords},${moneyWords},${moneyWords})`,
    ),
  );
  const gapWords = sheet.add(
    'In words, of missing half-hours',
    'text',
    'text',
    when(
      f`IF(${missing}<=0,"",${missing}&IF(${missing}=1," half-hour is"," half-hours are")&" missing from the readings"&IF(${bound}>0,": at most "&${money(f`${bound}`)},""))`,
    ),
  );
  const differs = sheet.add(
    'Differs',
    '1 or 0',
    'integer',
    when(f`IF(ABS(${difference})>SUM(${BILL_SETTINGS.agreesWithin.cell})+0.000001,1,0)`),
    'bill_differs',
  );
  const whyNot = sheet.add(
    'Why it can’t be compared',
    'text',
    'text',
    f`IF(${state}=${BILL_STATE.compared},"",CHOOSE(${state}+1,"","can’t be used: see Checks","the rates of its tariff can’t be used: see Tariffs","no readings of these days","readings lack the price that its tariff follows"))`,
  );
  // Where they explain most, the missing half-hours are the sentence; else they stand behind it.
  const areMost = f`AND(${differs}=1,${main}=1,${cause}=${KWH_CAUSE.missing})`;
  sheet.at(
    C.words,
    'What explains most of it',
    'in words',
    'textBeside',
    f`IF(${state}<${BILL_STATE.compared},${whyNot},IF(${differs}=0,"agrees",${money(f`ABS(${difference})`)}&IF(${difference}>0," more: "," less: ")&IF(${areMost},${gapWords},${tail}))&IF(OR(${gapWords}="",${areMost}),"","; "&${gapWords}))`,
  );
  const gap = sheet.add(
    'Days to the next bill that none charges',
    'count',
    'count',
    f`IF(${number}=0,0,IF(COUNTIFS(${book.inputs.bills.from},">"&${to})=0,0,MAX(0,SMALL(${book.inputs.bills.from},1+COUNTIFS(${book.inputs.bills.from},"<="&${to}))-${to}-1)))`,
    'bill_gaps',
  );
  return { worked: sheet.worked, state, differs, difference, gap, tail, ownTotal };
}
