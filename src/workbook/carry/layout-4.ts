import { columnLetters } from '../cell-address.js';
import { shapeOf } from '../sheets/shape.js';
import type { EarlierLayout, InputPlaces, LaidSheet } from './earlier-layout.js';
import { laidSheet } from './layout-2.js';
import { layout3 } from './layout-3.js';
import { LAYOUT_4_NAMES } from './layout-4-names.js';
import { movedPlaces, movedSheet, together } from './moved-parts.js';

/** Nothing of a sheet stands elsewhere. */
const ALL = 'A1:XFD1048576';

function sheets(layout: EarlierLayout): LaidSheet[] {
  const { days, monthRows, changes } = shapeOf(layout.days);
  const weeks = Math.floor(days / 7);
  const fours = Math.floor(weeks / 4);
  // Changes from one span of four weeks to the next; a row at least.
  const changed = Math.max(fours + 6, 8);
  /** A sheet of layout 3, so many columns further right. */
  const before = (sheet: string, columns = 0): LaidSheet => movedSheet(layout, sheet, columns);
  return [
    laidSheet('Answer', {
      ours: 'A1:A3 A5 A7:A15 A17:H26 A30 A67:C72 A74 A86:A88 B2:E15 B28 B30:B43 B74:C83 B85:B88 C30:H40 C86:P88 D67:P67 D74:P74 F1:F15 G1:H3 G5:H15 I1:K6 J30:P40 L1:P3 L5:P6',
      formulas:
        'A2:A3 A8:A15 A17 A19:B26 A30 B5:G15 B31 B35:B36 B39:B40 C18:E26 F19:F26 G18:H26 H6:H15 H31:H40 I5:I6 J30 J32:J40 L31:N39 O32:O39 P31:P39',
      stays: ALL,
      charts: 2,
    }),
    together(laidSheet('Tariffs', { ours: 'D3:I3', formulas: '', stays: ALL }), before('Tariffs')),
    together(
      laidSheet('Readings', { ours: '', formulas: '', stays: ALL, comments: 'A5' }),
      before('Readings'),
    ),
    together(laidSheet('When', { ours: '', formulas: '', stays: ALL }), before('When')),
    laidSheet('Battery', {
      ours: `A1:A3 B2:C2 B5:D20 B22:B${monthRows + 37} B${monthRows + 40}:E${monthRows + 64} C22:O32 C34:J34 C36:J${monthRows + 37} D1:D2 E2:M2 F5:L15 F17:L20 F${monthRows + 40}:I${monthRows + 40} F${monthRows + 42}:I${monthRows + 64} J${monthRows + 41} P22:R31 P${monthRows + 41}:R${monthRows + 41} S5:S20`,
      formulas: `A2 B24:B31 B33 B35 B37:B${monthRows + 36} C23:H31 C37:C${monthRows + 37} C${monthRows + 41} C${monthRows + 43}:D${monthRows + 43} D14 D18:D19 D36:D${monthRows + 37} E37:E${monthRows + 37} F36:F${monthRows + 37} F${monthRows + 43}:H${monthRows + 64} G37:G${monthRows + 37} H36:H${monthRows + 37} I24:L31 I37:I${monthRows + 37} I${monthRows + 44}:I${monthRows + 64} J36:J${monthRows + 37} J${monthRows + 41} M23:M31 N24:O31 P23 R${monthRows + 41} S6:S20`,
      stays: ALL,
      charts: 2,
    }),
    together(
      laidSheet('Heating', { ours: `B${monthRows + 63}:D${monthRows + 63}`, formulas: '', stays: ALL }),
      before('Heating'),
      before('Heating inputs', 20),
    ),
    together(
      laidSheet('Old boiler', {
        ours: 'D1 Z5:AC6 Z8:AC31 AL5:AM6 AL8:AM1107',
        formulas: 'Z8:AC31 AL8:AM1107',
        stays: ALL,
      }),
      before('Gas'),
      before('Temperatures', 30),
    ),
    together(laidSheet('Bills', { ours: '', formulas: '', stays: ALL }), before('Bills')),
    laidSheet('Timers', {
      ours: 'A1:A3 B2:C2 B5:B13 B16:B27 B29:B41 B43:M47 C5:C9 C13 C16:J25 C29:M38 D1:D2 D5:D12 E2:M2 E5:E13 G5:G14 H5:J5 K5:K13 K16:M16 L5 L9:L14 M6:M14 R5:R40 S30:U38 U5:U13 V6:V20 V31:X38 W6 Y17:AD25',
      formulas:
        'A2 B18:B25 B27 B31:B38 C17:H25 C30:F38 G31:H38 I18:I25 I30:L38 K6:K13 L9:L14 M6 M8 M31:M38 R6:R40 S31:X38 U6:U13 V6:V20 W6 Y17:Z17 AD18:AD25',
      stays: ALL,
    }),
    laidSheet('Checks', {
      ours: 'A1:A3 A5:E84 B3:D3 G4:G5 G32:N43 G60:N63 G84:N84 H5:N5',
      formulas: 'A3 B6:C84 E6:E84 G5:N5 G32:N43 G60:N63 G84:N84',
      stays: ALL,
    }),
    laidSheet('Notes', {
      ours: 'A1:A2 A4:B19 A21:C28 A30:C31 C6:C19 E40:E82 F42:I82',
      formulas: '',
      stays: ALL,
    }),
    laidSheet('Grid', {
      ours: `A1:A2 A5:T6 A8:T${50 * days + 7} U5:U${50 * days + 7} V5:V6 V8:V${50 * days + 7} W5:AD${50 * days + 7} AE5:AG6 AE8:AG${50 * days + 7}`,
      formulas: `C8:T${50 * days + 7} R6 U7:U${50 * days + 7} V8:V${50 * days + 7} W7:AD${50 * days + 7} AE8:AG${50 * days + 7}`,
      stays: 'A1:F1048576 AH1:XFD1048576',
    }),
    laidSheet('Days', {
      ours: `A1:A6 A8:O${days + 7} B3:B6 C3:D3 C5:O6 F3:M3 P5:W${days + 7} X5:Y6 X8:Y${days + 7} Z5:AH${days + 7} AI5:JJ6 AI8:JJ${days + 7} JK5:JK${days + 7} JL5:LG6 JL8:KH${days + 7} KI8:KQ${weeks + 7} KR8:LG${days + 7} MC1:MC6 MC8:MZ${days + 7} MD3:ME6 MF3:MH3 MF5:MZ6 NQ1:NQ2 NQ5:OG6 NQ8:NU${monthRows + 7} NV8:OB${48 * monthRows + 7} OC8:OF${192 * monthRows + 7} OG8:OG${monthRows + 7}`,
      formulas: `B3:B4 B8:O${days + 7} D3 F3:M3 P7:W${days + 7} X8:Y${days + 7} Z7:AH${days + 7} AI8:JJ${days + 7} BM6 BP6:BZ6 CB6 CE6 CH6:CI6 CL6:CM6 CR6:CT6 CY6:DB6 DD6 DG6 DI6:DV6 DX6 EA6 EC6:EP6 ER6 EU6 EW6:FJ6 FL6 FO6 FQ6:GD6 GF6 GI6 GK6:GX6 GZ6 HC6 HE6:HR6 HT6 HW6 HY6:IL6 IN6 IQ6 IS6:JG6 JI6 JK6:JK${days + 7} JL6 JL8:KH${days + 7} JN6:JO6 JR6:JT6 JW6:JY6 KA6:KB6 KF6:KH6 KI8:KQ${weeks + 7} KJ6:KQ6 KR8:LG${days + 7} KW6:KX6 LC6:LG6 MC8:MZ${days + 7} MD3:MD4 MG3 MX6:MY6 NR8:NU${monthRows + 7} NX8:OB${48 * monthRows + 7} OE8:OF${192 * monthRows + 7} OG8:OG${monthRows + 7}`,
      stays: 'A1:AQ1048576 LP1:XFD1048576',
    }),
    together(
      laidSheet('Months', {
        ours: `A1:A6 A8:OA${monthRows + 7} B3:B6 C5:OA6 C${monthRows + 9} F${monthRows + 9}:M${monthRows + 9} S${monthRows + 9} Y${monthRows + 9}:AA${monthRows + 9} AG${monthRows + 9}:AH${monthRows + 9} AN${monthRows + 9}:AR${monthRows + 9} AZ${monthRows + 9}:BG${monthRows + 9} BM${monthRows + 9} BS${monthRows + 9}:BU${monthRows + 9} CA${monthRows + 9}:CB${monthRows + 9} CH${monthRows + 9}:CL${monthRows + 9} CT${monthRows + 9}:DA${monthRows + 9} DG${monthRows + 9} DM${monthRows + 9}:DO${monthRows + 9} DU${monthRows + 9}:DV${monthRows + 9} EB${monthRows + 9}:EF${monthRows + 9} EN${monthRows + 9}:EU${monthRows + 9} FA${monthRows + 9} FG${monthRows + 9}:FI${monthRows + 9} FO${monthRows + 9}:FP${monthRows + 9} FV${monthRows + 9}:FZ${monthRows + 9} GH${monthRows + 9}:GO${monthRows + 9} GU${monthRows + 9} HA${monthRows + 9}:HC${monthRows + 9} HI${monthRows + 9}:HJ${monthRows + 9} HP${monthRows + 9}:HT${monthRows + 9} IB${monthRows + 9}:II${monthRows + 9} IO${monthRows + 9} IU${monthRows + 9}:IW${monthRows + 9} JC${monthRows + 9}:JD${monthRows + 9} JJ${monthRows + 9}:JN${monthRows + 9} JV${monthRows + 9}:KC${monthRows + 9} KI${monthRows + 9} KO${monthRows + 9}:KQ${monthRows + 9} KW${monthRows + 9}:KX${monthRows + 9} LD${monthRows + 9}:LH${monthRows + 9} LP${monthRows + 9}:LW${monthRows + 9} MC${monthRows + 9} MI${monthRows + 9}:MK${monthRows + 9} MQ${monthRows + 9}:MR${monthRows + 9} MX${monthRows + 9}:NB${monthRows + 9} NJ${monthRows + 9}:OA${monthRows + 9} TA1:TA2 TA5:${columnLetters(32 * monthRows + 706)}6 TA8:TA71 TB8:VF${monthRows + 11} VG8:${columnLetters(32 * monthRows + 706)}71`,
        formulas: `B3:B4 B8:OA${monthRows + 7} C${monthRows + 9} F${monthRows + 9}:M${monthRows + 9} M6:Z6 S${monthRows + 9} Y${monthRows + 9}:AA${monthRows + 9} AB6:AQ6 AG${monthRows + 9}:AH${monthRows + 9} AN${monthRows + 9}:AR${monthRows + 9} AS6:BT6 AZ${monthRows + 9}:BG${monthRows + 9} BM${monthRows + 9} BS${monthRows + 9}:BU${monthRows + 9} BV6:CK6 CA${monthRows + 9}:CB${monthRows + 9} CH${monthRows + 9}:CL${monthRows + 9} CM6:DN6 CT${monthRows + 9}:DA${monthRows + 9} DG${monthRows + 9} DM${monthRows + 9}:DO${monthRows + 9} DP6:EE6 DU${monthRows + 9}:DV${monthRows + 9} EB${monthRows + 9}:EF${monthRows + 9} EG6:FH6 EN${monthRows + 9}:EU${monthRows + 9} FA${monthRows + 9} FG${monthRows + 9}:FI${monthRows + 9} FJ6:FY6 FO${monthRows + 9}:FP${monthRows + 9} FV${monthRows + 9}:FZ${monthRows + 9} GA6:HB6 GH${monthRows + 9}:GO${monthRows + 9} GU${monthRows + 9} HA${monthRows + 9}:HC${monthRows + 9} HD6:HS6 HI${monthRows + 9}:HJ${monthRows + 9} HP${monthRows + 9}:HT${monthRows + 9} HU6:IV6 IB${monthRows + 9}:II${monthRows + 9} IO${monthRows + 9} IU${monthRows + 9}:IW${monthRows + 9} IX6:JM6 JC${monthRows + 9}:JD${monthRows + 9} JJ${monthRows + 9}:JN${monthRows + 9} JO6:KP6 JV${monthRows + 9}:KC${monthRows + 9} KI${monthRows + 9} KO${monthRows + 9}:KQ${monthRows + 9} KR6:LG6 KW${monthRows + 9}:KX${monthRows + 9} LD${monthRows + 9}:LH${monthRows + 9} LI6:MJ6 LP${monthRows + 9}:LW${monthRows + 9} MC${monthRows + 9} MI${monthRows + 9}:MK${monthRows + 9} ML6:NA6 MQ${monthRows + 9}:MR${monthRows + 9} MX${monthRows + 9}:NB${monthRows + 9} NC6:NP6 NJ${monthRows + 9}:OA${monthRows + 9} NS6:NV6 TC8:VF${monthRows + 11} VG8:${columnLetters(32 * monthRows + 706)}71`,
        stays: 'A1:SZ1048576',
      }),
      before('Heating months', 400),
    ),
    together(
      laidSheet('Rates', {
        ours: 'A168:J220 U34:W44 U46:W56 U58:W60',
        formulas: 'B169:B180 B191:B195 B211:B220 C168:J220 V34:V44 V46:V56 V58:V60',
        stays: ALL,
      }),
      before('Rates'),
      before('Battery figures', 20),
      before('Clock', 30),
    ),
    laidSheet('Rate grid', {
      ours: `A1:A2 A5:GS6 A8:E${50 * changes + 1937} F8:M343 N8:U${50 * changes + 1937} V1938:V${50 * changes + 1937} W8:AB${50 * changes + 57} AC8:AE${changes + 8} AF8:AG${50 * changes + 57} AH8:AJ${changes + 8} AK8:AK${50 * changes + 57} AL8:AL${50 * changes + 1937} AM8:AX${changes + 42} AY8:AY12 AZ8:BA457 BB8:BC327 BD8:BD19 BE8:BE${50 * changes + 1937} BF8:BH12 BI8:BJ457 BK8:BV327 BW8:BW${50 * changes + 1937} BX8:BZ12 CA8:CB457 CC8:CN327 CO8:CO${50 * changes + 1937} CP8:CR12 CS8:CT457 CU8:DF327 DG8:DG${50 * changes + 1937} DH8:DJ12 DK8:DL457 DM8:DX327 DY8:DY${50 * changes + 1937} DZ8:EB12 EC8:ED457 EE8:EP327 EQ8:EQ${50 * changes + 1937} ER8:ET12 EU8:EV457 EW8:FH327 FI8:FI${50 * changes + 1937} FJ8:FL12 FM8:FN457 FO8:FZ327 GA8:GA${50 * changes + 1937} GB8:GD12 GE8:GF457 GG8:GR327 GS8:GS${50 * changes + 1937} GT4:GT6 GT8:IS55 GU5:GV6 GW3:GX6 GY5:GY6 GZ3:HA6 HB5:HB6 HC3:HD6 HE5:HE6 HF3:HG6 HH5:HH6 HI3:HJ6 HK5:HK6 HL3:HM6 HN5:HN6 HO3:HP6 HQ5:HQ6 HR3:HS6 HT4:HT6 HU5:HV6 HW3:HX6 HY5:HY6 HZ3:IA6 IB5:IB6 IC3:ID6 IE5:IE6 IF3:IG6 IH5:IH6 II3:IJ6 IK5:IK6 IL3:IM6 IN5:IN6 IO3:IP6 IQ5:IQ6 IR3:IS6`,
      formulas: `A1938:A${50 * changes + 1937} E1938:E${50 * changes + 1937} F8:M343 N6:V6 N8:U${50 * changes + 1937} V1938:V${50 * changes + 1937} Y8:AB${50 * changes + 57} AD8:AE${changes + 8} AF8:AG${50 * changes + 57} AI8:AJ${changes + 8} AK8:AK${50 * changes + 57} AO43:AP${changes + 42} AQ6:AX6 AQ8:AX${changes + 42} BE8:BE${50 * changes + 1937} BF6 BF8:BH12 BI8:BJ457 BJ6 BK8:BV327 BW8:BW${50 * changes + 1937} BX6 BX8:BZ12 CA8:CB457 CB6 CC8:CN327 CO8:CO${50 * changes + 1937} CP6 CP8:CR12 CS8:CT457 CT6 CU8:DF327 DG8:DG${50 * changes + 1937} DH6 DH8:DJ12 DK8:DL457 DL6 DM8:DX327 DY8:DY${50 * changes + 1937} DZ6 DZ8:EB12 EC8:ED457 ED6 EE8:EP327 EQ8:EQ${50 * changes + 1937} ER6 ER8:ET12 EU8:EV457 EV6 EW8:FH327 FI8:FI${50 * changes + 1937} FJ6 FJ8:FL12 FM8:FN457 FN6 FO8:FZ327 GA8:GA${50 * changes + 1937} GB6 GB8:GD12 GE8:GF457 GF6 GG8:GR327 GS8:GS${50 * changes + 1937} GT4 GU6 GU8:HS55 GW3:GX4 GW6:GX6 GZ3:HA4 GZ6:HA6 HC3:HD4 HC6:HD6 HF3:HG4 HF6:HG6 HI3:HJ4 HI6:HJ6 HL3:HM4 HL6:HM6 HO3:HP4 HO6:HP6 HR3:HS4 HR6:HS6 HT4 HU6 HU8:IS55 HW3:HX4 HW6:HX6 HZ3:IA4 HZ6:IA6 IC3:ID4 IC6:ID6 IF3:IG4 IF6:IG6 II3:IJ4 II6:IJ6 IL3:IM4 IL6:IM6 IO3:IP4 IO6:IP6 IR3:IS4 IR6:IS6`,
      stays: ALL,
    }),
    together(
      laidSheet('Charts', {
        ours: `A1:A2 A5:A${monthRows + 7} A${monthRows + 9}:A${monthRows + 19} A${monthRows + 21}:A${monthRows + 95} B6:I${monthRows + 7} B${monthRows + 10}:C${monthRows + 19} B${monthRows + 22}:C${monthRows + 95} E${monthRows + 10}:E${monthRows + 19} J5:Q${monthRows + 7} R6:Z${monthRows + 7} AA6:AA${weeks + 7} AB6:AB${fours + 7} AC6:AC${changed} AO1:AO3 AO5:AW6 AO8:AU55 AV8:AW103 AY5:AY6 AY8:AY55 AZ3 AZ5:AZ55 BA5:BC6 BA8:BA56 BB8:BC55 BC3 BE1:BE4 BE7 BE9:BE10 BF1:BQ55 BS5:CD6 BS8:CD55 CF5:CU6 CF8:CU55 CW1:CW2 CW5:CW11 CW13:CW21 CW23:CW30 CW32:CW37 CW39:CW47 CW49:CW50 CW52:CY61 CW63:CW${monthRows + 66} CX6:CY11 CX14:CY21 CX24:DF30 CX33:CY37 CX40:DF47 CX50:CY50 CX64:CZ65 CX67:CZ${monthRows + 66} CY4:DF4 CZ33:DF36 DA64:DF${monthRows + 66} GS5:GS${monthRows + 7} GT6:GV${monthRows + 7} GW6:HL19 GW22:GX90 GY22:GY44 GY68:GY71 GY73:GY90 HM6:HT${monthRows + 7} HU6:IJ19 HU45:IB67 HU72:IB72`,
        formulas: `A8:A${monthRows + 7} A${monthRows + 11}:A${monthRows + 19} B6:I${monthRows + 7} B${monthRows + 10}:C${monthRows + 19} B${monthRows + 22}:B${monthRows + 95} C${monthRows + 29} C${monthRows + 32} C${monthRows + 34} C${monthRows + 36} C${monthRows + 39}:C${monthRows + 40} C${monthRows + 66} C${monthRows + 70}:C${monthRows + 73} C${monthRows + 78} C${monthRows + 81}:C${monthRows + 84} E${monthRows + 11}:E${monthRows + 19} J5:Q${monthRows + 7} R8:Y${monthRows + 7} Z7:Z${monthRows + 7} AA7:AA${weeks + 7} AB7:AB${fours + 7} AC8:AC${changed} AO8:AU55 AT6:AU6 AV8:AW103 AW6 AY8:AY55 AZ7:AZ55 BA8:BC55 BC3 BE9:BE10 BF1:BQ4 BF7:BQ55 BS8:CD55 CF8:CU55 CX26 CX28 CX30 CX43 CX55:CX56 CX67:CZ${monthRows + 66} CY6:CY11 CY14:CY21 CY24:DF30 CY33:CY37 CY40:DF47 CY50 CY52:CY61 CZ33:DF36 DA66:DC${monthRows + 66} DD65:DF${monthRows + 66} GS8:GV${monthRows + 7} GX47 GX51:GX52 GX54:GX65 GX72 GX74 GY22:GY44 GY68:GY71 GY73:GY90 HA8:HL19 HM7:HT${monthRows + 7} HU7:IJ19 HU45:IB67 HU72:IB72`,
        stays: ALL,
      }),
      before('Heating figures', 120),
    ),
  ];
}

const inputs = (before: InputPlaces): InputPlaces => ({
  ...before,
  home: [
    { sheet: 'Readings', cells: { timeZone: 'A5', largestHalfHourKwh: 'C5', batteryRan: 'F5' } },
    { sheet: 'Tariffs', cells: { vatShare: 'E3', currency: 'G3', minorUnit: 'I3' } },
  ],
  heating: {
    sheet: 'Heating',
    settings: movedPlaces(before.heating.settings, 20),
    tables: movedPlaces(before.heating.tables, 20),
  },
  timers: {
    sheet: 'Timers',
    cells: {
      car: { isOn: 'C6', from: 'C7', to: 'C8', powerKw: 'C9' },
      hotWater: { isOn: 'D6', from: 'D7', to: 'D8', powerKw: 'D9' },
      tank: { kwhPerDay: 'D10', from: 'D11', to: 'D12' },
      supply: { limitKw: 'C13' },
    },
  },
  gas: { ...before.gas, sheet: 'Old boiler' },
  temperatures: {
    ...before.temperatures,
    sheet: 'Old boiler',
    letters: { date: 'AE', meanC: 'AF', maxC: 'AG', minC: 'AH' },
  },
  told: {
    sheet: 'Notes',
    firstRow: 43,
    lastRow: 82,
    letters: { columns: 'E', kind: 'F', name: 'G', answer: 'H', toldFor: 'I' },
  },
});

/**
 * Layout 4: as many days as it was built for, eight tariffs. What had sheets of its own in layout 3 stands right of others;
 * the battery's levels have a block of columns for each month.
 *
 * @param days that the workbook holds
 */
export function layout4(days: number): EarlierLayout {
  const before = layout3(days);
  return { version: 4, days, sheets: sheets(before), names: LAYOUT_4_NAMES, inputs: inputs(before.inputs) };
}
