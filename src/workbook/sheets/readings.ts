import { CHANNELS, type Channel } from '../../readings/channels.js';
import { SheetBuilder } from '../book/sheet-builder.js';
import type { Column } from '../book/terms.js';
import type { StyleName } from '../look/styles.js';
import type { Shape } from './shape.js';
import { WORKING_SHEETS } from './sheet-names.js';

/** Where half-hours are pasted or filled in, in any order. */
export interface ReadingsSheet {
  sheet: SheetBuilder;
  start: Column;
  offset: Column;
  channels: Record<Channel, Column>;
  mark: Column;
}

/** A criterion that every number meets: of cells of import, or of *used by the home*, those of half-hours that were metered. */
export const WHERE_METERED = '>-1E+300';

const CHANNEL_TEXT: Record<Channel, readonly [label: string, unit: string, style: StyleName, name: string]> =
  {
    importKwh: ['Import', 'kWh', 'inputKwh', 'read_import'],
    exportKwh: ['Export', 'kWh', 'inputKwh', 'read_export'],
    solarKwh: ['Solar', 'kWh', 'inputKwh', 'read_solar'],
    batteryInKwh: ['Battery in', 'kWh', 'inputKwh', 'read_battery_in'],
    batteryOutKwh: ['Battery out', 'kWh', 'inputKwh', 'read_battery_out'],
    heatPumpKwh: ['Heat pump', 'kWh', 'inputKwh', 'read_heat_pump'],
    heatOutputKwh: ['Heat output', 'kWh', 'inputKwh', 'read_heat_output'],
    carKwh: ['Car', 'kWh', 'inputKwh', 'read_car'],
    outdoorC: ['Outdoor', '°C', 'inputNumber', 'read_outdoor'],
    pricePence: ['Half-hourly price', '{minor}/kWh', 'inputRate', 'read_price'],
  };

export function readingsSheet(shape: Shape): ReadingsSheet {
  const sheet = new SheetBuilder(WORKING_SHEETS.readings);
  const input = (label: string, unit: string, style: StyleName, name: string): Column =>
    sheet.column({ label, unit, description: '', style, rows: shape.readingRows, name });
  const start = input('Start of half-hour', 'local date and time', 'inputDateTime', 'read_start');
  const offset = input('Clock offset', 'h from UTC, may stay blank', 'inputOffset', 'read_offset');
  const channels = Object.fromEntries(
    CHANNELS.map((channel) => [channel, input(...CHANNEL_TEXT[channel])]),
  ) as Record<Channel, Column>;
  const mark = input('Mark', 'E estimated', 'inputChoice', 'read_mark');
  return { sheet, start, offset, channels, mark };
}
