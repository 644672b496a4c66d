import { LAYOUT_3_HEADINGS } from './layout-3-headings.js';
import { movedTexts } from './moved-parts.js';

const { Home, Gas, Temperatures, 'Heating inputs': heatingInputs, ...SAME } = LAYOUT_3_HEADINGS;

/**
 * What stands above and beside the inputs of layout 4, by sheet and cell: all that did in layout 3, some of it right of
 * others, and more. Where it does not, something was moved.
 */
export const LAYOUT_4_HEADINGS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  ...SAME,
  Tariffs: { ...SAME.Tariffs, D3: 'VAT on energy', F3: 'Currency', H3: 'Hundredth of the currency' },
  Readings: {
    ...SAME.Readings,
    A4: 'Time zone, IANA name',
    C4: 'Largest plausible half-hour, kWh',
    F4: 'A battery ran while this was metered, yes or no',
  },
  Heating: movedTexts(heatingInputs, 20),
  'Old boiler': {
    ...Gas,
    Z5: 'Wrong: dates',
    AA5: 'Missing',
    AB5: 'Wrong: gas',
    AC5: 'Wrong: others',
    ...movedTexts(Temperatures, 30),
    AL5: 'Wrong: temperatures',
    AM5: 'Wrong: the day',
  },
  Timers: {
    C5: 'Car',
    D5: 'Hot water',
    B6: 'Timer on',
    B7: 'May run from',
    B8: 'May run to',
    B9: 'Power',
    B10: 'Takes, an assumption',
    B11: 'Is heated today from',
    B12: 'Is heated today to',
    B13: 'The supply carries',
    K5: 'Car, or all',
    L5: 'Hot water',
    B17: 'Tariff',
    I17: 'That figure is',
    B30: 'Tariff, without battery',
  },
  Notes: {
    A4: 'Layout',
    A5: 'Days that it holds',
    E42: 'Columns of the file',
    F42: 'Files of',
    G42: 'Called',
    H42: 'What was said',
    I42: 'First said of',
  },
};
