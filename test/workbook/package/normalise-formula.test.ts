import { describe, expect, it } from 'vitest';
import { normaliseFormula } from '../../../src/workbook/package/index.js';

describe('normaliseFormula', () => {
  it.each([
    ['case', 'sum(a1:a3)*rate', 'SUM(A1:A3)*RATE'],
    ['spaces', 'SUM( A1 ,\n B1 )', 'SUM(A1,B1)'],
    ['the space that intersects stays', 'SUM(A1:A3  A2:B2)', 'SUM(A1:A3 A2:B2)'],
    ['texts stay as they are', '"a b"&"C"', '"a b"&"C"'],
    ['needless quotes of a sheet', "'Data'!A1+'My Sheet'!A1", "DATA!A1+'MY SHEET'!A1"],
    ['constants', 'IF(A1,TRUE(),FALSE)', 'IF(A1,TRUE,FALSE)'],
    ['numbers', '1.50+1E-3+.5+1E+020', '1.5+0.001+0.5+100000000000000000000'],
    ['numbers of 21 digits', '0.000999999999999999999958', '0.001'],
    ['prefixes', '_xlfn.IFS(A1>0,1)+_xlfngnumeric.XOR(A1)', 'IFS(A1>0,1)+XOR(A1)'],
    ['names of 2010', 'STDEV(A1:A9)+RANK(A1,A1:A9)', 'STDEV.S(A1:A9)+RANK.EQ(A1,A1:A9)'],
    ['inverses of 2010', 'TINV(0.05,A1)+_xlfn.T.INV.2T(0.05,A1)', 'T.INV.2T(0.05,A1)+T.INV.2T(0.05,A1)'],
    ['doubled signs', 'SUMPRODUCT(-(-(A1:A9>1)))', 'SUMPRODUCT(--(A1:A9>1))'],
    ['signs and powers', '(-A1)^2', '-A1^2'],
    ['other parentheses stay', '-(A1+B1)*(C1)', '-(A1+B1)*(C1)'],
    ['unions', '(A1:A2~B1:B2)', '(A1:A2,B1:B2)'],
  ])('%s', (_, formula, normal) => {
    expect(normaliseFormula(formula)).toBe(normal);
    expect(normaliseFormula(normal)).toBe(normal);
  });

  it.each([
    ['a reference', 'A1+B1', 'A1+B2'],
    ['an anchor', '$A1', 'A1'],
    ['a number', '0.1', '0.1000001'],
    ['a text', '"a"', '"A"'],
    ['an order', 'A1-(B1-C1)', 'A1-B1-C1'],
    ['a sign that holds a sum', '(-A1+B1)^2', '-A1+B1^2'],
    ['a sheet', 'Data!A1', 'Data2!A1'],
  ])('keeps formulas apart that differ in %s', (_, one, other) => {
    expect(normaliseFormula(one)).not.toBe(normaliseFormula(other));
  });
});
