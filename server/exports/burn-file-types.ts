/** What a burn can leave as, without the code that writes it. */

/** By the name that also ends the address of the file. */
export const burnFileTypes = {
  'readings.csv': 'text/csv; charset=utf-8; header=present',
  'results.csv': 'text/csv; charset=utf-8; header=present',
  'marks.csv': 'text/csv; charset=utf-8; header=present',
  'weighings.csv': 'text/csv; charset=utf-8; header=present',
  'burn.xlsx': 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
  'readings.parquet': 'application/vnd.apache.parquet',
  'package.zip': 'application/zip',
  record: 'application/json; charset=utf-8',
} as const;

export type BurnFileName = keyof typeof burnFileTypes;
