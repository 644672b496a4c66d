import type { Node, Reference } from '../../formula/nodes.js';
import { serialToIsoDate } from '../../time/serial.js';
import { across, areaReference, call, f, type Line, type Term } from '../book/terms.js';
import type { Field } from './field.js';
import { secondsOf } from './limits.js';
import { limitRule, type Rule, type TypedCells } from './rule.js';
import { TARIFF_FIELDS, type TariffFields, TODAYS_TARIFF } from './tariff-fields.js';
import { TARIFF_NAMES } from './tariff-places.js';

/** A rule of a cell, where it counts; what it says when it is broken. */
function rule(
  field: Field,
  counts: Node,
  isBroken: Node,
  found: string | ((typed: TypedCells) => string),
  whatToDo: string,
): Rule {
  return {
    at: field.cell.place,
    is: f`IF(AND(${counts},${isBroken}),1,0)`,
    refusal: (typed) => ({ found: typeof found === 'string' ? found : found(typed), whatToDo }),
  };
}

/** Cells of one column from one to another. */
const between = (first: Line, last: Line): Reference =>
  areaReference({
    sheet: first.place.sheet,
    firstRow: first.place.row,
    lastRow: last.place.row,
    firstColumn: first.place.column,
    lastColumn: last.place.column,
  });
const isBlank = ({ cell }: Field): Node => f`ISBLANK(${cell})`;
const isTyped = ({ cell }: Field): Node => f`COUNTA(${cell})=1`;

function nameRules({ name, exitFee, windows, periods }: TariffFields, tariff: number): Rule[] {
  const { cell } = name;
  const isNamed = f`${cell}<>""`;
  const [firstWindow, lastWindow] = [windows[0], windows.at(-1)];
  const typed: Term[] = [
    exitFee.cell,
    ...(firstWindow === undefined || lastWindow === undefined
      ? []
      : [between(firstWindow.from.cell, lastWindow.days.cell)]),
    ...periods.map(({ validFrom, standing, exportRate }) =>
      between((validFrom ?? standing).cell, exportRate.cell),
    ),
  ];
  const bare = ['*', '?', '~'].reduce<Node>((text, sign) => f`SUBSTITUTE(${text},${sign},"")`, f`${cell}`);
  const before = TARIFF_FIELDS.slice(0, tariff).map((other) => other.name.cell);
  const quoted = (cells: TypedCells): string => `"${String(cells.of(cell))}"`;
  return [
    rule(
      name,
      f`${cell}=""`,
      f`${call('COUNTA', typed)}>0`,
      'the column has rates or windows but no name',
      'Type a name, or clear them.',
    ),
    ...(before.length === 0
      ? []
      : [
          rule(
            name,
            isNamed,
            f`SUMPRODUCT((${across(before)}=${cell})*1)>0`,
            (cells) => `two tariffs are called ${quoted(cells)}`,
            'Give each a name of its own.',
          ),
        ]),
    rule(
      name,
      isNamed,
      f`LEN(${cell})<>LEN(${bare})`,
      (cells) => `the tariff's name ${quoted(cells)} holds *, ? or ~, which spreadsheets take for wildcards`,
      'Leave them out.',
    ),
  ];
}

function windowRules({ name, windows }: TariffFields): Rule[] {
  const isNamed = f`${name.cell}<>""`;
  return windows.flatMap(({ from, to }, k) => [
    limitRule(from, isNamed),
    limitRule(to, isNamed),
    rule(
      from,
      isNamed,
      f`COUNTA(${from.cell})<COUNTA(${to.cell})`,
      `the start of window ${k + 1} is missing`,
      'Type a number.',
    ),
    rule(
      to,
      isNamed,
      f`COUNTA(${to.cell})<COUNTA(${from.cell})`,
      `the end of window ${k + 1} is missing`,
      'Type a number.',
    ),
    rule(
      to,
      isNamed,
      f`IF(COUNT(${from.cell},${to.cell})=2,${secondsOf(from.cell)}=${secondsOf(to.cell)},FALSE)`,
      `window ${k + 1} starts and ends at the same time: it has no length`,
      'Change one of the times; a window of the whole day is 00:00 to 24:00.',
    ),
  ]);
}

function dateRules({ name, periods }: TariffFields): Rule[] {
  const isNamed = f`${name.cell}<>""`;
  return periods.flatMap(({ validFrom: date, standing, exportRate }, p) => {
    if (date === undefined) return [];
    const before = periods[p - 1]?.validFrom;
    const dayOf = (field: Field, cells: TypedCells): string => serialToIsoDate(Number(cells.of(field.cell)));
    return [
      limitRule(date, isNamed),
      rule(
        date,
        isNamed,
        f`IF(${isBlank(date)},COUNTA(${between(standing.cell, exportRate.cell)})>0,FALSE)`,
        `change ${p} of rates has rates but no date`,
        'Type the day from which they hold, or clear the rates.',
      ),
      ...(before === undefined
        ? []
        : [
            rule(
              date,
              isNamed,
              f`COUNTA(${before.cell})<COUNTA(${date.cell})`,
              `change ${p} of rates has a date, but change ${p - 1} has none`,
              `List the changes oldest first, without a gap: move change ${p} up.`,
            ),
            rule(
              date,
              isNamed,
              f`IF(COUNT(${before.cell},${date.cell})=2,${date.cell}<=${before.cell},FALSE)`,
              (cells) =>
                `the rates from ${dayOf(date, cells)} stand after those from ${dayOf(before, cells)}`,
              'Put the dates in order, each once.',
            ),
          ]),
    ];
  });
}

function rateRules({ name, windows, periods }: TariffFields): Rule[] {
  return periods.flatMap(({ validFrom, standing, base, windowRates, exportRate }) => {
    // A later set of rates counts where it has a date.
    const counts =
      validFrom === undefined
        ? f`${name.cell}<>""`
        : f`AND(${name.cell}<>"",NOT(ISBLANK(${validFrom.cell})))`;
    return [
      limitRule(standing, counts),
      limitRule(base, counts),
      ...windowRates.flatMap((field, k) => {
        const window = windows[k];
        if (window === undefined) return [];
        const times = f`COUNTA(${between(window.from.cell, window.to.cell)})`;
        return [
          limitRule(field, counts),
          rule(
            field,
            counts,
            f`IF(${times}=0,${isTyped(field)},FALSE)`,
            `window ${k + 1} has a rate but no times`,
            'Type the times of the window, or clear the rate.',
          ),
          rule(
            field,
            counts,
            f`IF(${times}>0,${isBlank(field)},FALSE)`,
            `the rate in window ${k + 1} is missing`,
            'Type a number.',
          ),
        ];
      }),
      limitRule(exportRate, counts),
    ];
  });
}

function tariffRules(fields: TariffFields, tariff: number): Rule[] {
  const isNamed = f`${fields.name.cell}<>""`;
  const { clock, includesVat, halfHourlyPriced, priceIncludesVat, exitFee } = fields;
  return [
    ...nameRules(fields, tariff),
    ...[clock, includesVat, halfHourlyPriced, priceIncludesVat, exitFee].map((field) =>
      limitRule(field, isNamed),
    ),
    ...windowRules(fields),
    ...dateRules(fields),
    ...rateRules(fields),
  ];
}

/** The rules of the inputs of every tariff (from 0); those of windows' days and of overlaps are the rates' own. */
export const TARIFF_RULES: readonly (readonly Rule[])[] = TARIFF_FIELDS.map(tariffRules);

/** The rules of one field. */
export function rulesOf(rules: readonly Rule[], { cell: { place } }: Field): Rule[] {
  return rules.filter(
    ({ at }) => at.sheet === place.sheet && at.row === place.row && at.column === place.column,
  );
}

/** That today's tariff is one of the tariffs; before the first is typed, none needs to be. */
export const TODAYS_TARIFF_RULE: Rule = {
  ...limitRule(TODAYS_TARIFF),
  is: f`IF(ISNUMBER(MATCH(${TODAYS_TARIFF.cell},${TARIFF_NAMES},0)),0,IF(AND(ISBLANK(${TODAYS_TARIFF.cell}),COUNTA(${TARIFF_NAMES})=0),0,1))`,
};
