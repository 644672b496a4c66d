import type { Reference } from '../../formula/nodes.js';
import { areaReference, f, type Line } from '../book/terms.js';
import { SHEETS } from '../layout.js';
import { choiceField, type FieldText, fieldsDown, listedField, numberField } from './field.js';
import { limitRule, type Rule } from './rule.js';
import { TARIFF_NAMES } from './tariff-places.js';

const YES_NO = { choices: ['yes', 'no'], style: 'inputChoice', unit: 'yes or no' } as const;
/** A figure that counts as 0 where it is blank. */
const figure = (to: number, text: FieldText) => numberField({ from: 0, to, mayBeBlank: true, ...text });
const efficiency = (text: Omit<FieldText, 'style' | 'what' | 'toDo'>) =>
  numberField({
    above: 0,
    to: 1,
    mayBeBlank: true,
    style: 'inputPercent',
    what: "the battery's efficiency",
    toDo: 'Give a share above 0 % and at most 100 %, for example 95 %.',
    ...text,
  });

/** The battery's inputs, in the order of their rows. */
export const BATTERY_FIELDS = fieldsDown(
  { sheet: SHEETS.battery, row: 6, column: 3 },
  {
    usableKwh: figure(1000, {
      label: 'Usable capacity',
      unit: 'kWh, 0: no battery',
      style: 'inputNumber',
      hint: 'Energy between empty and full, kWh; 0 for no battery.',
      what: "the battery's usable capacity",
      name: 'battery_usable_kwh',
    }),
    chargeKw: figure(1000, {
      label: 'Charge power',
      unit: 'kW AC',
      style: 'inputNumber',
      hint: 'Most power that it takes from the home’s wiring, kW.',
      what: "the battery's AC charge power",
      name: 'battery_charge_kw',
    }),
    dischargeKw: figure(1000, {
      label: 'Discharge power',
      unit: 'kW AC',
      style: 'inputNumber',
      hint: 'Most power that it gives to the home’s wiring, kW.',
      what: "the battery's AC discharge power",
      name: 'battery_discharge_kw',
    }),
    chargeEfficiency: efficiency({
      label: 'Charge efficiency',
      unit: 'percent',
      hint: 'Energy stored ÷ energy taken, above 0 % and at most 100 %.',
      name: 'battery_charge_efficiency',
    }),
    dischargeEfficiency: efficiency({
      label: 'Discharge efficiency',
      unit: 'percent',
      hint: 'Energy given ÷ stored energy used, above 0 % and at most 100 %.',
      name: 'battery_discharge_efficiency',
    }),
    roundTripEfficiency: efficiency({
      label: 'Round-trip efficiency, instead of the two',
      unit: 'percent, may stay blank',
      title: 'Round trip',
      hint: 'Energy given ÷ energy taken. Where filled in, charge and discharge efficiency are each its square root.',
      name: 'battery_round_trip_efficiency',
    }),
    reserveKwh: figure(1000, {
      label: 'Reserve that it never gives',
      unit: 'kWh',
      style: 'inputNumber',
      title: 'Reserve',
      hint: 'Level below which it does not discharge, kWh.',
      what: "the battery's reserve",
      name: 'battery_reserve_kwh',
    }),
    startKwh: figure(1000, {
      label: 'Level before the first reading',
      unit: 'kWh',
      style: 'inputNumber',
      title: 'Level at the start',
      hint: 'Stored kWh before the first half-hour.',
      what: "the battery's level at the start",
      name: 'battery_start_kwh',
    }),
    wearPencePerKwh: figure(1000, {
      label: 'Wear',
      unit: '{minor}/kWh given',
      style: 'inputRate',
      hint: 'What each kWh that it gives takes off its life: for example its price ÷ the kWh of its warranty.',
      what: "the battery's wear",
      name: 'battery_wear',
    }),
    chargeFromGrid: choiceField({
      ...YES_NO,
      label: 'Charges from the grid',
      hint: 'no: from solar surplus only',
      name: 'battery_charges_from_grid',
    }),
    mayFeedCar: choiceField({
      ...YES_NO,
      label: 'May feed the car',
      hint: 'no: the car is charged from the grid and the sun only',
      name: 'battery_may_feed_car',
    }),
    mayExport: choiceField({
      ...YES_NO,
      label: 'May export',
      hint: 'yes: it sells stored energy where the export rate pays for the refill',
      name: 'battery_may_export',
    }),
    priceFixed: figure(1_000_000, {
      label: 'Installed price, part that every size has',
      unit: '{major}',
      style: 'inputMoney',
      title: 'Price',
      hint: 'Inverter, fitting and the like, whatever the size.',
      what: "the battery's price of any size",
      name: 'battery_price_fixed',
    }),
    pricePerKwh: figure(1_000_000, {
      label: 'Installed price, part per usable kWh',
      unit: '{major}/kWh',
      style: 'inputMoney',
      title: 'Price per kWh',
      hint: 'What each further usable kWh costs.',
      what: "the battery's price per kWh",
      name: 'battery_price_per_kwh',
    }),
    tariff: listedField({
      list: TARIFF_NAMES,
      mayBeBlank: true,
      label: 'Tariff to look at more closely below',
      unit: 'blank: today’s',
      style: 'inputName',
      title: 'Tariff',
      hint: 'One of the names on Tariffs; blank takes today’s.',
      blankMeans: "today's",
      what: 'the tariff to look at',
      name: 'battery_tariff',
    }),
  },
);
export type BatteryKey = keyof typeof BATTERY_FIELDS;

const { usableKwh, roundTripEfficiency } = BATTERY_FIELDS;
/** Whether there is a battery, as a formula. */
const isThere = f`SUM(${usableKwh.cell})>0`;

/** What a battery that is there needs. */
function needs(key: BatteryKey): Rule[] {
  const { cell } = BATTERY_FIELDS[key];
  switch (key) {
    case 'chargeKw':
    case 'dischargeKw': {
      const power = key === 'chargeKw' ? 'charge' : 'discharge';
      return [
        {
          at: cell.place,
          is: f`IF(AND(${isThere},SUM(${cell})=0),1,0)`,
          refusal: (typed) => ({
            found: `the battery holds ${String(typed.of(usableKwh.cell))} kWh but its ${power} power is 0 kW`,
            whatToDo: `Give its AC ${power} power, or a usable capacity of 0 kWh for no battery.`,
          }),
        },
      ];
    }
    case 'chargeEfficiency':
    case 'dischargeEfficiency':
      return [
        {
          at: cell.place,
          is: f`IF(AND(${isThere},ISBLANK(${cell}),ISBLANK(${roundTripEfficiency.cell})),1,0)`,
          refusal: () => ({
            found: "the battery's efficiency is missing",
            whatToDo: 'Give a share above 0 % and at most 100 %, for example 95 %.',
          }),
        },
      ];
    default:
      return [];
  }
}

const KEYS = Object.keys(BATTERY_FIELDS) as BatteryKey[];

/** The rules of each of the battery's inputs: one flag each. */
export const BATTERY_RULES = Object.fromEntries(
  KEYS.map((key) => [key, [limitRule(BATTERY_FIELDS[key]), ...needs(key)]]),
) as unknown as Readonly<Record<BatteryKey, readonly Rule[]>>;

/** Column of the flags, right of everything that is printed. */
export const BATTERY_FLAG_COLUMN = 19;

/** The flags of the inputs from one to another, as the fields follow one another. */
export function batteryFlags(first: BatteryKey, last: BatteryKey, name?: string): Reference {
  const row = (key: BatteryKey): number => BATTERY_FIELDS[key].cell.place.row;
  return areaReference(
    {
      sheet: SHEETS.battery,
      firstRow: row(first),
      lastRow: row(last),
      firstColumn: BATTERY_FLAG_COLUMN,
      lastColumn: BATTERY_FLAG_COLUMN,
    },
    name,
  );
}

/** An input of the battery as a term. */
export const batteryCell = (key: BatteryKey): Line => BATTERY_FIELDS[key].cell;
