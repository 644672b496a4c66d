import { columnLetters } from '../cell-address.js';
import { shapeOf } from '../sheets/shape.js';
import type { EarlierLayout, InputPlaces, LaidSheet } from './earlier-layout.js';
import { LAYOUT_2, laidSheet, rows, tariffPlaces } from './layout-2.js';
import { LAYOUT_3_NAMES } from './layout-3-names.js';

function sheets(held: number): LaidSheet[] {
  const { days, monthRows, changes } = shapeOf(held);
  const weeks = Math.floor(days / 7);
  const fours = Math.floor(weeks / 4);
  // Changes from one span of four weeks to the next; a row at least.
  const changed = Math.max(fours + 6, 8);
  return [
    laidSheet('Start', {
      ours: 'A1:A2 A4:C8 A10 A23:C25 B10:C19 C21',
      formulas: '',
      stays: '',
    }),
    laidSheet('Answer', {
      ours: 'A1:A3 A5 A7:A15 A17:H26 A30 B2:F15 B28 B30:B43 C30:H40 G2:H3 G5:H15 I1:K6 L1:P3 L5:P6 R7:R15',
      formulas:
        'A2:A3 A8:A15 A17 A19:B26 A30 B5:G15 B31 B35:B36 B39:B40 C18:E26 F19:F26 G18:H26 H6:H15 H31:H40 I5:I6 R8:R15',
      stays: 'A2:H15 R8:R15',
      charts: 2,
    }),
    laidSheet('Tariffs', {
      ours: 'A1:A19 A21:A39 A41 A43:J49 A51:A59 A61:A69 A71:A79 A81:A89 A91:A102 B1 B3:C3 B5:J19 B22:J26 B28:J39 B52:B59 B62:B69 B72:B79 B82:B89 B92:C102 C41:J41 C51:J59 C61:J69 C71:J79 C81:J89 D93:J98 D100:J102 L3:L5 L22:S26 L28:S39 L43:S49 L52:S59 L62:S69 L72:S79 L82:S89 M4:S5',
      formulas:
        'A2 A13:A14 A18:B19 B6:B7 B9:B12 B16 B25 B43:B49 B53:B59 B63:B69 B73:B79 B83:B89 B93:B95 B101:B102 C6:J19 C41:J41 C51:J51 C61:J61 C71:J71 C81:J81 C92:C102 D93:J98 D100:J102 L5:S5 L22:S26 L28:S39 L43:S49 L52:S59 L62:S69 L72:S79 L82:S89',
      stays: 'A1:C4 A5:J102',
      comments: 'C23:J24 C26:J26 C29:J29 C43:J43 C49:J49',
    }),
    laidSheet('Bills', {
      ours: 'A1:A3 A6 A8:A33 B3:B5 B7:B33 C3:D3 C8:H33 E3:F5 G3:H3 I7:I33 J8:Z33 AA1:AA33 AB3:AB6 AB8:CM33 CQ7:CQ8 CQ10:DC33 CR8:DC8',
      formulas:
        'A3 E9 F5 F9:G33 H10:H33 L9:O9 Q9 S9 AA1:AA6 AA10:AK33 AL9:AT33 AU10:AU33 AV9:AV33 AW10:AZ33 BA9:BB33 BC10:BD33 BE9:BN33 BO10:BY33 BZ9:BZ33 CA10:CM33 CQ10:DC33',
      stays: 'A1:Z33',
    }),
    laidSheet('Home', {
      ours: 'A1:A2 B3:B9 B12:B13 B15:F55 C4:E9',
      formulas: '',
      stays: '',
      comments: 'C4',
    }),
    laidSheet('When', {
      ours: 'A1:A3 A6:A30 B3:AB3 B5:N30 P5:AB30',
      formulas: 'A3 B6:M30 N7:N30 P6:AA30 AB7:AB30',
      stays: 'A1:AB30',
      charts: 1,
    }),
    laidSheet('Battery', {
      ours: `A1:A3 B2:C2 B5:D20 B22:B32 B34:B${monthRows + 37} B${monthRows + 40}:B${monthRows + 64} C22:R31 C34:J34 C36:J${monthRows + 37} C${monthRows + 40}:E${monthRows + 41} C${monthRows + 43}:I${monthRows + 64} D1:D2 E2:M2 F5:L15 F17:L20 F${monthRows + 40} G${monthRows + 40}:I${monthRows + 41} S5:S20`,
      formulas: `A2 B24:B31 B35 B37:B${monthRows + 36} C23:H31 C37:C${monthRows + 37} C${monthRows + 41} C${monthRows + 43}:D${monthRows + 43} D14 D18:D19 D36:D${monthRows + 37} E37:E${monthRows + 37} F36:F${monthRows + 37} F${monthRows + 43}:H${monthRows + 64} G37:G${monthRows + 37} H36:H${monthRows + 37} I24:L31 I37:I${monthRows + 37} I${monthRows + 41} I${monthRows + 44}:I${monthRows + 64} J36:J${monthRows + 37} M23:M31 N24:O31 P23 S6:S20`,
      stays: 'A1:S31',
      charts: 2,
    }),
    laidSheet('Heating', {
      ours: `A1:A12 A14:A${monthRows + 30} A${monthRows + 33}:A${monthRows + 46} A${monthRows + 49}:A${monthRows + 58} A${monthRows + 62}:A${monthRows + 80} A${monthRows + 84}:A${monthRows + 87} B2:K2 B7:B12 B14:B24 B27:D${monthRows + 30} B${monthRows + 33}:C${monthRows + 37} B${monthRows + 39}:C${monthRows + 45} B${monthRows + 50}:B${monthRows + 58} B${monthRows + 62}:D${monthRows + 62} B${monthRows + 64}:D${monthRows + 80} B${monthRows + 85}:N${monthRows + 87} C7:C10 C12 C16:C22 C24 C${monthRows + 50} C${monthRows + 52} C${monthRows + 54}:D${monthRows + 54} C${monthRows + 56}:D${monthRows + 56} C${monthRows + 58}:D${monthRows + 58} E27:E${monthRows + 32} F27:O${monthRows + 30} F${monthRows + 62}:F${monthRows + 69} G${monthRows + 62}:H${monthRows + 67} I6 I${monthRows + 62}:L${monthRows + 65} K${monthRows + 67}:L${monthRows + 67} L1:L2 M2 M${monthRows + 62}:N${monthRows + 66} N1:N2 P27:Q${monthRows + 29} S4:S15 S18:S26 S${monthRows + 63}:S${monthRows + 71} S${monthRows + 73}:S${monthRows + 82}`,
      formulas: `A2:A5 A8:A11 A25:A26 A30:A${monthRows + 29} A${monthRows + 34}:A${monthRows + 38} A${monthRows + 46} A${monthRows + 49} B8:B12 B14:B24 B30:D${monthRows + 30} B${monthRows + 34}:C${monthRows + 37} B${monthRows + 39}:B${monthRows + 45} B${monthRows + 51}:B${monthRows + 58} B${monthRows + 64}:B${monthRows + 80} C8:C10 C12 C21:C22 C${monthRows + 43}:C${monthRows + 44} C${monthRows + 54}:D${monthRows + 54} C${monthRows + 56}:D${monthRows + 56} C${monthRows + 58}:D${monthRows + 58} C${monthRows + 62}:D${monthRows + 62} C${monthRows + 69}:C${monthRows + 80} D${monthRows + 64}:D${monthRows + 80} E30:E${monthRows + 32} F30:F${monthRows + 29} G29:L${monthRows + 30} I${monthRows + 63}:J${monthRows + 65} K${monthRows + 62}:L${monthRows + 65} K${monthRows + 67}:L${monthRows + 67} M30:M${monthRows + 30} M${monthRows + 62}:N${monthRows + 66} N29:N${monthRows + 30} O30:O${monthRows + 30} P30:Q${monthRows + 29} S5:S15 S18:S26 S${monthRows + 63}:S${monthRows + 71} S${monthRows + 73}:S${monthRows + 82}`,
      stays: 'A1:S26',
      charts: 2,
    }),
    laidSheet('Heating inputs', {
      ours: 'A1:A2 B4:E7 B9:E17 B19:E26 B28:E33 B35:E40 B42:E45 B47:E51 B53:E58 G4:J14 G16:H33 I16:J35 L1:L3 L5:L7 L10:L17 L20:L26 L29:L33 L36:L40 L43:L45 L48:L51 L54:L58 M2:P3 M7:M14 N19:N33 O19:O35 P7:P14',
      formulas:
        'D7 D11:D12 D23 D26 D45 D49:D50 H6:J6 L3:P3 L5:L7 L10:L17 L20:L26 L29:L33 L36:L40 L43:L45 L48:L51 L54:L58 M7:M14 N19:N33 O19:O35 P7:P14',
      stays: '',
      comments: 'C10 C12 C21 C26 C29',
    }),
    laidSheet('Gas', {
      nowCalled: 'Old boiler',
      ours: 'A1:A6 A8:Y31 B5:Y6',
      formulas: 'H8:Y31',
      stays: 'A5:Y31',
    }),
    laidSheet('Temperatures', {
      ours: 'A1:D6 A8:G1107 E5:G6',
      formulas: 'E8:G1107',
      stays: '',
    }),
    laidSheet('Readings', {
      ours: `A1:M${48 * days + 9}`,
      formulas: 'L7',
      stays: 'A6:M1048576',
    }),
    laidSheet('Checks', {
      ours: 'A1:A3 A5:E80 B3:D3 G4:G5 G32:N43 G57:N60 G80:N80 H5:N5',
      formulas: 'A3 B6:C80 E6:E80 G5:N5 G32:N43 G57:N60 G80:N80',
      stays: 'A1:D3',
    }),
    laidSheet('Rates', {
      ours: 'A1:A2 A4:J167 K91:K118',
      formulas: 'B8:B62 B153:B167 C4:J167',
      stays: '',
    }),
    laidSheet('Rate grid', {
      ours: `A1:A2 A5:FN6 A8:E${50 * changes + 1937} F8:M343 N8:U${50 * changes + 1937} V1938:V${50 * changes + 1937} W8:W${50 * changes + 1937} X8:AI${changes + 42} AJ8:AJ12 AK8:AL457 AM8:AN327 AO8:AO19 AP8:AP${50 * changes + 1937} AQ8:AS12 AT8:AU457 AV8:BE327 BF8:BF${50 * changes + 1937} BG8:BI12 BJ8:BK457 BL8:BU327 BV8:BV${50 * changes + 1937} BW8:BY12 BZ8:CA457 CB8:CK327 CL8:CL${50 * changes + 1937} CM8:CO12 CP8:CQ457 CR8:DA327 DB8:DB${50 * changes + 1937} DC8:DE12 DF8:DG457 DH8:DQ327 DR8:DR${50 * changes + 1937} DS8:DU12 DV8:DW457 DX8:EG327 EH8:EH${50 * changes + 1937} EI8:EK12 EL8:EM457 EN8:EW327 EX8:EX${50 * changes + 1937} EY8:FA12 FB8:FC457 FD8:FM327 FN8:FN${50 * changes + 1937}`,
      formulas: `A1938:A${50 * changes + 1937} E1938:E${50 * changes + 1937} F8:M343 N6:V6 N8:U${50 * changes + 1937} V1938:V${50 * changes + 1937} Z43:AA${changes + 42} AB6:AI6 AB8:AI${changes + 42} AP8:AP${50 * changes + 1937} AQ6 AQ8:AS12 AT8:AU457 AU6 AV8:BE327 BF8:BF${50 * changes + 1937} BG6 BG8:BI12 BJ8:BK457 BK6 BL8:BU327 BV8:BV${50 * changes + 1937} BW6 BW8:BY12 BZ8:CA457 CA6 CB8:CK327 CL8:CL${50 * changes + 1937} CM6 CM8:CO12 CP8:CQ457 CQ6 CR8:DA327 DB8:DB${50 * changes + 1937} DC6 DC8:DE12 DF8:DG457 DG6 DH8:DQ327 DR8:DR${50 * changes + 1937} DS6 DS8:DU12 DV8:DW457 DW6 DX8:EG327 EH8:EH${50 * changes + 1937} EI6 EI8:EK12 EL8:EM457 EM6 EN8:EW327 EX8:EX${50 * changes + 1937} EY6 EY8:FA12 FB8:FC457 FC6 FD8:FM327 FN8:FN${50 * changes + 1937}`,
      stays: '',
    }),
    laidSheet('Battery figures', {
      ours: 'A1:A2 A4:C20 A27:C30',
      formulas: 'B4:B20 B27:B30 C12 C19',
      stays: '',
    }),
    laidSheet('Average days', {
      ours: `A1:A2 A5:O6 A8:E${monthRows + 7} F8:J${48 * monthRows + 7} K8:N${192 * monthRows + 7} O8:O${monthRows + 7}`,
      formulas: `B8:E${monthRows + 7} H8:J${48 * monthRows + 7} M8:N${192 * monthRows + 7} O8:O${monthRows + 7}`,
      stays: '',
    }),
    laidSheet('Battery levels', {
      ours: `A1:A2 A5:${columnLetters(16 * monthRows + 114)}6 A8:A71 B8:AX${monthRows + 11} AY8:${columnLetters(16 * monthRows + 114)}71`,
      formulas: `C8:AX${monthRows + 11} AY8:${columnLetters(16 * monthRows + 114)}71`,
      stays: '',
    }),
    laidSheet('Days', {
      ours: `A1:A6 A8:DV${days + 7} B3:B6 C3:D3 C5:DV6 F3:M3 DW5:DW${days + 7} DX5:FO6 DX8:EP${days + 7} EQ8:EY${weeks + 7} EZ8:FO${days + 7}`,
      formulas: `B3:B4 B8:DV${days + 7} D3 F3:M3 AQ6 AT6:BD6 BF6:BG6 BI6 BL6 BN6:BO6 BQ6 BT6 BV6:BW6 BY6 CB6 CD6:CE6 CG6 CJ6 CL6:CM6 CO6 CR6 CT6:CU6 CW6 CZ6 DB6:DC6 DE6 DH6 DJ6:DK6 DM6 DP6 DR6:DS6 DU6 DW6:DW${days + 7} DX6 DX8:EP${days + 7} DZ6 EC6:ED6 EG6:EH6 EJ6:EK6 EO6:EP6 EQ8:EY${weeks + 7} ER6:EY6 EZ8:FO${days + 7} FE6:FF6 FK6:FO6`,
      stays: '',
    }),
    laidSheet('Grid', {
      ours: `A1:A2 A5:N6 A8:N${50 * days + 7} O5:W${50 * days + 7} X5:Z6 X8:Z${50 * days + 7}`,
      formulas: `C8:N${50 * days + 7} M6 O7:W${50 * days + 7} X8:Z${50 * days + 7}`,
      stays: '',
    }),
    laidSheet('Months', {
      ours: `A1:A6 A8:JO${monthRows + 7} B3:B6 C5:JO6 C${monthRows + 9} F${monthRows + 9}:M${monthRows + 9} S${monthRows + 9} Y${monthRows + 9}:AA${monthRows + 9} AG${monthRows + 9}:AH${monthRows + 9} AN${monthRows + 9}:AS${monthRows + 9} AY${monthRows + 9} BE${monthRows + 9}:BG${monthRows + 9} BM${monthRows + 9}:BN${monthRows + 9} BT${monthRows + 9}:BY${monthRows + 9} CE${monthRows + 9} CK${monthRows + 9}:CM${monthRows + 9} CS${monthRows + 9}:CT${monthRows + 9} CZ${monthRows + 9}:DE${monthRows + 9} DK${monthRows + 9} DQ${monthRows + 9}:DS${monthRows + 9} DY${monthRows + 9}:DZ${monthRows + 9} EF${monthRows + 9}:EK${monthRows + 9} EQ${monthRows + 9} EW${monthRows + 9}:EY${monthRows + 9} FE${monthRows + 9}:FF${monthRows + 9} FL${monthRows + 9}:FQ${monthRows + 9} FW${monthRows + 9} GC${monthRows + 9}:GE${monthRows + 9} GK${monthRows + 9}:GL${monthRows + 9} GR${monthRows + 9}:GW${monthRows + 9} HC${monthRows + 9} HI${monthRows + 9}:HK${monthRows + 9} HQ${monthRows + 9}:HR${monthRows + 9} HX${monthRows + 9}:IC${monthRows + 9} II${monthRows + 9} IO${monthRows + 9}:IQ${monthRows + 9} IW${monthRows + 9}:IX${monthRows + 9} JD${monthRows + 9}:JO${monthRows + 9}`,
      formulas: `B3:B4 B8:JO${monthRows + 7} C${monthRows + 9} F${monthRows + 9}:M${monthRows + 9} M6:Z6 S${monthRows + 9} Y${monthRows + 9}:AA${monthRows + 9} AB6:AQ6 AG${monthRows + 9}:AH${monthRows + 9} AN${monthRows + 9}:AS${monthRows + 9} AS6:BF6 AY${monthRows + 9} BE${monthRows + 9}:BG${monthRows + 9} BH6:BW6 BM${monthRows + 9}:BN${monthRows + 9} BT${monthRows + 9}:BY${monthRows + 9} BY6:CL6 CE${monthRows + 9} CK${monthRows + 9}:CM${monthRows + 9} CN6:DC6 CS${monthRows + 9}:CT${monthRows + 9} CZ${monthRows + 9}:DE${monthRows + 9} DE6:DR6 DK${monthRows + 9} DQ${monthRows + 9}:DS${monthRows + 9} DT6:EI6 DY${monthRows + 9}:DZ${monthRows + 9} EF${monthRows + 9}:EK${monthRows + 9} EK6:EX6 EQ${monthRows + 9} EW${monthRows + 9}:EY${monthRows + 9} EZ6:FO6 FE${monthRows + 9}:FF${monthRows + 9} FL${monthRows + 9}:FQ${monthRows + 9} FQ6:GD6 FW${monthRows + 9} GC${monthRows + 9}:GE${monthRows + 9} GF6:GU6 GK${monthRows + 9}:GL${monthRows + 9} GR${monthRows + 9}:GW${monthRows + 9} GW6:HJ6 HC${monthRows + 9} HI${monthRows + 9}:HK${monthRows + 9} HL6:IA6 HQ${monthRows + 9}:HR${monthRows + 9} HX${monthRows + 9}:IC${monthRows + 9} IC6:IP6 II${monthRows + 9} IO${monthRows + 9}:IQ${monthRows + 9} IR6:JG6 IW${monthRows + 9}:IX${monthRows + 9} JD${monthRows + 9}:JO${monthRows + 9} JK6:JN6`,
      stays: '',
    }),
    laidSheet('Battery span', {
      ours: `A1:A2 A5:A11 A13:A21 A23:A30 A32:A37 A39:A47 A49:A50 A54:C61 A63:A${monthRows + 66} B6:C11 B14:C21 B24:J30 B33:C37 B40:J47 B50:C50 B64:D65 B67:D${monthRows + 66} C4:J4 D33:J36 E64:J${monthRows + 66}`,
      formulas: `B26 B28 B30 B43 B57:B58 B67:D${monthRows + 66} C6:C11 C14:C21 C24:J30 C33:C37 C40:J47 C50 C54:C61 D33:J36 E66:G${monthRows + 66} H65:J${monthRows + 66}`,
      stays: '',
    }),
    laidSheet('Profile', {
      ours: 'A1:A3 A5:F6 A8:F55 H5:I6 H8:I103 K5:K6 K8:K55 L3 L5:L55 M5:O6 M8:M56 N8:O55 O3 Q1:Q4 Q7 Q9:Q10 R1:AC55 AE5:AP6 AE8:AP55 AR4:AU6 AR8:AU55',
      formulas:
        'A8:F55 F6 H8:I103 I6 K8:K55 L7:L55 M8:O55 O3 Q9:Q10 R1:AC4 R7:AC55 AE8:AP55 AR4:AU4 AR8:AU55',
      stays: '',
    }),
    laidSheet('Heating figures', {
      ours: 'A1:A2 B4:C44 B46:E62 B64:C118 B120:C175 B177:E210 B212:E214 D4 D6:D10 D12:D15 D17 D19:D20 D22:D23 D25:D44 D64:D105 D113:D118 D120:D138 D142:D149 D151:D173 E4:E44 E64:E118 E120:E175',
      formulas:
        'C5:C44 C47:C62 C65:C118 C121:C175 C178:C210 C213:C214 D7 D9:D10 D19 D22 D35 D37:D38 D75:D79 D82:D84 D86:D87 D90:D91 D93:D98 D103:D105 D113:D118 D135:D136 D144:D148 D154:D156 D158:D171',
      stays: '',
    }),
    laidSheet('Heating months', {
      ours: `A1:A2 A5:CS6 A8:CS${monthRows + 7}`,
      formulas: `A8:CS${monthRows + 7} M6:T6 Y6:AA6 AC6 AF6:AK6 AM6:AR6 AV6 AX6:AZ6 BB6:BE6 BG6:BK6 CC6 CL6:CN6 CP6 CS6`,
      stays: '',
    }),
    laidSheet('Heating days', {
      ours: `A1:A6 A8:Y${days + 7} B3:C6 D3:F3 D5:Y6`,
      formulas: `A8:Y${days + 7} B3:B4 E3 W6:X6`,
      stays: '',
    }),
    laidSheet('Chart data', {
      ours: `A1:A2 A5:A${monthRows + 7} A${monthRows + 9}:A${monthRows + 19} A${monthRows + 21}:A${monthRows + 92} B6:I${monthRows + 7} B${monthRows + 10}:C${monthRows + 19} B${monthRows + 22}:C${monthRows + 92} E${monthRows + 10}:E${monthRows + 19} J5:Q${monthRows + 7} R6:Z${monthRows + 7} AA6:AA${weeks + 7} AB6:AB${fours + 7} AC6:AC${changed}`,
      formulas: `A8:A${monthRows + 7} A${monthRows + 11}:A${monthRows + 19} B6:I${monthRows + 7} B${monthRows + 10}:C${monthRows + 19} B${monthRows + 22}:B${monthRows + 92} C${monthRows + 29} C${monthRows + 32} C${monthRows + 34} C${monthRows + 36} C${monthRows + 39}:C${monthRows + 40} C${monthRows + 65} C${monthRows + 69}:C${monthRows + 72} C${monthRows + 77} C${monthRows + 80}:C${monthRows + 83} E${monthRows + 11}:E${monthRows + 19} J5:Q${monthRows + 7} R8:Y${monthRows + 7} Z7:Z${monthRows + 7} AA7:AA${weeks + 7} AB7:AB${fours + 7} AC8:AC${changed}`,
      stays: '',
    }),
    laidSheet('Clock', {
      ours: 'A1:E47',
      formulas: 'B4',
      stays: '',
    }),
    laidSheet('Notes', {
      ours: 'A1:A2 A4:B16 A18:C22 A24:C25 C6:C16',
      formulas: '',
      stays: 'A4:B5',
    }),
  ];
}

const bill = (row: number) => ({
  from: `B${row}`,
  to: `C${row}`,
  tariff: `D${row}`,
  total: `E${row}`,
  lines: [
    { kwh: `I${row}`, rate: `L${row}`, opening: `U${row}`, closing: `V${row}` },
    { kwh: `J${row}`, rate: `M${row}`, opening: `W${row}`, closing: `X${row}` },
    { kwh: `K${row}`, rate: `N${row}`, opening: `Y${row}`, closing: `Z${row}` },
  ],
  standing: `O${row}`,
  days: `P${row}`,
  vat: `Q${row}`,
  exportKwh: `R${row}`,
  exportRate: `S${row}`,
  reads: `T${row}`,
});

const INPUTS: InputPlaces = {
  ...LAYOUT_2.inputs,
  period: { sheet: 'Answer', cells: { fromMonth: 'C4', toMonth: 'E4', ratesUsed: 'J4' } },
  tariffs: {
    sheet: 'Tariffs',
    todays: 'C3',
    columns: [...'CDEFGHIJ'].map((letters) => ({
      ...tariffPlaces(letters),
      priceIncludesVat: `${letters}26`,
    })),
  },
  heating: {
    ...LAYOUT_2.inputs.heating,
    settings: {
      ...LAYOUT_2.inputs.heating.settings,
      boilerElectricityKwhPerDay: 'C48',
      boilerServicingPoundsPerYear: 'C49',
      heatPumpServicingPoundsPerYear: 'C50',
      roomsWarmerC: 'C51',
      leastEfficiency: 'C54',
      mostEfficiency: 'C55',
      leastHotWaterKwhPerDay: 'C56',
      mostHotWaterKwhPerDay: 'C57',
      baseEitherWayC: 'C58',
    },
  },
  bills: {
    sheet: 'Bills',
    cells: { settings: { rounding: 'E4', agreesWithin: 'E5' }, rows: rows(10, 24, bill) },
  },
  told: {
    sheet: 'Home',
    firstRow: 16,
    lastRow: 55,
    letters: { columns: 'B', kind: 'C', name: 'D', answer: 'E', toldFor: 'F' },
  },
};

/**
 * Layout 3: as many days as it was built for, eight tariffs. Its facts of the home, its inputs of heating, its gas and its
 * temperatures have sheets of their own, and so has each part of the workings.
 *
 * @param days that the workbook holds
 */
export function layout3(days: number): EarlierLayout {
  return { version: 3, days, sheets: sheets(days), names: LAYOUT_3_NAMES, inputs: INPUTS };
}
