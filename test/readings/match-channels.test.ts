import { describe, expect, test } from 'vitest';
import { matchElectricityChannel } from '../../src/readings/match-channels.js';
import { unitIn } from '../../src/readings/units.js';

describe('headers and the channels that they name', () => {
  test.each([
    ['Import (kWh)', 'importKwh'],
    ['grid_import_kwh', 'importKwh'],
    ['gridImport', 'importKwh'],
    ['Consumption', 'importKwh'],
    ['Energy used [Wh]', 'importKwh'],
    ['Usage kWh', 'importKwh'],
    ['Export', 'exportKwh'],
    ['Feed-in (kWh)', 'exportKwh'],
    ['Returned to grid', 'exportKwh'],
    ['Solar generation', 'solarKwh'],
    ['PV', 'solarKwh'],
    ['Production (Wh)', 'solarKwh'],
    ['Battery charge', 'batteryInKwh'],
    ['Battery in (kWh)', 'batteryInKwh'],
    ['battery_discharge_kwh', 'batteryOutKwh'],
    ['Battery out', 'batteryOutKwh'],
    ['Heat pump', 'heatPumpKwh'],
    ['heatPumpElectricity', 'heatPumpKwh'],
    ['Heat output', 'heatOutputKwh'],
    ['Heat delivered (kWh)', 'heatOutputKwh'],
    ['Heat pump output', 'heatOutputKwh'],
    ['Car', 'carKwh'],
    ['EV charging', 'carKwh'],
    ['Charger (kWh)', 'carKwh'],
    ['Outdoor temperature', 'outdoorC'],
    ['Outside temp °C', 'outdoorC'],
    ['Price p/kWh', 'pricePence'],
    ['Unit rate', 'pricePence'],
  ])('%s: %s', (header, channel) => {
    expect(matchElectricityChannel(header)?.channel).toBe(channel);
  });

  test.each([
    'Cost (p)',
    'Estimated cost of import',
    'Standing charge',
    'Meter serial',
    'Battery',
    'Flow temperature',
    'Room temp',
    'House load',
    'Remark',
  ])('%s: none', (header) => {
    expect(matchElectricityChannel(header)).toBeUndefined();
  });
});

describe('headers and the units that they state', () => {
  test.each([
    ['Import (kWh)', 'kWh'],
    ['importKwh', 'kWh'],
    ['import_wh', 'Wh'],
    ['importWh', 'Wh'],
    ['Energy [Wh]', 'Wh'],
    ['MWh', 'MWh'],
    ['Power kW', 'kW'],
    ['powerKW', 'kW'],
    ['Load (W)', 'W'],
    ['Average watts', 'W'],
    ['Temp °C', 'degC'],
    ['Temperature (F)', 'degF'],
    ['deg C', 'degC'],
    ['p/kWh', 'p/kWh'],
    ['pence per kWh', 'p/kWh'],
    ['Price (£/kWh)', 'GBP/kWh'],
    ['EUR/MWh', 'GBP/MWh'],
    ['Gas m³', 'm3'],
    ['Gas (ft3)', 'ft3'],
    ['hundred cubic feet', '100ft3'],
  ])('%s: %s', (header, unit) => {
    expect(unitIn(header)?.name).toBe(unit);
  });

  test.each(['Import', 'Consumption', 'Heat delivered', 'New', 'Flow'])('%s: none', (header) => {
    expect(unitIn(header)).toBeUndefined();
  });
});
