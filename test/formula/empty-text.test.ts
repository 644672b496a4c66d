import { describe, expect, it } from 'vitest';
import { saysNothing } from '../../src/formula/empty-text.js';
import type { Node } from '../../src/formula/nodes.js';
import { Column, f, Line } from '../../src/workbook/book/terms.js';

/** A line in a cell, with this formula. */
function line(row: number, is?: Node): Line {
  const cell = new Line({ sheet: 'Days', row, column: 1 }, 'kwh');
  cell.is = is;
  return cell;
}

const typed = new Column('Readings', 1, 8, 4, 'kwh', { label: 'Import', unit: 'kWh', description: '' });
const empty = line(2, f`IF(${typed}=0,"",1)`);
const handsOn = line(3, f`IF(${typed}=0,2,${empty})`);
const never = line(4, f`IF(${typed}=0,2,1)`);
/** A line that hands on what the other does, which hands on what this one does. */
const [chicken, egg] = [line(5), line(6)];
chicken.is = f`IF(${typed}=0,0,${egg})`;
egg.is = f`IF(${typed}=0,1,${chicken})`;

describe('a formula may say nothing where it', () => {
  it.each([
    ['gives an empty text', empty.is!],
    ['hands on what one may hold that does', handsOn.is!],
    ['hands it on over two cells', f`CHOOSE(${typed},1,${handsOn})`],
    ['gives it in place of an error', f`IFERROR(1/${typed},"")`],
    ['gives an error on purpose', f`IF(${typed}=0,NA(),1)`],
    ['joins texts that may both be empty', f`IF(${typed}=0,"","a")&IF(${typed}=1,"","b")`],
    ['joins one that may be empty to itself', f`${empty}&${empty}`],
    ['hands on what it joined to a text just before', f`IF(${typed}=0,${empty}&"a",${empty})`],
    ['hands on what nothing is known of', f`IF(${typed}=0,1,${line(7)})`],
  ])('%s', (_, formula) => expect(saysNothing(formula)).toBe(true));
});

describe('a formula always says something where it', () => {
  it.each([
    ['asks whether a text is empty', f`IF(${empty}="",0,1)`],
    ['adds up what may be none', f`SUM(${empty},1)`],
    ['joins a text that is none to one that is', f`IF(${typed}=0,"","a")&" kWh"`],
    ['hands on what holds a number', f`IF(${typed}=0,1,${never})`],
    ['hands on what was typed', f`IF(${typed}=0,1,${typed})`],
    ['goes round in a ring', chicken.is!],
  ])('%s', (_, formula) => expect(saysNothing(formula)).toBe(false));
});
