import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { functionsMarkdown } from '../../scripts/lib/docs/functions-markdown.js';
import { FUNCTIONS_PAGE_PATH, functionsPage } from '../../scripts/lib/docs/functions-page.js';
import type { DescribedFunction } from '../../src/functions/described-function.js';
import { describedFunctions } from '../../src/functions/index.js';

const doubled: DescribedFunction = {
  name: 'doubledCost',
  cellName: 'DOUBLED_COST',
  category: 'charges',
  summary: 'Doubles a cost | twice over.',
  arguments: [
    { name: 'costPounds', unit: '£', kind: 'number', shape: 'cell', description: 'The cost.' },
    {
      name: 'rates',
      unit: 'none',
      kind: 'number',
      shape: 'table',
      columns: [
        { name: 'ratePence', unit: 'p/kWh', kind: 'number' },
        { name: 'validFrom', unit: 'date', kind: 'date', optional: true },
      ],
      optional: true,
      description: 'Looked at by nobody.',
    },
  ],
  result: { unit: '£', shape: 'cell', description: 'Twice the cost.' },
  source: 'arithmetic',
  example: { arguments: [2], result: 4 },
  compute: ([cost]) => Number(cost) * 2,
  formula: ([cost]) => `2*${cost}`,
};

describe('the page of functions', () => {
  it('is the one that the descriptions give; npm run docs:functions writes it anew', () => {
    expect(readFileSync(FUNCTIONS_PAGE_PATH, 'utf8')).toBe(functionsPage());
  });

  it('has an entry for every function', () => {
    const entries = [...functionsPage().matchAll(/^### (.+)$/gm)].map(([, name]) => name);
    expect(entries.sort()).toEqual(describedFunctions.map(({ name }) => name).sort());
  });

  it('says what a function gives, its arguments with units, its source and its formula', () => {
    const page = functionsMarkdown([doubled], 'Ask first.', { charges: ['Count twice.'] });
    expect(page).toContain('**Ask first.**\n\n## Charges\n\nCount twice.\n');
    expect(page.slice(page.indexOf('### '))).toBe(
      `### doubledCost

Doubles a cost \\| twice over.

\`DOUBLED_COST(costPounds, [rates])\` gives one value (£): Twice the cost.

| argument | unit | shape | what it is |
| --- | --- | --- | --- |
| \`costPounds\` | £ | one value | The cost. |
| \`rates\` |  | a table | Looked at by nobody. Columns: \`ratePence\` (p/kWh); \`validFrom\` (date), may be blank. May be left out. |

Source: arithmetic.

\`\`\`text
=2*costPounds
\`\`\`
`,
    );
  });

  it('says so where no native formula says the function', () => {
    const { formula: _, ...withoutFormula } = doubled;
    expect(functionsMarkdown([withoutFormula], 'Ask first.', {})).toMatch(
      /Source: arithmetic\.\n\nNo native formula says it: it is in the library only\.\n$/,
    );
  });
});
