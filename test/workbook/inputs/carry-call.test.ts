import { expect, it } from 'vitest';
import { carryCall } from '../../../src/workbook/inputs/carry-call.js';

it('says how a workbook is carried over, in quotes where its name needs them', () => {
  expect(carryCall('home.xlsx')).toBe(
    'npm run carry -- home.xlsx --out NEW.xlsx (installed: home-tariff carry home.xlsx --out NEW.xlsx)',
  );
  expect(carryCall('home(1).xlsx')).toContain('-- "home(1).xlsx" --out');
  expect(carryCall('our home.xlsx', '--days 500')).toContain(
    'npm run carry -- "our home.xlsx" --out NEW.xlsx --days 500',
  );
});
