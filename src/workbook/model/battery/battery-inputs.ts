import { absoluteRow } from '../../cell-address.js';
import type { BatteryCells } from '../../inputs/battery-cells.js';
import { SHEETS } from '../../layout.js';
import type { StyleName } from '../../look/styles.js';
import { input, label } from '../cells.js';
import type { Cell, InputRule } from '../sheet-model.js';
import { FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, TARIFF_ROW } from '../tariff-rows.js';
import { BATTERY_INPUT_LETTERS, BATTERY_INPUT_ROW } from './battery-rows.js';

const number = (title: string, maximum: number, message: string): InputRule => ({
  kind: 'number',
  minimum: 0,
  maximum,
  title,
  message,
});
const yesNo = (title: string, message: string): InputRule => ({
  kind: 'list',
  choices: ['yes', 'no'],
  title,
  message,
});

const LINES: readonly {
  key: keyof BatteryCells;
  text: string;
  unit: string;
  style: StyleName;
  rule: InputRule;
  name: string;
}[] = [
  {
    key: 'usableKwh',
    text: 'Usable capacity',
    unit: 'kWh, 0: no battery',
    style: 'inputNumber',
    rule: number('Usable capacity', 1000, 'Energy between empty and full, kWh; 0 for no battery.'),
    name: 'battery_usable_kwh',
  },
  {
    key: 'chargeKw',
    text: 'Charge power',
    unit: 'kW AC',
    style: 'inputNumber',
    rule: number('Charge power', 1000, 'Most power that it takes from the home’s wiring, kW.'),
    name: 'battery_charge_kw',
  },
  {
    key: 'dischargeKw',
    text: 'Discharge power',
    unit: 'kW AC',
    style: 'inputNumber',
    rule: number('Discharge power', 1000, 'Most power that it gives to the home’s wiring, kW.'),
    name: 'battery_discharge_kw',
  },
  {
    key: 'chargeEfficiency',
    text: 'Charge efficiency',
    unit: 'percent',
    style: 'inputPercent',
    rule: number('Charge efficiency', 1, 'Energy stored ÷ energy taken, above 0 % and at most 100 %.'),
    name: 'battery_charge_efficiency',
  },
  {
    key: 'dischargeEfficiency',
    text: 'Discharge efficiency',
    unit: 'percent',
    style: 'inputPercent',
    rule: number(
      'Discharge efficiency',
      1,
      'Energy given ÷ stored energy used, above 0 % and at most 100 %.',
    ),
    name: 'battery_discharge_efficiency',
  },
  {
    key: 'roundTripEfficiency',
    text: 'Round-trip efficiency, instead of the two',
    unit: 'percent, may stay blank',
    style: 'inputPercent',
    rule: number(
      'Round trip',
      1,
      'Energy given ÷ energy taken. Where filled in, charge and discharge efficiency are each its square root.',
    ),
    name: 'battery_round_trip_efficiency',
  },
  {
    key: 'reserveKwh',
    text: 'Reserve that it never gives',
    unit: 'kWh',
    style: 'inputNumber',
    rule: number('Reserve', 1000, 'Level below which it does not discharge, kWh.'),
    name: 'battery_reserve_kwh',
  },
  {
    key: 'startKwh',
    text: 'Level before the first reading',
    unit: 'kWh',
    style: 'inputNumber',
    rule: number('Level at the start', 1000, 'Stored kWh before the first half-hour.'),
    name: 'battery_start_kwh',
  },
  {
    key: 'wearPencePerKwh',
    text: 'Wear',
    unit: '{minor}/kWh given',
    style: 'inputRate',
    rule: number(
      'Wear',
      1000,
      'What each kWh that it gives takes off its life: for example its price ÷ the kWh of its warranty.',
    ),
    name: 'battery_wear',
  },
  {
    key: 'chargeFromGrid',
    text: 'Charges from the grid',
    unit: 'yes or no',
    style: 'inputChoice',
    rule: yesNo('Charges from the grid', 'no: from solar surplus only'),
    name: 'battery_charges_from_grid',
  },
  {
    key: 'mayFeedCar',
    text: 'May feed the car',
    unit: 'yes or no',
    style: 'inputChoice',
    rule: yesNo('May feed the car', 'no: the car is charged from the grid and the sun only'),
    name: 'battery_may_feed_car',
  },
  {
    key: 'mayExport',
    text: 'May export',
    unit: 'yes or no',
    style: 'inputChoice',
    rule: yesNo('May export', 'yes: it sells stored energy where the export rate pays for the refill'),
    name: 'battery_may_export',
  },
  {
    key: 'priceFixed',
    text: 'Installed price, part that every size has',
    unit: '{major}',
    style: 'inputMoney',
    rule: number('Price', 1_000_000, 'Inverter, fitting and the like, whatever the size.'),
    name: 'battery_price_fixed',
  },
  {
    key: 'pricePerKwh',
    text: 'Installed price, part per usable kWh',
    unit: '{major}/kWh',
    style: 'inputMoney',
    rule: number('Price per kWh', 1_000_000, 'What each further usable kWh costs.'),
    name: 'battery_price_per_kwh',
  },
  {
    key: 'tariff',
    text: 'Tariff to look at more closely below',
    unit: 'blank: today’s',
    style: 'inputName',
    rule: {
      kind: 'list',
      choices: absoluteRow(SHEETS.tariffs, FIRST_TARIFF_LETTERS, LAST_TARIFF_LETTERS, TARIFF_ROW.name),
      title: 'Tariff',
      message: 'One of the names on Tariffs; blank takes today’s.',
    },
    name: 'battery_tariff',
  },
];

/** The battery's inputs, with what each accepts. */
export function batteryInputCells(start: BatteryCells): Cell[] {
  return [
    label('B5', 'Your battery', 'section'),
    label('C5', '', 'section'),
    label('D5', '', 'section'),
    ...LINES.flatMap(({ key, text, unit, style, rule, name }) => {
      const row = BATTERY_INPUT_ROW[key];
      return [
        label(`B${row}`, text, 'label'),
        input(`${BATTERY_INPUT_LETTERS}${row}`, start[key], style, rule, { name }),
        label(`D${row}`, unit, 'unitBeside'),
      ];
    }),
  ];
}
