import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { AGAINST_THE_STREAM, ARROWS, PURE, WITHOUT_LIBRARIES } from './arrows.js';
import { circleIn, type Direction, forbiddenImports, partOf } from './import-direction.js';
import { importsIn, importsOf } from './read-imports.js';

const DIRECTION: Direction = {
  arrows: ARROWS,
  exceptions: AGAINST_THE_STREAM,
  withoutLibraries: WITHOUT_LIBRARIES,
  pure: PURE,
};
const sources = importsIn(fileURLToPath(new URL('../../src', import.meta.url)));

describe('the imports of the sources', () => {
  it('run one way, as the table of arrows says', () => {
    expect(sources.length).toBeGreaterThan(500);
    expect(forbiddenImports(sources, DIRECTION)).toEqual([]);
  });

  it('run against the stream only where the table names it, and the table names no arrow that is gone', () => {
    const parts = Object.keys(ARROWS);
    const gone = AGAINST_THE_STREAM.filter(
      ([from, to]) =>
        !sources.some(
          ({ file, target }) => partOf(file, parts) === from && partOf(target ?? '', parts) === to,
        ),
    );
    expect(gone).toEqual([]);
  });
});

describe('the table of arrows', () => {
  it('has no way round', () => {
    expect(circleIn(ARROWS)).toBeUndefined();
  });

  it('speaks of parts that it has', () => {
    const named = [...Object.values(ARROWS), ...AGAINST_THE_STREAM, WITHOUT_LIBRARIES, PURE].flat();
    expect(named.filter((part) => ARROWS[part] === undefined)).toEqual([]);
  });

  it('lets nobody import the add-ons, and no library the workbook', () => {
    const importersOf = (wanted: (part: string) => boolean): string[] =>
      Object.keys(ARROWS).filter((part) => ARROWS[part]?.some(wanted));
    expect(importersOf((part) => part === 'addons')).toEqual([]);
    const library = [
      'time',
      'tariffs',
      'charges',
      'shares',
      'break-even',
      'battery',
      'heating',
      'timers',
      'functions',
      'readings',
    ];
    const importsWorkbook = importersOf((part) => part.startsWith('workbook'));
    expect(library.filter((part) => importsWorkbook.includes(part))).toEqual([]);
    expect(ARROWS['workbook/package']).toEqual(['errors.ts', 'zip']);
    expect(ARROWS.zip).toEqual(['errors.ts']);
    expect(ARROWS.formula).toEqual([]);
  });
});

describe('the check', () => {
  const check = (file: string, text: string): string[] => forbiddenImports(importsOf(file, text), DIRECTION);

  it.each([
    [
      'a library that imports the workbook',
      'charges/add-vat.ts',
      "\nimport { SHEETS } from '../workbook/layout.js';",
      'src/charges/add-vat.ts:2: charges imports workbook/layout.ts (../workbook/layout.js)',
    ],
    [
      'a type that runs backwards',
      'time/serial.ts',
      "import type { Tariff } from '../tariffs/tariff.js';",
      'src/time/serial.ts:1: time imports tariffs (../tariffs/tariff.js)',
    ],
    [
      'a re-export',
      'workbook/package/index.ts',
      "// one\n// two\nexport * from '../../tariffs/index.js';",
      'src/workbook/package/index.ts:3: workbook/package imports tariffs (../../tariffs/index.js)',
    ],
    [
      'an import at run time',
      'cli/home-tariff.ts',
      "const { calcAddon } = await import('../addons/calc/calc-addon.js');",
      'src/cli/home-tariff.ts:1: cli imports addons (../addons/calc/calc-addon.js)',
    ],
    [
      'the list of functions, from a function',
      'charges/add-vat.ts',
      "import { describedFunctions } from '../functions/index.js';",
      'src/charges/add-vat.ts:1: charges imports functions/index.ts (../functions/index.js)',
    ],
    [
      'a library in the formula language',
      'formula/parse.ts',
      "import { z } from 'zod';",
      'src/formula/parse.ts:1: formula imports the library zod',
    ],
    [
      'a file in what works things out',
      'heating/predict-use.ts',
      "import { readFileSync } from 'node:fs';",
      'src/heating/predict-use.ts:1: heating imports node:fs, and is to know nothing of files',
    ],
    [
      'a folder that the table does not know',
      'forecast/guess.ts',
      "import { addVat } from '../charges/add-vat.js';",
      'src/forecast/guess.ts:1: this file is in no part of the table of arrows',
    ],
    [
      'an import of such a folder',
      'cli/home-tariff.ts',
      "import { guess } from '../forecast/guess.js';",
      'src/cli/home-tariff.ts:1: forecast/guess.ts is in no part of the table of arrows',
    ],
  ])('finds %s', (_, file, text, message) => {
    expect(check(file, text)).toEqual([message]);
  });

  it('takes no word of a comment or a text for an import', () => {
    const text = `// import { a } from '../workbook/layout.js';\nconst b = "import c from '../workbook/layout.js'";`;
    expect(check('time/serial.ts', text)).toEqual([]);
  });

  it('finds a way round', () => {
    expect(circleIn({ a: ['b'], b: ['c'], c: ['b'] })).toEqual(['b', 'c', 'b']);
    expect(circleIn({ a: ['b', 'c'], b: ['c'], c: [] })).toBeUndefined();
  });
});
