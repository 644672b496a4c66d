import { describe, expect, test } from 'vitest';
import { zoneInHeader } from '../../src/readings/zone-in-header.js';
import { importText, utcTexts } from './import-text.js';

describe('the zone that a header states', () => {
  test.each([
    ['Start', undefined],
    ['Start (local)', undefined],
    ['Dutch start', undefined],
    ['Start (UTC)', 'utc'],
    ['start_utc', 'utc'],
    ['startUtc', 'utc'],
    ['Date (GMT) Time (UTC)', 'utc'],
    ['UTC time - 30 minute values', 'utc'],
    ['Start (UTC+00:00)', 'utc'],
    ['Start (UTC no daylight saving)', 'utc'],
    ['Start (UTC, without DST)', 'utc'],
    ['Start (UTC, daylight saving)', 'unclear'],
    ['Start (UTC no daylight saving, London)', 'unclear'],
    ['Start (UTC+01:00)', '+01:00'],
    ['Start UTC +1', '+01:00'],
    ['Start (GMT+1)', '+01:00'],
    ['Start (GMT + 10)', '+10:00'],
    ['Start (UTC-0330)', '-03:30'],
    ['Start (UTC−5)', '-05:00'],
    ['Start (+01:00)', '+01:00'],
    ['Date (UTC+1) Time (UTC+01:00)', '+01:00'],
    ['Start time (GMT/BST)', 'unclear'],
    ['Start (CET, UTC+1)', 'unclear'],
    ['Start (UTC, local)', 'unclear'],
    ['Start (UTC/UTC+1)', 'unclear'],
    ['Start (UTC+00:00) London', 'unclear'],
    ['Start (Etc/GMT-1)', 'unclear'],
    ['Start (UTC+5.5)', 'unclear'],
    ['Start (UTC+25)', 'unclear'],
    ['Start UTC - 5 minute values', 'unclear'],
  ])('%s: %s', (header, zone) => {
    expect(zoneInHeader(header)).toBe(zone);
  });
});

describe('half-hours of June under such a header', () => {
  const lines = (header: string): string[] => [
    `${header},import kWh`,
    '2026-06-01 00:00,0.1',
    '2026-06-01 00:30,0.2',
  ];
  const MIDNIGHT_IN_LONDON = ['2026-05-31T23:00', '2026-05-31T23:30'];

  test('a fixed offset is counted off, and the report says so', () => {
    const { readings, report } = importText(lines('Start (UTC+01:00)'));
    expect(utcTexts(readings.startUtcMs)).toEqual(MIDNIGHT_IN_LONDON);
    expect(report.files[0]!.clock).toBe('fixed offset +01:00');
  });

  test('the option says which of two zones it is', () => {
    const startsIn = (stampZone: string): string[] =>
      utcTexts(importText(lines('Start time (GMT/BST)'), { stampZone }).readings.startUtcMs);
    expect(startsIn('local')).toEqual(MIDNIGHT_IN_LONDON);
    expect(startsIn('utc')).toEqual(['2026-06-01T00:00', '2026-06-01T00:30']);
  });

  test('stamps that carry their offsets need no header', () => {
    const { readings } = importText([
      'Start time (GMT/BST),import kWh',
      '2026-06-01T00:00+01:00,0.1',
      '2026-06-01T00:30+01:00,0.2',
    ]);
    expect(utcTexts(readings.startUtcMs)).toEqual(MIDNIGHT_IN_LONDON);
  });

  test('of two columns of stamps, the one that states its zone is read', () => {
    const { readings } = importText([
      'When (GMT/BST),When (UTC),import kWh',
      '2026-06-01 00:00,2026-05-31 23:00,0.1',
      '2026-06-01 00:30,2026-05-31 23:30,0.2',
    ]);
    expect(utcTexts(readings.startUtcMs)).toEqual(MIDNIGHT_IN_LONDON);
  });
});
