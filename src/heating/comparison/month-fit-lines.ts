import { type HeatingLine, lineOf } from './heating-line.js';

/** Daily figures from which a year is estimated. A row a month; each line reads only lines above it. */
export const FIT_MONTH_LINES: readonly HeatingLine[] = [
  lineOf(
    {
      key: 'fitDegreeDaysPerDay',
      label: 'Degree days a day',
      unit: '°C',
      format: 'number2',
      description: 'For the annual figure: degree days ÷ days where electricity is known.',
    },
    ['degreeDaysUsed', 'days', 'electricityKwh'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
  lineOf(
    {
      key: 'fitElectricityKwhPerDay',
      label: 'Electricity a day',
      unit: 'kWh/day',
      format: 'number2',
      description: 'For the annual figure: electricity in ÷ days where degree days are known.',
    },
    ['electricityKwh', 'days', 'degreeDaysUsed'],
    ([electricity, days]) => electricity! / days!,
    ([electricity, days]) => `${electricity}/${days}`,
  ),
  lineOf(
    {
      key: 'fitHeatDegreeDaysPerDay',
      label: 'Degree days a day, months with heat meter',
      unit: '°C',
      format: 'number2',
      description: 'For the annual figure: degree days ÷ days where heat is known.',
    },
    ['degreeDaysUsed', 'days', 'boilerHeatKwh'],
    ([degreeDays, days]) => degreeDays! / days!,
    ([degreeDays, days]) => `${degreeDays}/${days}`,
  ),
  lineOf(
    {
      key: 'fitBoilerHeatKwhPerDay',
      label: 'Heat from the boiler a day',
      unit: 'kWh/day',
      format: 'number2',
      description: 'For the annual figure: heat from the boiler ÷ days where degree days are known.',
    },
    ['boilerHeatKwh', 'days', 'degreeDaysUsed'],
    ([heat, days]) => heat! / days!,
    ([heat, days]) => `${heat}/${days}`,
  ),
];
