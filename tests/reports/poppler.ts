import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { outputOf } from '../support/run-program.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';

/** Reads a PDF with an independent program. */
export function poppler(pdf: Buffer) {
  const file = join(temporaryFolder(), 'report.pdf');
  writeFileSync(file, pdf);
  const run = (program: string, ...args: string[]) => outputOf(program, [...args, file]);
  const text = (...pages: string[]) => outputOf('pdftotext', ['-layout', ...pages, file, '-']);
  const xml = () => outputOf('pdftohtml', ['-xml', '-i', '-stdout', file]);
  return {
    text: () => text(),
    /** Lines are wrapped in narrow columns: white space between words is normalised. */
    words: () => text().replace(/\s+/g, ' '),
    firstPage: () => text('-l', '1'),
    /** Returns the lines of text of each page, those of its footer included. */
    linesOfPages: () =>
      text()
        .split('\f')
        .slice(0, -1)
        .map((page) => page.split('\n').filter((line) => line.trim() !== '')),
    structure: () => run('pdfinfo', '-struct-text'),
    /** Fonts with their sizes, pieces of text by font, and bookmarks. */
    xml,
    /** Returns the font size of a piece of text, and every colour of text. */
    typeOf(piece: string) {
      const found = xml();
      const font = new RegExp(`<text [^>]*font="(\\d+)"[^>]*>(?:<b>)?${piece}`).exec(found)?.[1];
      return Number(new RegExp(`<fontspec id="${font}" size="(\\d+)"`).exec(found)?.[1]);
    },
    colors: () => [...new Set([...xml().matchAll(/<fontspec [^>]*color="(#\w{6})"/g)].map(([, color]) => color!))],
    info: () => run('pdfinfo'),
    fonts: () => run('pdffonts').trim().split('\n').slice(2),
    images: () => run('pdfimages', '-list').trim().split('\n').slice(2),
  };
}
