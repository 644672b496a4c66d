import { describe, expect, it } from 'vitest';
import { addCharts } from '../../../src/workbook/charts/add-charts.js';
import { checkPackage } from '../../../src/workbook/charts/check-package.js';
import {
  type Parts,
  partText,
  readParts,
  setPartText,
  writeParts,
} from '../../../src/workbook/charts/package-parts.js';
import { demoCharts, demoWorkbook } from './demo-workbook.js';

const charted = addCharts(await demoWorkbook(), demoCharts);

function problemsAfter(damage: (parts: Parts) => void): string[] {
  const parts = readParts(charted);
  damage(parts);
  return checkPackage(writeParts(parts));
}

function replace(parts: Parts, name: string, find: string | RegExp, by: string): void {
  const text = partText(parts, name);
  const changed = text.replace(find, by);
  expect(changed).not.toBe(text);
  setPartText(parts, name, changed);
}

describe('checkPackage', () => {
  it('finds nothing wrong with a sound workbook', () => {
    expect(checkPackage(charted)).toEqual([]);
  });

  it('finds a relationship whose target is gone', () => {
    const problems = problemsAfter((parts) => delete parts['xl/charts/chart2.xml']);
    expect(problems.join('\n')).toMatch(/points at \.\.\/charts\/chart2\.xml, which is not there/);
    expect(problems.join('\n')).toMatch(/content type is given for xl\/charts\/chart2\.xml/);
  });

  it('finds a part that nothing reaches and that has no type', () => {
    const problems = problemsAfter((parts) => setPartText(parts, 'xl/charts/chart99.xml', '<a/>'));
    expect(problems).toContain('xl/charts/chart99.xml is reached by no relationship');
    expect(problems).toContain('xl/charts/chart99.xml has no content type of its own');
  });

  it('finds an id that is used and not defined', () => {
    const problems = problemsAfter((parts) =>
      replace(parts, 'xl/drawings/drawing1.xml', 'r:id="rId2"', 'r:id="rId77"'),
    );
    expect(problems).toContain('xl/drawings/drawing1.xml uses rId77, which is not defined');
  });

  it('finds an id that is defined twice and relationships of a missing part', () => {
    const drawingRels = 'xl/drawings/_rels/drawing1.xml.rels';
    expect(problemsAfter((parts) => replace(parts, drawingRels, 'Id="rId2"', 'Id="rId1"'))).toContain(
      `${drawingRels} defines rId1 twice`,
    );
    const stray = problemsAfter((parts) => setPartText(parts, 'xl/_rels/gone.xml.rels', '<Relationships/>'));
    expect(stray).toContain('xl/_rels/gone.xml.rels belongs to no part');
  });
});
