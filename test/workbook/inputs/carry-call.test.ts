import { expect, it } from 'vitest';
import { carryCall } from '../../../src/workbook/inputs/carry-call.js';

it('says how a workbook is carried over, in quotes where its name has a space', () => {
  expect(carryCall('home.xlsx')).toBe(
    'npm run carry -- home.xlsx --out NEW.xlsx (installed: home-tariff carry home.xlsx --out NEW.xlsx)',
  );
  expect(carryCall('our home.xlsx', '--days 500')).toContain(
    'npm run carry -- "our home.xlsx" --out NEW.xlsx --days 500',
  );
});
