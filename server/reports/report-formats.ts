/** The formats of a report, without the code that writes them. */

export const reportFormats = {
  'report.pdf': 'application/pdf',
  'report.html': 'text/html; charset=utf-8',
  'curves.svg': 'image/svg+xml',
} as const;
export type ReportFormat = keyof typeof reportFormats;
