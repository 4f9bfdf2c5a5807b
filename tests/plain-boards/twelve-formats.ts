/**
 * Twelve formats that boards print out of the box, with the expected reading of each. The lines are invented, in forms
 * that are common practice (no source): the program has no special case for any of them.
 */
import type { ColumnUnit } from '../../shared/contract/ucum-units.ts';

export interface PrintedFormat {
  name: string;
  lines: readonly string[];
  layout: 'columns' | 'labelled' | 'json';
  /** Name, unit (none where it is not printed), and where it was found. */
  columns: readonly (readonly [string, ColumnUnit | undefined, 'number' | 'heading' | 'nowhere'])[];
  clock?: 's' | 'ms';
  /** The last scan in °C, kg, Pa or plain numbers, where a person chooses °C for columns without a unit. */
  last: readonly number[];
}

export const twelveFormats: readonly PrintedFormat[] = [
  {
    name: 'columns under headings with units',
    lines: ['millis,Pot (F),Flue (C)', '1000,74.3,180.2', '2000,74.5,181.0', '3000,74.6,181.5', '4000,74.8,182'],
    layout: 'columns',
    clock: 'ms',
    columns: [
      ['Pot (F)', '[degF]', 'heading'],
      ['Flue (C)', 'Cel', 'heading'],
    ],
    last: [((74.8 - 32) * 5) / 9, 182],
  },
  {
    name: 'numbers alone, between tabs, the first probe unplugged now and then',
    lines: ['20.50\t30.25', '\t30.31', '20.56\t30.38', '\t30.44', '20.63\t30.50'],
    layout: 'columns',
    columns: [
      ['Column 1', undefined, 'nowhere'],
      ['Column 2', undefined, 'nowhere'],
    ],
    last: [20.63, 30.5],
  },
  {
    name: 'one value a line under labels that are units',
    lines: ['C = 23.5', 'F = 74.3', 'C = 23.6', 'F = 74.48', 'C = 23.7', 'F = 74.66'],
    layout: 'labelled',
    columns: [
      ['C', 'Cel', 'heading'],
      ['F', '[degF]', 'heading'],
    ],
    last: [23.7, 23.7],
  },
  {
    name: 'a sentence of labels with units behind the numbers',
    lines: ['Temperature: 23.50 *C, Humidity: 45.2 %', 'Temperature: 23.60 *C, Humidity: 45.1 %'],
    layout: 'labelled',
    columns: [
      ['Temperature', 'Cel', 'number'],
      ['Humidity', '%', 'number'],
    ],
    last: [23.6, 45.1],
  },
  {
    name: 'labels in any order',
    lines: ['pot=20.5 flue=180.0 body=60', 'flue=181.5 body=60.5 pot=20.6', 'body=61 pot=20.7 flue=183'],
    layout: 'labelled',
    columns: [
      ['pot', undefined, 'nowhere'],
      ['flue', undefined, 'nowhere'],
      ['body', undefined, 'nowhere'],
    ],
    last: [20.7, 183, 61],
  },
  {
    name: 'a JSON object a line, with numbers that JSON does not have',
    lines: [
      '{"uptime_ms":1000,"pot":{"low":20.5,"high":21.5},"flue_f":356,"mass":{"value":12.34,"unit":"kg"}}',
      '{"uptime_ms":2000,"pot":{"low":nan,"high":21.6},"flue_f":357,"mass":{"value":12.33,"unit":"kg"}}',
      '{"uptime_ms":3000,"flue_f":359.6,"pot":{"high":21.7,"low":20.7},"mass":{"unit":"kg","value":12.32}}',
    ],
    layout: 'json',
    clock: 'ms',
    columns: [
      ['pot.low', undefined, 'nowhere'],
      ['pot.high', undefined, 'nowhere'],
      ['flue_f', '[degF]', 'heading'],
      ['mass.value', 'kg', 'number'],
    ],
    last: [20.7, 21.7, 182, 12.32],
  },
  {
    name: 'a JSON array a line',
    lines: ['[20.5, 180.2]', '[null, 181.2]', '[20.7, 182.2]'],
    layout: 'json',
    columns: [
      ['[0]', undefined, 'nowhere'],
      ['[1]', undefined, 'nowhere'],
    ],
    last: [20.7, 182.2],
  },
  {
    name: 'one JSON object a probe',
    lines: [
      '{"sensor":"pot","temp_c":20.5}',
      '{"sensor":"flue","temp_c":180.5}',
      '{"sensor":"pot","temp_c":20.6}',
      '{"temp_c":181.5,"sensor":"flue"}',
    ],
    layout: 'json',
    columns: [
      ['pot.temp_c', 'Cel', 'heading'],
      ['flue.temp_c', 'Cel', 'heading'],
    ],
    last: [20.6, 181.5],
  },
  {
    name: 'a clock before an arrow, put there by whoever passes the lines on',
    lines: ['12:34:56.789 -> 20.50 °C 180.2 °C', '12:34:57.790 -> 20.56 °C 181.2 °C', '12:34:58.791 -> 20.6 °C 182 °C'],
    layout: 'columns',
    columns: [
      ['Column 1', 'Cel', 'number'],
      ['Column 3', 'Cel', 'number'],
    ],
    last: [20.6, 182],
  },
  {
    name: 'brackets, arrows and a clock',
    lines: [
      '[00:00:01] pot -> 20.5 C, flue -> 180 C',
      '[00:00:02] flue -> 181 C, pot -> 20.6 C',
      '[00:00:03] pot -> 20.7 C, flue -> 182 C',
    ],
    layout: 'labelled',
    columns: [
      ['pot', 'Cel', 'number'],
      ['flue', 'Cel', 'number'],
    ],
    last: [20.7, 182],
  },
  {
    name: 'a scale indicator: stable or not, gross or net, sign, blanks and unit',
    lines: ['ST,GS,+  12.34kg', 'US,GS,+  12.30kg', 'OL,GS,+ -----kg', 'ST,NT,-   0.02kg'],
    layout: 'columns',
    columns: [['Column 3', 'kg', 'number']],
    last: [-0.02],
  },
  {
    name: 'a serial number before each value, one probe a line, decimal comma',
    lines: ['T28FF641E: 20,50 °F', 'T28FF77A0: 212,00 °F', 'T28FF641E: 68,00 °F', 'T28FF77A0: 212,18 °F'],
    layout: 'labelled',
    columns: [
      ['T28FF641E', '[degF]', 'number'],
      ['T28FF77A0', '[degF]', 'number'],
    ],
    last: [20, 100.1],
  },
];
