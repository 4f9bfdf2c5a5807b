/** "Take it with you": reports to print or send, and data in open formats. */
import type { VNode } from 'preact';
import type { CompareOptions } from '../../addresses/compare-route.ts';
import { queryText } from '../../lib/api.ts';
import { translateCompare } from '../../state/catalogue.ts';
import { type ComparedIds, comparisonQuery } from '../../state/comparisons.ts';
import { paper } from '../../state/paper.ts';
import { language } from '../../state/preferences.ts';
import { Choice } from '../forms/field.tsx';

interface File {
  readonly href: string;
  readonly text: string;
}

/** Reports of a comparison. */
export function ComparisonFiles({ ids, options }: { ids: ComparedIds; options: CompareOptions }): VNode {
  const words = translateCompare().files;
  const asked = queryText({ ...comparisonQuery(ids, options), language: language.value });
  return (
    <TakeWith
      reports={[
        { href: `/api/comparison/report.pdf?${asked}&paper=${paper.value}`, text: words.pdf },
        { href: `/api/comparison/report.html?${asked}`, text: words.html },
      ]}
      data={[]}
    />
  );
}

/** Reports and data of one burn. */
export function BurnFiles({ burnId }: { burnId: string }): VNode {
  const words = translateCompare().files;
  const at = (file: string) => `/api/burns/${burnId}/${file}`;
  return (
    <TakeWith
      reports={[
        { href: `${at('report.pdf')}?language=${language.value}&paper=${paper.value}`, text: words.pdf },
        { href: `${at('report.html')}?language=${language.value}`, text: words.html },
        { href: `${at('curves.svg')}?language=${language.value}`, text: words.svg },
      ]}
      data={[
        { href: at('burn.xlsx'), text: words.xlsx },
        { href: at('readings.csv'), text: words.readingsCsv },
        { href: at('readings.parquet'), text: words.parquet },
        { href: at('results.csv'), text: words.resultsCsv },
        { href: at('record'), text: words.record },
        { href: at('package.zip'), text: words.package },
      ]}
    />
  );
}

function TakeWith({ reports, data }: { reports: readonly File[]; data: readonly File[] }): VNode {
  const words = translateCompare().files;
  return (
    <section class="take-with" aria-labelledby="take-with-title">
      <h2 id="take-with-title">{words.title}</h2>
      <div class="laid-controls">
        <Choice
          label={words.paper}
          value={paper.value}
          options={[
            ['a4', 'A4'],
            ['letter', words.letter],
          ]}
          onChange={(next) => {
            paper.value = next;
          }}
        />
        <FileLinks title={words.reports} files={reports} />
        {data.length > 0 && <FileLinks title={words.data} files={data} />}
      </div>
    </section>
  );
}

function FileLinks({ title, files }: { title: string; files: readonly File[] }): VNode {
  return (
    <div class="file-links">
      <h3>{title}</h3>
      <ul class="row">
        {files.map(({ href, text }) => (
          <li key={text}>
            <a class="button" href={href} download>
              {text}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}
